#include "options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "stakewright/base/error.hpp"

namespace stakewright::draw {
std::variant<Options, Text> options_from(int argc, const char* const* argv) {
  CLI::App app("Draws for the command stakewright, which runs this program.", "stakewright-draw");
  app.set_version_flag("--version", std::string("stakewright-draw ") + STAKEWRIGHT_VERSION,
                       "Print the version");
  app.require_subcommand(1);

  Options options;
  std::string units;
  std::string paper;
  std::string tapes;
  CLI::App* form = app.add_subcommand("form", "The field form to print");
  form->add_option("JOB", options.job, "The job file")->required();
  form->add_option("READINGS", options.readings, "The readings file, for the correction sheet");
  form->add_option("--round", options.round, "The round of readings to take (the latest)");
  form->add_option("-o,--output", options.output, "The form to write: .pdf")->required();
  form->add_option("--units", units, "feet-inches, mm or m; without it the job's");
  form->add_option("--paper", paper, "letter or a4; without it by the units");
  form->add_flag("--show-planned", options.show_planned,
                 "Print planned lengths on the reading sheet");
  form->add_option("--tapes", tapes, "plan or all; without it by the number of sides");
  form->add_option("--language", options.language, "Language of the form (en)");
  form->add_option("--forms", options.forms, "A folder of wording files, <language>.toml");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Text{app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Text{std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    throw base::InputError(fmt::format("{}; see stakewright-draw --help", error.what()));
  }
  if (!units.empty())
    options.units = base::read_at("--units", [&] { return base::units_from_word(units); });
  if (!paper.empty())
    options.paper = base::read_at("--paper", [&] { return forms::paper_from_text(paper); });
  if (!tapes.empty())
    options.tapes = base::read_at("--tapes", [&] { return forms::tape_set_from_text(tapes); });
  return options;
}

}  // namespace stakewright::draw
