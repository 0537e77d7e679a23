#include "commands.hpp"

#include <cassert>
#include <exception>

#include "console.hpp"
#include "draw_program.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::cli {

int guarded(const std::function<int()>& work) {
  outlive_failed_writes();
  try {
    return work();
  } catch (const AlreadyTold&) {
    return kBadInput;
  } catch (const base::InputError& error) {
    complain(wording::Voice(wording::built_in(wording::kUsualLanguage), base::Units::millimeters)
                 .text(error));
  } catch (const std::exception& error) {
    complain(std::string("a fault of the program, not of your files: ") + error.what());
  }
  return kBadInput;
}

int command(int argc, char** argv, const Painter* painter) {
  return guarded([&] {
    const auto asked = options_from(argc, argv);
    if (const auto* text = std::get_if<Text>(&asked)) {
      print(text->text);
      return kAllInTolerance;
    }
    const auto& options = std::get<Options>(asked);
    if (painter == nullptr && draws(options)) become_draw_program(argv);
    return run(options, painter);
  });
}

int run(const Options& options, const Painter* painter) {
  assert(painter != nullptr || !draws(options));
  switch (options.command) {
    case Command::start:
      return start(options);
    case Command::layout:
      return layout(options, painter);
    case Command::tapes:
      return tapes(options);
    case Command::form:
      return form(options, painter);
    case Command::check:
      return check(options, painter);
    case Command::carry:
      return carry(options, painter);
  }
  return kAllInTolerance;
}

}  // namespace stakewright::cli
