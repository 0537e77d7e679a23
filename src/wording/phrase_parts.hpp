// The pieces that phrases are made of: holes, sentences, figures.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::wording {

/// What stands before, between and after the holes `{}` of a phrase: one more than it has holes.
std::vector<std::string> split_at_holes(std::string_view phrase);

/// Throws InputError when `other` does not have each of `holes` holes, in order (`{}`) or by
/// number (`{0}`).
void demand_same_holes(const std::string& english, std::size_t holes, const std::string& other);

/// `other` with its holes filled.
std::string filled(std::string_view other, const std::vector<std::string>& values);

/// The sentences of a text, without the space between them.  One ends with a full stop before a
/// space and a capital.
std::vector<std::string_view> sentences(std::string_view text);

/// Whether a text has nothing to translate: lengths, angles, percentages, labels of stakes.  No
/// small letters stand in it but the units'.
bool is_figure(std::string_view text);

/// The text with its first letter small; only A to Z change.
std::string with_small_letter(std::string_view text);

/// The text with its first letter a capital, accents and all (Latin-1's letters).
std::string with_capital(std::string text);

}  // namespace stakewright::wording
