// Sizes a cause comes in, gathered kind by kind into shares that add to one.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "slips.hpp"

namespace stakewright::suspects {

/// A size of no kind of its own: how often, and its standard deviation.
struct Width {
  double share;
  double sd;
};
/// Gathers parts; what a kind does not use goes to the slips of no kind.
class Mixture {
 public:
  void add(SlipKind kind, double mean, double sd, double share) {
    parts_.push_back({{mean, 0.0}, sd, share, kind});
  }
  /// One share split evenly over several sizes.
  void add_all(SlipKind kind, const std::vector<double>& sizes, double sd, double share) {
    for (const double size : sizes) add(kind, size, sd, share / static_cast<double>(sizes.size()));
  }
  template <std::size_t n>
  void add_widths(const Width (&widths)[n]) {
    for (const Width& width : widths) add(SlipKind::any, 0.0, width.sd, width.share);
  }

  [[nodiscard]] std::vector<Component> normalized() const {
    double any = 0.0;
    double kinds = 0.0;
    for (const Component& part : parts_)
      (part.kind == SlipKind::any ? any : kinds) += part.log_share;
    std::vector<Component> result = parts_;
    for (Component& part : result)
      part.log_share = std::log(part.kind == SlipKind::any ? part.log_share * (1.0 - kinds) / any
                                                           : part.log_share);
    return result;
  }

 private:
  std::vector<Component> parts_;  ///< `log_share` holds the share until `normalized`
};

}  // namespace stakewright::suspects
