// How a hanging tape is held up; declared in readings_file.hpp.
#include <fmt/format.h>

#include <charconv>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::job {
namespace {

// One to the meter of the longest tape made.
constexpr int kMostSupports = 100;

}  // namespace

int spans_from_text(const std::string& text) {
  if (text == "all") return 0;
  int supports = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), supports);
  const bool whole = error == std::errc() && end == text.data() + text.size();
  if (!whole || supports < 0 || supports > kMostSupports)
    throw base::InputError(
        fmt::format("read {}; accepted: how many supports hold the tape up between its ends, "
                    "evenly: 0 to {}, or all where it lies on the ground",
                    base::in_quotes(text), kMostSupports));
  return supports + 1;
}

}  // namespace stakewright::job
