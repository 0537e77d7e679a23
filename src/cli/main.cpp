// The command `stakewright`.
#include <exception>

#include "commands.hpp"
#include "console.hpp"
#include "draw_program.hpp"
#include "options.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/wording/voice.hpp"

int main(int argc, char** argv) {
  using namespace stakewright;
  cli::outlive_failed_writes();
  try {
    const auto asked = cli::options_from(argc, argv);
    if (const auto* text = std::get_if<cli::Text>(&asked)) {
      cli::print(text->text);
      return cli::kAllInTolerance;
    }
    return cli::run(std::get<cli::Options>(asked));
  } catch (const cli::AlreadyTold&) {
    return cli::kBadInput;
  } catch (const base::InputError& error) {
    cli::complain(
        wording::Voice(wording::built_in(wording::kUsualLanguage), base::Units::millimeters)
            .text(error));
  } catch (const std::exception& error) {
    cli::complain(std::string("a fault of the program, not of your files: ") + error.what());
  }
  return cli::kBadInput;
}
