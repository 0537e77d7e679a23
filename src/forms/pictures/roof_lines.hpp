// The roof seen from above: plate, eave and every rafter as lines on the ground plan.
//
// Taken back from the figures of the carry, for a drawing: meters, plan frame.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/point.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::forms {

struct RafterLine {
  std::size_t part = 0;  ///< of the carry
  base::Point foot;      ///< at the eave
  base::Point plate;     ///< on the plate line
  base::Point head;
};

struct RoofLines {
  std::vector<std::string> labels;
  std::vector<base::Point> plate;  ///< a corner each
  std::vector<base::Point> eave;
  std::vector<base::Point> hub;  ///< empty without one
  std::vector<RafterLine> rafters;
  base::Point apex;
};

/// `found`: the corners that the carry was made over; without it, or where the carry has no found
/// figures, the roof as planned.
RoofLines roof_lines(const job::Job& job, const roof::Carry& carry,
                     const roof::FoundCorners* found);

/// Whether any part has a found figure.
bool has_found(const roof::Carry& carry);

}  // namespace stakewright::forms
