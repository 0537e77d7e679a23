#include "accepted.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

// More would bury the message.
constexpr std::size_t kMostNamesShown = 60;

}  // namespace

void demand_name(const std::string& name) {
  if (name.empty() || !base::is_printable(name) || base::character_count(name) > kLongestName ||
      name.front() == ' ' || name.back() == ' ' || name.front() == '#')
    throw base::InputError(fmt::format(
        "read {}; accepted: a name of 1 to {} characters, no space at either end, no # in front",
        base::in_quotes(name), kLongestName));
}

bool Names::has(const std::string& name) const {
  return std::find(known_.begin(), known_.end(), name) != known_.end();
}

std::string Names::but_for_capitals(const std::string& name) const {
  const auto other = std::find_if(known_.begin(), known_.end(), [&](const std::string& known) {
    return base::lower_case(name) == base::lower_case(known);
  });
  return other == known_.end() ? "" : *other;
}

void Names::demand(const std::string& name) const {
  if (has(name)) return;
  const std::string other = but_for_capitals(name);
  const std::string meant =
      other.empty() ? "" : fmt::format("; did you mean {}?", base::in_quotes(other));
  throw base::InputError(
      fmt::format("read {}; accepted: {}{}", base::in_quotes(name), listed(), meant));
}

std::string Names::listed() const {
  const std::size_t shown = std::min(known_.size(), kMostNamesShown);
  const std::vector<std::string> first(known_.begin(),
                                       known_.begin() + static_cast<std::ptrdiff_t>(shown));
  return fmt::format("{}{}", fmt::join(first, ", "), shown < known_.size() ? " ..." : "");
}

Names points_of(const layout::Plan& plan) {
  std::vector<std::string> labels = layout::corner_labels(plan.polygon.sides);
  labels.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : plan.pins) labels.push_back(pin.name);
  return Names(std::move(labels));
}

}  // namespace stakewright::job
