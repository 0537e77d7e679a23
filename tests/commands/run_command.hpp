// Runs the built command as a user runs it, in a folder of its own.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::tests {

struct Finished {
  int status = -1;  ///< exit status; 128 and the signal's number when a signal ended it
  std::string out;  ///< stdout
  std::string err;  ///< stderr
};

/// What surrounds the command besides its arguments.
struct Surroundings {
  std::vector<std::string> environment{};  ///< "NAME=value", in place of inherited ones
  std::string stdout_to{};                 ///< a path opened for stdout, such as /dev/full
  bool nobody_reads = false;               ///< stdout is a pipe whose reader has gone
};

/// A new temporary folder, taken away at the end, in which commands run.
class Site {
 public:
  Site();
  ~Site();
  Site(const Site&) = delete;
  Site& operator=(const Site&) = delete;

  [[nodiscard]] std::filesystem::path path(const std::string& name) const { return folder_ / name; }
  void write(const std::string& name, std::string_view text) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  [[nodiscard]] bool has(const std::string& name) const;
  /// Names of all that is in the folder, in order.
  [[nodiscard]] std::vector<std::string> names() const;

  /// Runs `stakewright` with the arguments.
  [[nodiscard]] Finished stakewright(const std::vector<std::string>& arguments,
                                     const Surroundings& surroundings = {}) const;
  /// Runs a line in /bin/sh, `$STAKEWRIGHT` being the command.
  [[nodiscard]] Finished shell(const std::string& line) const;

 private:
  [[nodiscard]] Finished run(const std::vector<std::string>& words,
                             const Surroundings& surroundings) const;
  std::filesystem::path folder_;
  std::filesystem::path kept_;  ///< what commands print, outside the folder they see
};

}  // namespace stakewright::tests
