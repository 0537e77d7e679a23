// The words in braces that the program fills in.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::wording {

using Names = std::set<std::string>;

/// The names in braces of a text: `Page {page} of {pages}`.
/// Throws InputError for a brace without its fellow, and for braces in braces.
Names names_in(std::string_view text);

/// The names in braces of all of them.
Names names_in(const std::vector<std::string>& texts);

}  // namespace stakewright::wording
