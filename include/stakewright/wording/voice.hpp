// Facts told: one language, one unit of display.  Every figure is rounded here and nowhere else.
#pragma once

#include <string>

#include "stakewright/base/error.hpp"
#include "stakewright/base/fact.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {

class Voice {
 public:
  Voice(Wording words, base::Units units) : words_(std::move(words)), units_(units) {}

  /// The message of the fact's id with its values filled in.
  ///
  /// A message with one and several (`.one`, `.other`) is chosen by the hole `count`; without that
  /// by the first hole that counts.  `{^name}` opens a sentence: with a capital.  An id that the
  /// catalog does not have is our own bug.
  [[nodiscard]] std::string text(const base::Fact& fact) const;
  /// The message of an id that has nothing to be filled in.
  [[nodiscard]] std::string text(base::Id id) const { return text(base::Fact{id}); }
  [[nodiscard]] std::string text(const base::Value& value) const;
  /// The places, outermost first, and the problem.
  [[nodiscard]] std::string text(const base::InputError& error) const;

  [[nodiscard]] const Wording& words() const { return words_; }
  [[nodiscard]] base::Units units() const { return units_; }

 private:
  Wording words_;
  base::Units units_;
};

/// Whether a value is a figure, which stands under other figures in a table.
bool is_figure(const base::Value& value);

}  // namespace stakewright::wording
