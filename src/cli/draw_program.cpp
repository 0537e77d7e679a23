#include "draw_program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <system_error>
#include <vector>

#include "stakewright/base/error.hpp"

namespace stakewright::cli {
namespace {

namespace fs = std::filesystem;

std::string draw_program() {
  std::error_code unknown;
  const fs::path here = fs::read_symlink("/proc/self/exe", unknown).parent_path();
  const std::array<fs::path, 2> folders{here, here.parent_path() / "libexec" / "stakewright"};
  for (const fs::path& folder : folders) {
    fs::path candidate = folder / kDrawProgram;
    if (!here.empty() && access(candidate.c_str(), X_OK) == 0) return candidate;
  }
  throw base::InputError(
      fmt::format("{}, which draws and reads filled forms, is not there; it was looked for in {} "
                  "and {}",
                  kDrawProgram, folders[0].string(), folders[1].string()));
}

[[noreturn]] void cannot_start(const std::string& program, int error) {
  throw base::InputError(
      fmt::format("cannot start {}: {}", program, std::generic_category().message(error)));
}

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

pid_t spawned(std::vector<std::string> words, const posix_spawn_file_actions_t* actions) {
  const std::string program = draw_program();
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  pid_t child = 0;
  const int failed = posix_spawn(&child, program.c_str(), actions, nullptr, argv.data(), environ);
  if (failed != 0) cannot_start(program, failed);
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

void become_draw_program(char** argv) {
  const std::string program = draw_program();
  execv(program.c_str(), argv);
  cannot_start(program, errno);
}

std::string csv_of_filled_form(const std::string& job, const std::string& form) {
  OutputPipe pipe;
  const pid_t child = spawned({kDrawProgram, kReadForm, job, form}, pipe.actions());
  std::string output = pipe.read_all();
  if (status_after(child) != 0) throw AlreadyTold();
  return output;
}

}  // namespace stakewright::cli
