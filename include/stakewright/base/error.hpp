// The one exception for what a user wrote wrong.  What the field data cannot
// settle is a result, not an exception; a broken promise of ours is an assert.
#pragma once

#include <stdexcept>
#include <string>

namespace stakewright::base {

/// Bad input: the text says what was read and what is accepted.
///
/// A reader that knows more of the place (file, line, key or column) catches it
/// and throws again with `at`.
class InputError : public std::runtime_error {
 public:
  explicit InputError(const std::string& problem) : std::runtime_error(problem) {}

  /// The same problem with its place in front: "job.toml, line 7, plan.sides: ...".
  [[nodiscard]] InputError at(const std::string& place) const {
    return InputError(place + ": " + what());
  }
};

/// What `read` gives; its InputError comes out with `place` in front.
template <class Read>
auto read_at(const std::string& place, Read&& read) {
  try {
    return read();
  } catch (const InputError& problem) {
    throw problem.at(place);
  }
}

}  // namespace stakewright::base
