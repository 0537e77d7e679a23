#include "draw_program.hpp"

#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <filesystem>
#include <system_error>

#include "stakewright/base/error.hpp"

namespace stakewright::cli {
namespace {

namespace fs = std::filesystem;

/// The program's path; a bare name, to be looked for on PATH, where it stands in neither folder.
std::string draw_program() {
  std::error_code unknown;
  const fs::path here = fs::read_symlink("/proc/self/exe", unknown).parent_path();
  for (const fs::path& folder : {here, here.parent_path() / "libexec" / "stakewright"}) {
    const fs::path candidate = folder / kDrawProgram;
    if (!here.empty() && access(candidate.c_str(), X_OK) == 0) return candidate;
  }
  return kDrawProgram;
}

/// Our own disregard of closed pipes is not handed down.
struct SpawnAttributes {
  posix_spawnattr_t attributes{};
  SpawnAttributes() {
    sigset_t defaults;
    sigemptyset(&defaults);
    sigaddset(&defaults, SIGPIPE);
    posix_spawnattr_init(&attributes);
    posix_spawnattr_setsigdefault(&attributes, &defaults);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);
  }
  ~SpawnAttributes() { posix_spawnattr_destroy(&attributes); }
  SpawnAttributes(const SpawnAttributes&) = delete;
  SpawnAttributes& operator=(const SpawnAttributes&) = delete;
};

pid_t spawned(const std::string& program, const std::vector<std::string>& arguments) {
  std::vector<std::string> words{kDrawProgram};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  const SpawnAttributes spawn;
  pid_t child = 0;
  const int failed =
      posix_spawnp(&child, program.c_str(), nullptr, &spawn.attributes, argv.data(), environ);
  if (failed == ENOENT) {
    throw base::InputError(
        fmt::format("{}, which draws, is neither beside this program nor on PATH", kDrawProgram));
  }
  if (failed != 0) {
    throw base::InputError(
        fmt::format("cannot start {}: {}", program, std::generic_category().message(failed)));
  }
  return child;
}

}  // namespace

int run_draw_program(const std::vector<std::string>& arguments) {
  const pid_t child = spawned(draw_program(), arguments);
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) throw base::InputError(fmt::format("lost sight of {}", kDrawProgram));
  }
  if (WIFSIGNALED(status)) {
    throw base::InputError(
        fmt::format("{} was ended by signal {}", kDrawProgram, WTERMSIG(status)));
  }
  return WEXITSTATUS(status);
}

}  // namespace stakewright::cli
