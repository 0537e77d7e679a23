#include "limits.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <string_view>

namespace stakewright::draw {
namespace {

constexpr rlim_t kMost_bytes = 512UL * 1024UL * 1024UL;
constexpr rlim_t kMost_s = 10;
constexpr int kBadInput = 2;

/// Only what a signal handler may do.
void say_and_end(int /*signal*/) {
  constexpr std::string_view words =
      "stakewright: the PDF takes longer to read than any form does; accepted: the form as it was "
      "made, filled in\n";
  [[maybe_unused]] const ssize_t written = write(STDERR_FILENO, words.data(), words.size());
  _exit(kBadInput);
}

void limit(__rlimit_resource what, rlim_t most) {
  rlimit had{};
  if (getrlimit(what, &had) != 0) return;
  if (had.rlim_cur != RLIM_INFINITY && had.rlim_cur <= most) return;
  had.rlim_cur = most;
  setrlimit(what, &had);
}

}  // namespace

void limit_what_a_file_can_cost() {
  std::signal(SIGXCPU, say_and_end);
  limit(RLIMIT_CPU, kMost_s);
  // The address sanitizer reserves the whole address space for itself.
#ifndef __SANITIZE_ADDRESS__
  limit(RLIMIT_AS, kMost_bytes);
#endif
}

}  // namespace stakewright::draw
