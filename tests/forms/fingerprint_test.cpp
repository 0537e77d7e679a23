#include "stakewright/forms/fingerprint.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <set>

namespace stakewright::forms {
namespace {

layout::Plan plan() {
  layout::Plan plan;
  plan.polygon = {6, 2.8};
  plan.hold = {"A", "B"};
  plan.pins = {{"P1", {-4.0, -3.0}}};
  plan.lines = {{"plate", 0.07}};
  plan.keep_clear = {{"boundary", true, {{-6, -6}, {6, -6}, {6, 6}, {-6, 6}}}};
  return plan;
}

TEST(Fingerprint, IsShortEnoughToReadOverThePhone) {
  EXPECT_THAT(fingerprint(plan()), testing::MatchesRegex("[0-9A-F]{4}-[0-9A-F]{4}"));
}

TEST(Fingerprint, ChangesWithWhateverMovesOrRenamesAStake) {
  const std::vector<std::function<void(layout::Plan&)>> changes{
      [](auto& p) { p.polygon.sides = 7; },
      [](auto& p) { p.polygon.corner_radius_m += 0.0001; },
      [](auto& p) { p.center.x_m += 0.001; },
      [](auto& p) { p.center.y_m += 0.001; },
      [](auto& p) { p.facing_rad += 0.001; },
      [](auto& p) { p.batter_setback_m = 1.2; },
      [](auto& p) {
        p.hold = {"A", "C"};
      },
      [](auto& p) { p.hold = {"AB"}; },
      [](auto& p) { p.pins[0].at.x_m += 0.001; },
      [](auto& p) { p.pins[0].name = "P2"; },
      [](auto& p) { p.lines[0].offset_m = 0.08; },
      [](auto& p) { p.lines[0].name = "eave"; },
      [](auto& p) { p.keep_clear[0].keep_inside = false; },
      [](auto& p) { p.keep_clear[0].outline[2].y_m = 7.0; },
      [](auto& p) { p.keep_clear[0].name = "tree"; }};
  std::set<std::string> seen{fingerprint(plan())};
  for (std::size_t i = 0; i < changes.size(); ++i) {
    layout::Plan changed = plan();
    changes[i](changed);
    EXPECT_TRUE(seen.insert(fingerprint(changed)).second) << "change " << i;
  }
}

TEST(Fingerprint, StaysWhenALengthComesByAnotherUnit) {
  layout::Plan changed = plan();
  changed.polygon.corner_radius_m = 2.8 / 0.0254 * 0.0254 + 1e-12;
  EXPECT_EQ(fingerprint(changed), fingerprint(plan()));
}

}  // namespace
}  // namespace stakewright::forms
