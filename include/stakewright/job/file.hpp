// Files in and out, careful with both.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace stakewright::job {

/// Larger job or readings files are refused unread, in bytes.
inline constexpr std::size_t kLargestFile = 4UL * 1024UL * 1024UL;

/// Whole text of a file: a byte-order mark dropped, CRLF made LF.
/// Throws InputError, naming the file, when it is missing, a folder, unreadable,
/// empty, larger than `kLargestFile`, not UTF-8, or has a NUL.
std::string text_of_file(const std::string& path);

/// All bytes of a file, whatever they are.
/// Throws InputError, naming the file, when it is missing, a folder, unreadable, or larger than
/// `most` bytes; of a larger one no more than that is read.
std::string bytes_of_file(const std::string& path, std::size_t most);

/// Whether a file begins as a PDF does.  False for what is no file of its own (a pipe, a
/// terminal), which is left unread, and for what cannot be read.
bool is_pdf_file(const std::string& path);
/// The ending of a file's name, small letters, with its point; empty without one.
std::string ending_of(const std::string& path);

/// Writes a file whole or not at all: beside it first, then renamed over it.
/// Throws InputError, naming the file and the reason (no such folder, read-only, disk full).
void write_file(const std::string& path, std::string_view bytes);

}  // namespace stakewright::job
