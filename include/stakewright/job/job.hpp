// The job file (TOML) as plain structs.  Keys: docs/file-formats.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/layout/pour.hpp"
#include "stakewright/levels/rods.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/roof/spec.hpp"
#include "stakewright/roof/stock.hpp"

namespace stakewright::job {

/// Name of the line the roof ends at, among the lines of a layout.
inline constexpr const char* kRoofEdgeName = "roof edge";

struct Job {
  std::string title;
  base::Units units = base::Units::millimeters;
  layout::Plan plan;
  std::string stated_size;      ///< the plan's size as the file puts it: `across_flats 16ft`
  double plate_offset_m = 0.0;  ///< of the line named "plate"; 0 when there is none
  base::Tolerance tolerance;
  base::Staking staking;
  levels::Wanted levels;
  std::vector<readings::Instrument> instruments;  ///< built-in ones, then the job's own
  roof::Spec roof;
  bool has_roof = false;             ///< the file has a [roof] table
  roof::Stock stock;                 ///< what the yard sells
  std::optional<layout::Pour> pour;  ///< of its [pour] table
};

/// Reads a job file.  Throws InputError with file, line and key, what was read
/// and what is accepted; an unknown key names the nearest known one.
Job read_job(const std::string& path);

/// The same from text; `name` stands for the file in messages.
Job job_from_text(std::string_view text, const std::string& name);

/// A commented job file that runs as it stands (`stakewright start`).
std::string starter_job();

}  // namespace stakewright::job
