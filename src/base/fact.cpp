#include "stakewright/base/fact.hpp"

#include "stakewright/base/error.hpp"

namespace stakewright::base {

List names(const std::vector<std::string>& texts, List::Joint joint) {
  List list;
  list.joint = joint;
  for (const std::string& text : texts) list.items.emplace_back(Name{text});
  return list;
}

InputError::InputError(Fact problem) : problem_(std::move(problem)), what_(problem_.id.text()) {}

InputError::InputError(const std::string& problem)
    : problem_{"errors.plain", {{"text", Name{problem}}}}, what_(problem) {}

InputError InputError::at(Value place) const {
  InputError result = *this;
  if (const auto* name = std::get_if<Name>(&place)) result.what_ = name->text + ": " + what_;
  result.places_.insert(result.places_.begin(), std::move(place));
  return result;
}

}  // namespace stakewright::base
