#include "run_command.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>

namespace stakewright::tests {
namespace {

namespace fs = std::filesystem;

void demand(int code, const char* what) {
  if (code != 0) throw std::system_error(code, std::generic_category(), what);
}

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

fs::path new_folder() {
  std::string name = (fs::temp_directory_path() / "stakewright-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) demand(errno, "mkdtemp");
  return fs::canonical(name);
}

struct Actions {
  posix_spawn_file_actions_t actions{};
  Actions() { demand(posix_spawn_file_actions_init(&actions), "file actions"); }
  ~Actions() { posix_spawn_file_actions_destroy(&actions); }
  Actions(const Actions&) = delete;
  Actions& operator=(const Actions&) = delete;

  void open(int descriptor, const std::string& path) {
    demand(posix_spawn_file_actions_addopen(&actions, descriptor, path.c_str(),
                                            O_RDWR | O_CREAT | O_TRUNC, 0600),
           path.c_str());
  }
};

/// The writing end of a pipe that nobody reads.
int pipe_without_reader() {
  int ends[2] = {-1, -1};
  if (pipe2(ends, O_CLOEXEC) != 0) demand(errno, "pipe2");
  close(ends[0]);
  return ends[1];
}

std::vector<char*> pointers(std::vector<std::string>& words) {
  std::vector<char*> result;
  std::transform(words.begin(), words.end(), std::back_inserter(result),
                 [](std::string& word) { return word.data(); });
  result.push_back(nullptr);
  return result;
}

/// The inherited environment with the given variables in place of its own.
std::vector<std::string> environment_with(const std::vector<std::string>& given) {
  std::vector<std::string> result = given;
  for (char** entry = environ; *entry != nullptr; ++entry) {
    const std::string inherited = *entry;
    const std::string name = inherited.substr(0, inherited.find('=') + 1);
    const bool replaced = std::any_of(given.begin(), given.end(),
                                      [&](const auto& other) { return other.starts_with(name); });
    if (!replaced) result.push_back(inherited);
  }
  return result;
}

int status_after(pid_t child) {
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) demand(errno, "waitpid");
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

}  // namespace

Site::Site() : folder_(new_folder()), kept_(new_folder()) {}

Site::~Site() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
  fs::remove_all(kept_, ignored);
}

void Site::write(const std::string& name, std::string_view text) const {
  std::ofstream out(path(name), std::ios::binary);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  if (!out) throw std::runtime_error("cannot write " + name);
}

std::string Site::read(const std::string& name) const { return text_of(path(name)); }

bool Site::has(const std::string& name) const { return fs::exists(fs::symlink_status(path(name))); }

std::vector<std::string> Site::names() const {
  std::vector<std::string> result;
  for (const auto& entry : fs::directory_iterator(folder_)) {
    result.push_back(entry.path().filename().string());
  }
  std::sort(result.begin(), result.end());
  return result;
}

Finished Site::stakewright(const std::vector<std::string>& arguments,
                           const Surroundings& surroundings) const {
  std::vector<std::string> words{STAKEWRIGHT_COMMAND};
  words.insert(words.end(), arguments.begin(), arguments.end());
  return run(words, surroundings);
}

Finished Site::shell(const std::string& line) const {
  return run({"/bin/sh", "-c", line}, {{"STAKEWRIGHT=" STAKEWRIGHT_COMMAND}, "", false});
}

Finished Site::run(const std::vector<std::string>& words, const Surroundings& surroundings) const {
  const fs::path out = kept_ / "stdout";
  const fs::path err = kept_ / "stderr";
  Actions actions;
  demand(posix_spawn_file_actions_addchdir_np(&actions.actions, folder_.c_str()), "chdir");
  actions.open(STDIN_FILENO, "/dev/null");
  int unread = -1;
  if (surroundings.nobody_reads) {
    unread = pipe_without_reader();
    demand(posix_spawn_file_actions_adddup2(&actions.actions, unread, STDOUT_FILENO), "dup2");
  } else {
    actions.open(STDOUT_FILENO,
                 surroundings.stdout_to.empty() ? out : fs::path(surroundings.stdout_to));
  }
  actions.open(STDERR_FILENO, err);
  std::vector<std::string> arguments = words;
  std::vector<std::string> environment = environment_with(surroundings.environment);
  pid_t child = 0;
  demand(posix_spawn(&child, words.front().c_str(), &actions.actions, nullptr,
                     pointers(arguments).data(), pointers(environment).data()),
         words.front().c_str());
  Finished finished;
  finished.status = status_after(child);
  if (unread >= 0) close(unread);
  finished.out = text_of(out);
  finished.err = text_of(err);
  fs::remove(out);
  fs::remove(err);
  return finished;
}

}  // namespace stakewright::tests
