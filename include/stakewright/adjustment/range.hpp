// How far apart the largest and the smallest of several good readings may lie.
//
// Formula and source: docs/methods/field-form.md.
#pragma once

namespace stakewright::adjustment {

/// Chance that `count` independent standard normals lie within `width` of each other, largest to
/// smallest.  `count` 2 or more, `width` 0 or more.
double range_chance(double width, int count);

/// Width they keep to with chance `confidence`, in (0, 1).
double range_limit(double confidence, int count);

}  // namespace stakewright::adjustment
