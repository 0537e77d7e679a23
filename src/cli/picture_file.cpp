#include "picture_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "draw_program.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/job/file.hpp"

namespace stakewright::cli {
namespace {

const std::vector<std::string> kPictures{".pdf", ".svg", ".png"};

void demand_a_picture(const Options& options) {
  const auto demand = [](bool given, const char* name, const char* endings) {
    if (given)
      throw base::InputError(fmt::format("{} is for a drawing; it goes with -o {}", name, endings));
  };
  if (is_picture(options.output)) {
    const bool png = job::ending_of(options.output) == ".png";
    demand(options.width_px != 0 && !png, "--width", "FILE.png");
    return;
  }
  demand(options.width_px != 0, "--width", "FILE.png");
  demand(!options.drawing.empty(), "--drawing", "FILE.pdf, .svg or .png");
  demand(!options.paper.empty(), "--paper", "FILE.pdf, .svg or .png");
}

}  // namespace

std::vector<std::string> with_pictures(std::vector<std::string> endings) {
  endings.insert(endings.end(), kPictures.begin(), kPictures.end());
  return endings;
}

bool is_picture(const std::string& path) {
  return std::find(kPictures.begin(), kPictures.end(), job::ending_of(path)) != kPictures.end();
}

int draw_picture(const std::string& command, const Options& options) {
  demand_a_picture(options);
  if (!is_picture(options.output)) return 0;
  std::vector<std::string> arguments{command, "-o", options.output};
  const auto add = [&arguments](const char* name, const std::string& value) {
    if (!value.empty()) arguments.insert(arguments.end(), {name, value});
  };
  add("--units", options.units ? base::word_of(*options.units) : "");
  add("--paper", options.paper);
  add("--language", options.language);
  add("--forms", options.forms);
  add("--round", options.round);
  add("--drawing", options.drawing);
  add("--width", options.width_px == 0 ? "" : std::to_string(options.width_px));
  // After "--" a name that starts with a dash is a name.
  arguments.insert(arguments.end(), {"--", options.job});
  if (!options.readings.empty()) arguments.push_back(options.readings);
  return run_draw_program(arguments);
}

}  // namespace stakewright::cli
