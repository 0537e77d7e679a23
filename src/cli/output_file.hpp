// The file named by -o: its ending says what goes into it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "options.hpp"
#include "stakewright/job/file.hpp"

namespace stakewright::cli {

using job::ending_of;

/// The ending, when it is one of `accepted`.
/// Throws InputError, naming the file and the accepted endings, for another.
std::string ending_among(const std::string& path, const std::vector<std::string>& accepted);

using Written = std::function<std::string()>;

/// What a command found: to stdout as JSON or, with its remarks on stderr, as the report.  Each
/// text is made only when it is asked for; remarks come in the language asked for.
void show(const Options& options, const Written& json, const Written& report,
          const std::vector<std::string>& remarks = {});

/// What goes into a file of an ending.
struct FileKind {
  std::string ending;
  Written text;
};

/// The same, and into the file of -o, written first: what its ending asks for among `kinds`, else
/// the JSON.  A drawing is written elsewhere (`draw_picture`).
void deliver(const Options& options, const Written& json, const Written& report,
             const std::vector<std::string>& remarks = {}, const std::vector<FileKind>& kinds = {});

}  // namespace stakewright::cli
