#include <fmt/format.h>

#include <algorithm>

#include "commands.hpp"
#include "console.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "reports.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/readings/corrections.hpp"
#include "stakewright/readings/missing_figures.hpp"
#include "stakewright/readings/setting_out.hpp"
#include "stakewright/results/layout.hpp"
#include "text.hpp"

namespace stakewright::cli {
namespace {

std::string tapes_of(const job::Job& job) {
  std::vector<std::string> names;
  for (const readings::Instrument& instrument : job.instruments)
    if (instrument.kind == readings::Kind::tape) names.push_back(instrument.name);
  return fmt::format("{}", fmt::join(names, ", "));
}

const readings::Instrument& tape_named(const std::string& name, const job::Job& job) {
  const readings::Instrument* found = readings::instrument_named(job.instruments, name);
  if (found != nullptr && found->kind == readings::Kind::tape) return *found;
  const std::string kind =
      found == nullptr ? "" : fmt::format(", a {}", readings::instrument_word_of(found->kind));
  throw base::InputError(fmt::format("--with: read {}{}; accepted: a tape of the job: {}",
                                     base::in_quotes(name), kind, tapes_of(job)));
}

double quantity_option(const char* option, const std::string& text, base::Quantity quantity) {
  return base::read_at(option, [&] { return base::quantity_from_text(text, quantity); });
}

void demand(bool holds, const char* option, const std::string& text, const char* accepted) {
  if (holds) return;
  throw base::InputError(
      fmt::format("{}: read {}; accepted: {}", option, base::in_quotes(text), accepted));
}

double temperature_c(const std::string& text) {
  const double read_c = quantity_option("--temperature", text, base::Quantity::temperature);
  demand(read_c >= readings::kColdestTape_c && read_c <= readings::kWarmestTape_c, "--temperature",
         text, "a temperature from -40 to 60 C");
  return read_c;
}

double pull_n(const std::string& text) {
  const double read_n = quantity_option("--pull", text, base::Quantity::pull);
  demand(read_n > 0.0 && read_n <= readings::kHardestPull_n, "--pull", text,
         "a pull above 0 and up to 2000 N");
  return read_n;
}

/// `blue tape, at 35F and pulled 20lbf`, as the options have it.
std::string words_of_tape(const Options& options) {
  std::string words = plain(options.with);
  if (!options.temperature.empty()) words += ", at " + plain(options.temperature);
  if (!options.pull.empty())
    words += (options.temperature.empty() ? ", pulled " : " and pulled ") + plain(options.pull);
  return words;
}

/// The tape that the layout is set out with; nothing without `--with`.  Throws InputError, naming
/// the option, for an instrument that is not there or no tape, and for a temperature or a pull that
/// is none.
std::optional<results::WithTape> with_tape(const Options& options, const job::Job& job) {
  if (options.with.empty()) return {};
  results::WithTape with;
  with.tape = tape_named(options.with, job);
  if (!options.temperature.empty()) with.held.temperature_c = temperature_c(options.temperature);
  if (!options.pull.empty()) with.held.pull_n = pull_n(options.pull);
  if (!options.supports.empty())
    with.held.spans =
        base::read_at("--supports", [&] { return job::spans_from_text(options.supports); });
  with.words = words_of_tape(options);
  return with;
}

/// What to read on the tape asked for, and remarks on what it cannot be corrected for.
void add_tape(const Options& options, const job::Job& job, results::LayoutResult& result) {
  result.with = with_tape(options, job);
  if (!result.with) return;
  readings::Reading as_held;
  as_held.instrument = result.with->tape.name;
  as_held.temperature_c = result.with->held.temperature_c;
  as_held.pull_n = result.with->held.pull_n;
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), job.units);
  for (const base::Fact& remark : readings::missing_figures({as_held}, job.instruments))
    result.order.remarks.push_back(english.text(remark));
}

}  // namespace

int layout(const Options& options, const Painter* painter) {
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  results::LayoutResult result = results::layout_of(job);
  add_tape(options, job, result);
  const Shown shown{units, emphasis_for_stdout()};
  deliver(options, {.json = [&] { return output::layout_json(job, result); },
                    .report = [&] { return layout_report(job, result, shown); },
                    .remarks = in_language(result.order.remarks),
                    .kinds = {{".csv", [&] { return output::points_csv(job, result, units); }},
                              {".dxf", [&] { return output::layout_dxf(job, result, units); }}},
                    .drawing = [&] { return painter->plan(options, job, result); }});
  const bool crosses = std::any_of(result.clearances.begin(), result.clearances.end(),
                                   [](const auto& clearance) { return clearance.crosses; });
  return crosses ? kOutOfTolerance : kAllInTolerance;
}

}  // namespace stakewright::cli
