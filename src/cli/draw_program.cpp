#include "draw_program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
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

/// A pipe that goes into the program's stdout.
class OutputPipe {
 public:
  OutputPipe() {
    if (pipe2(ends_.data(), O_CLOEXEC) != 0) fail();
    posix_spawn_file_actions_init(&actions_);
    posix_spawn_file_actions_adddup2(&actions_, ends_[1], STDOUT_FILENO);
  }
  ~OutputPipe() {
    posix_spawn_file_actions_destroy(&actions_);
    close(ends_[0]);
    close_our_writing_end();
  }
  OutputPipe(const OutputPipe&) = delete;
  OutputPipe& operator=(const OutputPipe&) = delete;

  [[nodiscard]] const posix_spawn_file_actions_t* actions() const { return &actions_; }

  /// All that the program writes until it closes its stdout.
  std::string read_all() {
    close_our_writing_end();
    std::string text;
    std::array<char, 65536> part{};
    for (;;) {
      const ssize_t got = read(ends_[0], part.data(), part.size());
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) fail();
      if (got == 0) return text;
      text.append(part.data(), static_cast<std::size_t>(got));
    }
  }

 private:
  [[noreturn]] static void fail() {
    throw base::InputError(
        fmt::format("cannot hear {}: {}", kDrawProgram, std::generic_category().message(errno)));
  }
  void close_our_writing_end() {
    if (ends_[1] >= 0) close(ends_[1]);
    ends_[1] = -1;
  }

  std::array<int, 2> ends_{-1, -1};
  posix_spawn_file_actions_t actions_{};
};

pid_t spawned(const std::string& program, const std::vector<std::string>& arguments,
              const posix_spawn_file_actions_t* actions) {
  std::vector<std::string> words{kDrawProgram};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  const SpawnAttributes spawn;
  pid_t child = 0;
  const int failed =
      posix_spawnp(&child, program.c_str(), actions, &spawn.attributes, argv.data(), environ);
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

/// Its exit status.
int status_after(pid_t child) {
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

}  // namespace

int run_draw_program(const std::vector<std::string>& arguments) {
  return status_after(spawned(draw_program(), arguments, nullptr));
}

std::string output_of_draw_program(const std::vector<std::string>& arguments) {
  OutputPipe pipe;
  const pid_t child = spawned(draw_program(), arguments, pipe.actions());
  std::string output = pipe.read_all();
  if (status_after(child) != 0) throw AlreadyTold();
  return output;
}

}  // namespace stakewright::cli
