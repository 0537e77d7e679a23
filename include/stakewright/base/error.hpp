// The one exception for what a user wrote wrong.  What the field data cannot
// settle is a result, not an exception; a broken promise of ours is an assert, or where going on
// would be undefined `promise`.
#pragma once

#include <exception>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"

namespace stakewright::base {

/// Bad input: what was read and what is accepted, as a fact, and where it stands.
///
/// A reader that knows more of the place (file, line, key or column) catches it
/// and throws again with `at`.  `wording::Voice` tells it.
class InputError : public std::exception {
 public:
  explicit InputError(Fact problem);

  /// A problem that is told in English only, until it has a message of its own.
  explicit InputError(const std::string& problem);

  /// The same problem with its place in front: "job.toml, line 7, plan.sides: ...".
  [[nodiscard]] InputError at(Value place) const;
  [[nodiscard]] InputError at(const std::string& place) const { return at(Value(Name{place})); }

  [[nodiscard]] const std::vector<Value>& places() const { return places_; }  ///< outermost first
  [[nodiscard]] const Fact& problem() const { return problem_; }

  /// The id of the problem, for those who debug.
  [[nodiscard]] const char* what() const noexcept override { return what_.c_str(); }

 private:
  std::vector<Value> places_;
  Fact problem_;
  std::string what_;
};

/// What `read` gives; its InputError comes out with `place` in front.
template <class Place, class Read>
auto read_at(const Place& place, Read&& read) {
  try {
    return read();
  } catch (const InputError& problem) {
    throw problem.at(place);
  }
}

}  // namespace stakewright::base
