#include "output_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "console.hpp"
#include "language.hpp"
#include "picture_file.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::cli {

std::string ending_among(const std::string& path, const std::vector<std::string>& accepted) {
  std::string ending = ending_of(path);
  if (std::find(accepted.begin(), accepted.end(), ending) == accepted.end()) {
    throw base::InputError(fmt::format("-o {}: the ending says what is written; accepted {} {}",
                                       base::in_quotes(path), accepted.size() == 1 ? "is" : "are",
                                       fmt::join(accepted, ", ")));
  }
  return ending;
}

void show(const Options& options, const Written& json, const Written& report,
          const std::vector<std::string>& remarks) {
  if (options.json) {
    print(json());
    return;
  }
  print(report());
  for (const std::string& text : remarks) remark(text);
  if (!options.output.empty()) remark(in_language(fmt::format("Wrote {}.", options.output)));
  if (const std::string untranslated = untranslated_remark(); !untranslated.empty())
    remark(untranslated);
}

void deliver(const Options& options, const Written& json, const Written& report,
             const std::vector<std::string>& remarks, const std::vector<FileKind>& kinds) {
  if (!options.output.empty() && !is_picture(options.output)) {
    const std::string ending = ending_of(options.output);
    const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                   [&](const FileKind& one) { return one.ending == ending; });
    job::write_file(options.output, kind == kinds.end() ? json() : kind->text());
  }
  show(options, json, report, remarks);
}

}  // namespace stakewright::cli
