// Drawing scales that a rule or a tape can read back.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"

namespace stakewright::forms {

struct Scale {
  double denominator = 50.0;  ///< 1:50
  std::string words;          ///< `1:50`, or `1/4 in = 1 ft (1:48)`

  [[nodiscard]] double points_per_meter() const;
};

/// The largest usual scale at which `size_m` on the ground takes no more than `room_pt` on paper.
Scale scale_for(double size_m, double room_pt, base::Units units);

/// A round length for a scale bar of at most `room_pt`, in meters.
double bar_length_m(const Scale& scale, double room_pt, base::Units units);

}  // namespace stakewright::forms
