#include "options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "stakewright/base/error.hpp"

namespace stakewright::draw {
namespace {

base::Units units_from(const std::string& word) {
  if (word == "feet-inches") return base::Units::feet_inches;
  if (word == "mm") return base::Units::millimetres;
  if (word == "m") return base::Units::metres;
  throw base::InputError(
      fmt::format("--units: read \"{}\"; accepted are feet-inches, mm, m", word));
}

forms::Paper paper_from(const std::string& word) {
  try {
    return forms::paper_from_text(word);
  } catch (const base::InputError& error) {
    throw error.at("--paper");
  }
}

}  // namespace

std::variant<Options, Text> options_from(int argc, const char* const* argv) {
  CLI::App app("Draws for the command stakewright, which runs this program.", "stakewright-draw");
  app.set_version_flag("--version", std::string("stakewright-draw ") + STAKEWRIGHT_VERSION,
                       "Print the version");
  app.require_subcommand(1);

  Options options;
  std::string units;
  std::string paper;
  CLI::App* form = app.add_subcommand("form", "The field form to print");
  form->add_option("JOB", options.job, "The job file")->required();
  form->add_option("-o,--output", options.output, "The form to write: .pdf")->required();
  form->add_option("--units", units, "feet-inches, mm or m; without it the job's");
  form->add_option("--paper", paper, "letter or a4; without it by the units");
  form->add_flag("--show-planned", options.show_planned,
                 "Print planned lengths on the reading sheet");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Text{app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Text{std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    throw base::InputError(fmt::format("{}; see stakewright-draw --help", error.what()));
  }
  if (!units.empty()) options.units = units_from(units);
  if (!paper.empty()) options.paper = paper_from(paper);
  return options;
}

}  // namespace stakewright::draw
