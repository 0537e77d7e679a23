// The command `stakewright-draw`: all that loads the drawing libraries.
#include <cstdio>
#include <exception>

#include "form.hpp"
#include "options.hpp"
#include "picture.hpp"
#include "stakewright/base/error.hpp"

namespace {

// Exit status as of the main command.
constexpr int kDone = 0;
constexpr int kBadInput = 2;

void complain(const char* problem) { std::fprintf(stderr, "stakewright: %s\n", problem); }

}  // namespace

int main(int argc, char** argv) {
  using namespace stakewright;
  try {
    const auto asked = draw::options_from(argc, argv);
    if (const auto* text = std::get_if<draw::Text>(&asked)) {
      std::fputs(text->text.c_str(), stdout);
      return kDone;
    }
    const auto& options = std::get<draw::Options>(asked);
    for (const std::string& remark : options.what == draw::What::form
                                         ? draw::write_form(options)
                                         : draw::write_pictures(options))
      complain(remark.c_str());
    return kDone;
  } catch (const base::InputError& error) {
    complain(error.what());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "stakewright: a fault of the program, not of your files: %s\n",
                 error.what());
  }
  return kBadInput;
}
