#include "stakewright/roof/roof.hpp"

#include <cmath>

namespace stakewright::roof {

std::string_view name_of(PartKind kind) {
  switch (kind) {
    case PartKind::hip:
      return "hip";
    case PartKind::common:
      return "common";
    case PartKind::jack:
      return "jack";
    case PartKind::blocking:
      return "blocking";
    case PartKind::fascia:
      return "fascia";
    case PartKind::beam:
      return "beam";
    case PartKind::post:
      return "post";
    case PartKind::hub:
      return "hub";
  }
  return {};
}

double line_to_cut_m(const Part& part) {
  return part.fit == Fit::own && part.line.found ? *part.line.found : part.line.planned;
}

double square_figure_m(double angle_rad, double arm_m) { return arm_m * std::tan(angle_rad); }

}  // namespace stakewright::roof
