#include "options.hpp"

#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <utility>
#include <vector>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/version.hpp"

namespace stakewright::cli {
namespace {

constexpr const char* kDescription =
    "Stakes, check diagonals and corrections for the footings of a regular-polygon shelter.";
constexpr const char* kFooter =
    "Exit status: 0 all in tolerance, or the command did its work; 1 something is out of\n"
    "tolerance; 2 bad usage or bad input, and nothing was written; 3 cannot tell yet.\n\n"
    "Sizes, footing depth, frost, uplift and fixings follow the local code and a licensed "
    "designer.";
/// Room for the longest option with its value, so that every description starts on its line.
constexpr std::size_t kOptionColumn = 34;

/// No plan holds more pulls: every pair of 48 corners and their radii, each twice.
constexpr int kMostPulls = 2352;

constexpr const char* kEmpty = "given and empty; accepted: a value, or no such option";

constexpr int kNarrowestPicture_px = 64;
constexpr int kWidestPicture_px = 10000;

/// What CLI11 fills in; words are turned into values afterward.
struct Raw {
  Options options;
  std::string units;
};

void add_common(CLI::App& app, Raw& raw) {
  app.add_flag("--json", raw.options.json, "Write one JSON object to stdout, nothing else");
  app.add_option("--units", raw.units, "What is shown in: feet-inches, mm or m")
      ->type_name("UNITS");
}

void add_language(CLI::App& app, Raw& raw, const char* help) {
  app.add_option("--language", raw.options.language, help)->type_name("LANGUAGE");
  app.add_option("--forms", raw.options.forms, "Your own words: a folder of wording files")
      ->type_name("FOLDER");
}

void add_job(CLI::App& app, Raw& raw) {
  app.add_option("JOB", raw.options.job, "The job file (TOML)")->required()->type_name("FILE");
}

CLI::Option* add_readings(CLI::App& app, Raw& raw) {
  return app
      .add_option("READINGS", raw.options.readings,
                  "The readings: a CSV file, or the filled form (PDF)")
      ->type_name("FILE");
}

void add_round(CLI::App& app, Raw& raw) {
  app.add_option("--round", raw.options.round, "The round of readings to take (the latest)")
      ->type_name("NAME");
}

CLI::Option* add_output(CLI::App& app, Raw& raw, const std::string& help) {
  return app.add_option("-o,--output", raw.options.output, help)->type_name("FILE");
}

/// Options of a command that draws when -o names a drawing.
void add_drawing(CLI::App& app, Raw& raw) {
  app.add_option("--drawing", raw.options.drawing,
                 "The one drawing to write; without it a .pdf has all, others the first")
      ->type_name("NAME");
  app.add_option("--width", raw.options.width_px, "Width of a .png in pixels (1200)")
      ->type_name("N")
      ->check(CLI::Range(kNarrowestPicture_px, kWidestPicture_px));
  app.add_option("--paper", raw.options.paper,
                 "Of a drawing: letter or a4; without it by the units")
      ->type_name("PAPER");
}

CLI::App& add_command(CLI::App& app, Raw& raw, Command command, const std::string& name,
                      const std::string& help) {
  CLI::App& added = *app.add_subcommand(name, help);
  added.parse_complete_callback([&raw, command] { raw.options.command = command; });
  return added;
}

void add_start(CLI::App& app, Raw& raw) {
  CLI::App& start =
      add_command(app, raw, Command::start, "start", "Write a commented job file to edit");
  raw.options.job = "stakewright.toml";
  start
      .add_option("JOB", raw.options.job,
                  "The job file to write; never overwritten (stakewright.toml)")
      ->type_name("FILE");
  add_common(start, raw);
}

void add_layout(CLI::App& app, Raw& raw) {
  CLI::App& layout =
      add_command(app, raw, Command::layout, "layout", "Stakes, swings, check diagonals, lines");
  add_job(layout, raw);
  CLI::Option* with = layout
                          .add_option("--with", raw.options.with,
                                      "A tape: what to read on it to stake the true distance")
                          ->type_name("TAPE");
  layout
      .add_option("--temperature", raw.options.temperature,
                  "Of that tape, such as 35F or 2C (its standard one)")
      ->type_name("T")
      ->needs(with);
  layout
      .add_option("--pull", raw.options.pull,
                  "On that tape, such as 20lbf or 90N (its standard one)")
      ->type_name("FORCE")
      ->needs(with);
  layout
      .add_option("--supports", raw.options.supports,
                  "Of that tape between its ends: how many, or all (0)")
      ->type_name("N")
      ->needs(with);
  add_output(layout, raw,
             "Also write a file: .json, .csv or .dxf (points), .pdf, .svg or .png (plan)");
  add_language(layout, raw, "Language of the report (en)");
  add_drawing(layout, raw);
  add_common(layout, raw);
}

void add_tapes(CLI::App& app, Raw& raw) {
  CLI::App& tapes = add_command(app, raw, Command::tapes, "tapes",
                                "Which tapes to pull (next), and what they would catch");
  add_job(tapes, raw);
  CLI::Option* readings = add_readings(tapes, raw);
  add_round(tapes, raw);
  tapes
      .add_option("--slip", raw.options.slip,
                  "Size of slip to catch in any one reading (1in, or 25mm)")
      ->type_name("LENGTH")
      ->excludes(readings);
  tapes
      .add_option("--shift", raw.options.shift,
                  "Shift of a stake to call out (twice the corner tolerance)")
      ->type_name("LENGTH")
      ->excludes(readings);
  tapes
      .add_option("--at-most", raw.options.at_most,
                  "Pulls there is time for; gives the best so many")
      ->type_name("N")
      ->check(CLI::Range(1, kMostPulls))
      ->excludes(readings);
  add_output(tapes, raw, "Also write a file: .json, or .csv (a readings file to fill in)");
  add_language(tapes, raw, "Language of the report (en)");
  add_common(tapes, raw);
}

void add_form(CLI::App& app, Raw& raw) {
  CLI::App& form =
      add_command(app, raw, Command::form, "form",
                  "The field form, to print or to fill in; with readings, the correction sheet");
  add_job(form, raw);
  CLI::Option* readings = add_readings(form, raw);
  add_round(form, raw);
  add_output(form, raw, "The form to write: .pdf")->required();
  form.add_option("--paper", raw.options.paper, "letter or a4; without it by the units")
      ->type_name("PAPER");
  form.add_flag("--show-planned", raw.options.show_planned,
                "Print the planned lengths on the reading sheet")
      ->excludes(readings);
  form.add_option("--tapes", raw.options.tapes,
                  "plan or all; without it the plan up to 12 sides, above all")
      ->type_name("SET")
      ->excludes(readings);
  add_language(form, raw, "Language of the form (en)");
  add_common(form, raw);
}

void add_check(CLI::App& app, Raw& raw) {
  CLI::App& check =
      add_command(app, raw, Command::check, "check",
                  "Adjust the readings, judge each corner, name suspects, give moves");
  add_job(check, raw);
  add_readings(check, raw)->required();
  add_round(check, raw);
  check.add_option("--since", raw.options.since, "An earlier round: which stakes moved since then")
      ->type_name("NAME");
  check.add_flag("--corrections", raw.options.corrections,
                 "Show what each reading is corrected for");
  add_output(check, raw,
             "Also write a file: .json, .csv or .dxf (points), .pdf, .svg or .png (drawing)");
  add_language(check, raw, "Language of the report (en)");
  add_drawing(check, raw);
  add_common(check, raw);
}

/// One way at most may be asked for.
void add_ways(CLI::App& carry, Raw& raw) {
  const auto add_way = [&](const std::string& name, roof::Way way, const std::string& help) {
    return carry.add_flag_callback(
        name, [&raw, way] { raw.options.way = way; }, help);
  };
  CLI::Option* leave = add_way("--leave", roof::Way::leave, "The corners as found (the usual way)");
  CLI::Option* moves =
      add_way("--after-moves", roof::Way::after_moves, "Once check's moves are made");
  CLI::Option* play = add_way("--with-play", roof::Way::with_play,
                              "With the posts set off their footings by base_play");
  leave->excludes(moves)->excludes(play);
  moves->excludes(play);
}

void add_carry(CLI::App& app, Raw& raw) {
  CLI::App& carry = add_command(app, raw, Command::carry, "carry",
                                "Rafters and fascia: as planned, as found, difference");
  add_job(carry, raw);
  add_readings(carry, raw);
  add_round(carry, raw);
  add_ways(carry, raw);
  CLI::Option* all =
      carry.add_flag("--all", raw.options.all, "List every piece, not only what differs");
  all->excludes(
      carry.add_flag("--cut-sheet", raw.options.cut_sheet, "What to buy and what to saw from it"));
  CLI::Option* sensitivity = carry.add_flag("--sensitivity", raw.options.sensitivity,
                                            "What a shift of one corner does to each piece");
  all->excludes(sensitivity);
  carry.add_option("--shift", raw.options.shift, "That shift of the corner (1/4in, or 5mm)")
      ->type_name("LENGTH")
      ->needs(sensitivity);
  add_output(carry, raw, "Also write a file: .json, or .pdf, .svg, .png (drawings)");
  add_language(carry, raw, "Language of the report (en)");
  add_drawing(carry, raw);
  add_common(carry, raw);
}

/// A value that says nothing is a slip of whoever wrote the line, or of a script's empty variable.
void refuse_empty_values(CLI::App& app) {
  for (CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    for (CLI::Option* option : command->get_options())
      option->check(
          [](const std::string& value) { return value.empty() ? kEmpty : std::string(); });
}

/// CLI11 would take the next word for the value of `--round=`.
void refuse_empty_assignments(int argc, const char* const* argv) {
  for (int i = 1; i < argc && std::string_view(argv[i]) != "--"; ++i) {
    const std::string word = argv[i];
    if (word.starts_with("--") && word.ends_with('='))
      throw base::InputError(fmt::format("{}: {}", word.substr(0, word.size() - 1), kEmpty));
  }
}

/// What a command writes.
std::vector<std::string> endings_of(Command command) {
  switch (command) {
    case Command::layout:
    case Command::check:
      return {".json", ".csv", ".dxf", ".pdf", ".svg", ".png"};
    case Command::carry:
      return {".json", ".pdf", ".svg", ".png"};
    case Command::tapes:
      return {".json", ".csv"};
    case Command::form:
      return {".pdf"};
    case Command::start:
      break;
  }
  return {};
}

void check_ending(const Options& options) {
  if (options.output.empty()) return;
  const std::vector<std::string> accepted = endings_of(options.command);
  const std::string ending = job::ending_of(options.output);
  if (std::find(accepted.begin(), accepted.end(), ending) != accepted.end()) return;
  throw base::InputError(fmt::format(
      "-o {}: the ending says what is written; accepted {} {}", base::in_quotes(options.output),
      accepted.size() == 1 ? "is" : "are", fmt::join(accepted, ", ")));
}

void check_word(const char* option, const std::string& read,
                const std::vector<std::string>& accepted) {
  if (read.empty() || std::find(accepted.begin(), accepted.end(), read) != accepted.end()) return;
  throw base::InputError(fmt::format("{}: read {}; accepted are {}", option, base::in_quotes(read),
                                     fmt::join(accepted, ", ")));
}

/// Options of a drawing where none is made.
void refuse_without_drawing(const Options& options) {
  const auto refuse = [](bool given, const char* name, const char* endings) {
    if (given)
      throw base::InputError(fmt::format("{} is for a drawing; it goes with -o {}", name, endings));
  };
  const bool png = job::ending_of(options.output) == ".png";
  refuse(options.width_px != 0 && !png, "--width", "FILE.png");
  if (draws(options)) return;
  refuse(!options.drawing.empty(), "--drawing", "FILE.pdf, .svg or .png");
  refuse(!options.paper.empty(), "--paper", "FILE.pdf, .svg or .png");
}

Options checked(Raw raw) {
  Options& options = raw.options;
  if (!raw.units.empty())
    options.units = base::read_at("--units", [&] { return base::units_from_word(raw.units); });
  check_ending(options);
  check_word("--paper", options.paper, {"letter", "a4"});
  check_word("--tapes", options.tapes, {"plan", "all"});
  refuse_without_drawing(options);
  if (!options.readings.empty()) return std::move(options);
  if (!options.round.empty())
    throw base::InputError("--round: there are no readings to take a round of");
  if (options.way)
    throw base::InputError(
        "a way to go on was asked for, and there is only the plan; accepted: a readings file");
  return std::move(options);
}

std::vector<std::string> names_of_commands(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(command->get_name());
  }
  return names;
}

/// CLI11 would call a mistyped command an unexpected argument; say which there are.
void check_command_word(const CLI::App& app, int argc, const char* const* argv) {
  const auto names = names_of_commands(app);
  const std::string accepted = fmt::format("the commands are {}", fmt::join(names, ", "));
  if (argc < 2) throw base::InputError("no command given; " + accepted);
  const std::string word = argv[1];
  if (word.starts_with('-') || std::find(names.begin(), names.end(), word) != names.end()) return;
  throw base::InputError(fmt::format("no command {}; {}", base::in_quotes(word), accepted));
}

/// The command named on the command line, for "see its --help".
std::string help_hint(const CLI::App& app) {
  const auto used = app.get_subcommands();
  return used.empty() ? "stakewright --help"
                      : "stakewright " + used.front()->get_name() + " --help";
}

}  // namespace

bool draws(const Options& options) {
  const std::string ending = job::ending_of(options.output);
  return ending == ".pdf" || ending == ".svg" || ending == ".png";
}

std::variant<Options, Text> options_from(int argc, const char* const* argv) {
  refuse_empty_assignments(argc, argv);
  CLI::App app(kDescription, "stakewright");
  Raw raw;
  app.get_formatter()->column_width(kOptionColumn);
  app.set_help_flag("-h,--help", "Show this help and stop");
  app.set_version_flag("--version", "stakewright " + results::version(),
                       "Show the version and stop");
  app.footer(kFooter);
  app.require_subcommand(1);
  add_start(app, raw);
  add_layout(app, raw);
  add_tapes(app, raw);
  add_form(app, raw);
  add_check(app, raw);
  add_carry(app, raw);
  refuse_empty_values(app);
  check_command_word(app, argc, argv);
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Text{app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Text{std::string(version.what()) + '\n'};
  } catch (const CLI::ParseError& error) {
    throw base::InputError(fmt::format("{}; see {}", error.what(), help_hint(app)));
  }
  return checked(std::move(raw));
}

}  // namespace stakewright::cli
