#include "with_tape.hpp"

#include <fmt/format.h>

#include "stakewright/base/error.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/readings/corrections.hpp"
#include "stakewright/readings/setting_out.hpp"
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

void demand_with(const Options& options) {
  if (!options.with.empty()) return;
  for (const auto& [name, text] :
       {std::pair{"--temperature", options.temperature}, std::pair{"--pull", options.pull},
        std::pair{"--supports", options.supports}}) {
    if (!text.empty())
      throw base::InputError(fmt::format("{}: name the tape as well, with --with", name));
  }
}

}  // namespace

std::optional<results::WithTape> with_tape(const Options& options, const job::Job& job) {
  demand_with(options);
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

}  // namespace stakewright::cli
