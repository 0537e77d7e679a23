// Values that several reports tell.
#pragma once

#include <iterator>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::told {

/// The pull between two points.
inline base::ReadingName pull(const std::string& from, const std::string& to) {
  return {{from, to}};
}

/// `more` after what is there.
template <typename Told>
void add(std::vector<Told> more, std::vector<Told>& to) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

/// A dash: no such figure.
inline base::Value dash() { return base::Name{"-"}; }

/// In, OUT, cannot tell.
inline base::Fact verdict(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return {"verdicts.in"};
    case placement::Verdict::out:
      return {"verdicts.out"};
    case placement::Verdict::undecided:
      break;
  }
  return {"verdicts.undecided"};
}

}  // namespace stakewright::told
