// Planned against found: difference, uncertainty, whether the pattern fits, and the joints that
// open when every piece is cut to it.
#pragma once

#include <cstddef>
#include <vector>

#include "bay.hpp"
#include "exact.hpp"
#include "plate.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// One share of a gap: a figure of a corner's bay, off from its planned value, times a lever.
struct Share {
  std::size_t corner = 0;
  Linear found;
  double planned = 0.0;
  double lever = 1.0;
};

class Judge {
 public:
  /// `found` must outlive the judge; null when there is none.
  Judge(const base::Tolerance& tolerance, const Found* found);

  [[nodiscard]] bool has_found() const { return found_ != nullptr; }

  /// The figure of the bay of a corner.
  [[nodiscard]] Figure figure(const Linear& planned, const Linear& found, std::size_t corner) const;

  /// A figure whose variance is known by itself.
  [[nodiscard]] Figure figure(double planned, double found, double variance) const;

  /// Pattern when difference and uncertainty over the lever stay within the part tolerance.
  [[nodiscard]] Fit fit(const Figure& figure, double lever) const;

  /// Gap and its half-width where figures of one or more bays add up.
  [[nodiscard]] Joint joint(const Place& at, JointName what,
                            const std::vector<Share>& shares) const;

 private:
  double part_tolerance_m_;
  double factor_;
  const Found* found_;
};

/// Joints of all bays, corner after corner.  docs/methods/roof.md lists them.
std::vector<Joint> joints(const Roof& roof, const std::vector<Bay>& planned,
                          const std::vector<Bay>& found, const Judge& judge);

}  // namespace stakewright::roof
