#include "options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "stakewright/base/error.hpp"

namespace stakewright::draw {
namespace {

/// What CLI11 fills in; words are turned into values afterward.
struct Raw {
  Options options;
  std::string units;
  std::string paper;
  std::string tapes;
};

CLI::App& add(CLI::App& app, Raw& raw, What what, const char* name, const char* help) {
  CLI::App& added = *app.add_subcommand(name, help);
  added.parse_complete_callback([&raw, what] { raw.options.what = what; });
  added.add_option("JOB", raw.options.job, "The job file")->required();
  added.add_option("--units", raw.units, "feet-inches, mm or m; without it the job's");
  added.add_option("--paper", raw.paper, "letter or a4; without it by the units");
  added.add_option("--language", raw.options.language, "Language of the words (en)");
  added.add_option("--forms", raw.options.forms, "A folder of wording files, <language>.toml");
  return added;
}

void add_form(CLI::App& app, Raw& raw) {
  CLI::App& form = add(app, raw, What::form, "form", "The field form to print");
  form.add_option("-o,--output", raw.options.output, "The form to write: .pdf")->required();
  form.add_flag("--show-planned", raw.options.show_planned,
                "Print planned lengths on the reading sheet");
  form.add_option("READINGS", raw.options.readings, "The readings file, for the correction sheet");
  form.add_option("--round", raw.options.round, "The round of readings to take (the latest)");
  form.add_option("--tapes", raw.tapes, "plan or all; without it by the number of sides");
}

CLI::App& add_picture(CLI::App& app, Raw& raw, What what, const char* name, const char* help) {
  CLI::App& picture = add(app, raw, what, name, help);
  picture.add_option("-o,--output", raw.options.output, "The file to write: .pdf, .svg or .png")
      ->required();
  picture.add_option("--drawing", raw.options.drawing, "The one drawing to write");
  picture.add_option("--round", raw.options.round, "Of the readings; without it the latest");
  picture.add_option("--width", raw.options.width_px, "Width of a .png in pixels");
  return picture;
}

void add_pictures(CLI::App& app, Raw& raw) {
  add_picture(app, raw, What::layout, "layout", "The plan");
  add_picture(app, raw, What::check, "check", "What was found against the plan")
      .add_option("READINGS", raw.options.readings, "The readings file")
      ->required();
  add_picture(app, raw, What::carry, "carry", "The roof and its parts")
      .add_option("READINGS", raw.options.readings, "The readings file");
}

void add_readings(CLI::App& app, Raw& raw) {
  CLI::App& readings =
      *app.add_subcommand("readings", "A filled form's readings as CSV, to stdout");
  readings.add_option("JOB", raw.options.job, "The job file")->required();
  readings.add_option("FORM", raw.options.readings, "The filled form (PDF)")->required();
  readings.parse_complete_callback([&raw] { raw.options.what = What::readings; });
}

Options checked(Raw raw) {
  if (!raw.units.empty())
    raw.options.units = base::read_at("--units", [&] { return base::units_from_word(raw.units); });
  if (!raw.paper.empty())
    raw.options.paper = base::read_at("--paper", [&] { return forms::paper_from_text(raw.paper); });
  if (!raw.tapes.empty())
    raw.options.tapes =
        base::read_at("--tapes", [&] { return forms::tape_set_from_text(raw.tapes); });
  return std::move(raw.options);
}

}  // namespace

std::variant<Options, Text> options_from(int argc, const char* const* argv) {
  CLI::App app("Draws for the command stakewright, which runs this program.", "stakewright-draw");
  app.set_version_flag("--version", std::string("stakewright-draw ") + STAKEWRIGHT_VERSION,
                       "Print the version");
  app.require_subcommand(1);
  Raw raw;
  add_form(app, raw);
  add_pictures(app, raw);
  add_readings(app, raw);
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Text{app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Text{std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    throw base::InputError(fmt::format("{}; see stakewright-draw --help", error.what()));
  }
  return checked(std::move(raw));
}

}  // namespace stakewright::draw
