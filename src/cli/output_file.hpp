// What a command hands over: its report or JSON, and the file that -o names.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "painter.hpp"

namespace stakewright::cli {

/// A text that is made only when it is asked for.
using Written = std::function<std::string()>;

/// What goes into a file of an ending.
struct FileKind {
  std::string ending;
  Written text;
};

struct Results {
  Written json;
  Written report;
  std::vector<std::string> remarks{};
  std::vector<FileKind> kinds{};       ///< of files besides .json
  std::function<Painted()> drawing{};  ///< of a command that draws
};

/// Writes the file of -o first, as its ending asks; then the JSON to stdout or, with its remarks on
/// stderr, the report.  Remarks on a drawing go to stderr in any case.
void deliver(const Options& options, const Results& results);

}  // namespace stakewright::cli
