#include <fmt/format.h>

#include <filesystem>

#include "commands.hpp"
#include "console.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"

namespace stakewright::cli {

int start(const Options& options) {
  std::error_code unknown;
  const auto found = std::filesystem::symlink_status(options.job, unknown);
  if (std::filesystem::exists(found)) {
    throw base::InputError(
        fmt::format("{} is there already and is not overwritten; name another file", options.job));
  }
  const std::string text = job::starter_job();
  job::write_file(options.job, text);
  const std::string title = job::job_from_text(text, options.job).title;
  if (options.json) {
    print(output::written_json("start", title, options.job));
  } else {
    remark(fmt::format("Wrote {}. Edit it, then: stakewright layout {}", options.job, options.job));
  }
  return kAllInTolerance;
}

}  // namespace stakewright::cli
