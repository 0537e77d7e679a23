// The command `stakewright-draw`: all that loads the drawing libraries.
#include <cstdio>
#include <exception>

#include "form.hpp"
#include "options.hpp"
#include "picture.hpp"
#include "readings.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/wording/voice.hpp"

namespace {

// Exit status as of the main command.
constexpr int kDone = 0;
constexpr int kBadInput = 2;

void complain(const char* problem) { std::fprintf(stderr, "stakewright: %s\n", problem); }

int print_readings(const stakewright::draw::Options& options) {
  const auto form = stakewright::draw::readings_of(options);
  for (const std::string& remark : form.remarks) complain(remark.c_str());
  const bool all_out = std::fwrite(form.csv.data(), 1, form.csv.size(), stdout) == form.csv.size();
  if (all_out && std::fflush(stdout) == 0) return kDone;
  complain("cannot write to stdout");
  return kBadInput;
}

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
    if (options.what == draw::What::readings) return print_readings(options);
    for (const std::string& remark : options.what == draw::What::form
                                         ? draw::write_form(options)
                                         : draw::write_pictures(options))
      complain(remark.c_str());
    return kDone;
  } catch (const base::InputError& error) {
    complain(wording::Voice(wording::built_in(wording::kUsualLanguage), base::Units::millimeters)
                 .text(error)
                 .c_str());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "stakewright: a fault of the program, not of your files: %s\n",
                 error.what());
  }
  return kBadInput;
}
