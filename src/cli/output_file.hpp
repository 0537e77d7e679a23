// The file named by -o: its ending says what goes into it.
#pragma once

#include <string>
#include <vector>

namespace stakewright::cli {

/// The ending of the file's name, small letters, with its point; empty without one.
std::string ending_of(const std::string& path);

/// The ending, when it is one of `accepted`.
/// Throws InputError, naming the file and the accepted endings, for another.
std::string ending_among(const std::string& path, const std::vector<std::string>& accepted);

}  // namespace stakewright::cli
