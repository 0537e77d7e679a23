#include "console.hpp"

#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <system_error>

#include "stakewright/base/error.hpp"

namespace stakewright::cli {
namespace {

bool is_set(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0';
}

}  // namespace

void outlive_failed_writes() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
}

Emphasis emphasis_for_stdout() {
  const char* terminal = std::getenv("TERM");
  const bool plain_terminal = terminal == nullptr || std::string_view(terminal) == "dumb";
  if (is_set("NO_COLOR") || plain_terminal || isatty(STDOUT_FILENO) == 0) return Emphasis::off;
  return Emphasis::on;
}

void print(std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = write(STDOUT_FILENO, text.data(), text.size());
    if (written >= 0) {
      text.remove_prefix(static_cast<std::size_t>(written));
    } else if (errno == EPIPE) {
      return;
    } else if (errno != EINTR) {
      throw base::InputError("cannot write to stdout: " + std::generic_category().message(errno));
    }
  }
}

void remark(std::string_view text) {
  std::string sentence(text);
  if (!sentence.empty() && sentence.front() >= 'a' && sentence.front() <= 'z') {
    sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
  }
  if (!sentence.ends_with('.')) sentence += '.';
  std::fputs(wrapped(sentence).c_str(), stderr);
}

void complain(std::string_view text) {
  std::fputs(("stakewright: " + plain(text) + '\n').c_str(), stderr);
}

}  // namespace stakewright::cli
