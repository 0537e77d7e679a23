#include "output_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "console.hpp"
#include "language.hpp"
#include "stakewright/job/file.hpp"

namespace stakewright::cli {
namespace {

void write_output(const Options& options, const Results& results) {
  if (options.output.empty()) return;
  if (draws(options)) {
    const Painted painted = results.drawing();
    job::write_file(options.output, painted.bytes);
    for (const std::string& text : painted.remarks) complain(text);
    return;
  }
  const std::string ending = job::ending_of(options.output);
  const auto kind = std::find_if(results.kinds.begin(), results.kinds.end(),
                                 [&ending](const FileKind& one) { return one.ending == ending; });
  job::write_file(options.output, kind == results.kinds.end() ? results.json() : kind->text());
}

}  // namespace

void deliver(const Options& options, const Results& results) {
  write_output(options, results);
  if (options.json) {
    print(results.json());
    return;
  }
  print(results.report());
  for (const std::string& text : results.remarks) remark(text);
  if (!options.output.empty()) remark(in_language(fmt::format("Wrote {}.", options.output)));
  if (const std::string untranslated = untranslated_remark(); !untranslated.empty())
    remark(untranslated);
}

}  // namespace stakewright::cli
