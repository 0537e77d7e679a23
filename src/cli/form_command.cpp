#include <fmt/format.h>

#include "commands.hpp"
#include "console.hpp"
#include "draw_program.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"

namespace stakewright::cli {

int form(const Options& options) {
  ending_among(options.output, {".pdf"});
  const job::Job job = job::read_job(options.job);
  std::vector<std::string> arguments{"form", options.job, "-o", options.output};
  if (!options.readings.empty()) arguments.insert(arguments.begin() + 2, options.readings);
  if (!options.round.empty()) arguments.insert(arguments.end(), {"--round", options.round});
  if (options.units) arguments.insert(arguments.end(), {"--units", base::word_of(*options.units)});
  if (!options.paper.empty()) arguments.insert(arguments.end(), {"--paper", options.paper});
  if (options.show_planned) arguments.emplace_back("--show-planned");
  if (!options.tapes.empty()) arguments.insert(arguments.end(), {"--tapes", options.tapes});
  if (!options.language.empty())
    arguments.insert(arguments.end(), {"--language", options.language});
  if (!options.forms.empty()) arguments.insert(arguments.end(), {"--forms", options.forms});
  const int status = run_draw_program(arguments);
  if (status != kAllInTolerance) return status;
  if (options.json) {
    print(output::written_json("form", job.title, options.output));
  } else {
    remark(in_language(fmt::format("Wrote {}.", options.output)));
  }
  return status;
}

}  // namespace stakewright::cli
