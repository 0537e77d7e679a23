#include "commands.hpp"

namespace stakewright::cli {

int run(const Options& options) {
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
