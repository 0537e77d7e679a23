#include "commands.hpp"

#include "language.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::cli {
namespace {

// JSON is the same in every language, a form is drawn by another program, and a job file to edit
// is in English.
bool has_report(const Options& options) {
  return !options.language.empty() && !options.json && options.command != Command::form &&
         options.command != Command::start;
}

}  // namespace

int run(const Options& options) {
  if (has_report(options)) speak(options, job::read_job(options.job));
  switch (options.command) {
    case Command::start:
      return start(options);
    case Command::layout:
      return layout(options);
    case Command::tapes:
      return tapes(options);
    case Command::form:
      return form(options);
    case Command::check:
      return check(options);
    case Command::carry:
      return carry(options);
  }
  return 0;
}

}  // namespace stakewright::cli
