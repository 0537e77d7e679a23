#include "output_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "console.hpp"
#include "language.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"

namespace stakewright::cli {

std::string ending_of(const std::string& path) {
  const std::size_t name =
      path.find_last_of('/') == std::string::npos ? 0 : path.find_last_of('/') + 1;
  const std::size_t dot = path.find_last_of('.');
  if (dot == std::string::npos || dot <= name) return "";
  std::string ending = path.substr(dot);
  std::transform(ending.begin(), ending.end(), ending.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return ending;
}

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
  if (!options.output.empty()) remark(fmt::format("Wrote {}.", options.output));
  if (const std::string untranslated = untranslated_remark(); !untranslated.empty())
    remark(untranslated);
}

void deliver(const Options& options, const Written& json, const Written& report,
             const std::vector<std::string>& remarks, const std::vector<FileKind>& kinds) {
  if (!options.output.empty()) {
    const std::string ending = ending_of(options.output);
    const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                   [&](const FileKind& one) { return one.ending == ending; });
    job::write_file(options.output, kind == kinds.end() ? json() : kind->text());
  }
  show(options, json, report, remarks);
}

}  // namespace stakewright::cli
