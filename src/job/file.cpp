#include "stakewright/job/file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <system_error>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::size_t kBlock = 64UL * 1024UL;

/// An open file that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close_now(); }

  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] bool is_open() const { return number_ >= 0; }

  /// False when the system could not bring out what was written.
  bool close_now() {
    const int closing = number_;
    number_ = -1;
    return closing < 0 || ::close(closing) == 0;
  }

 private:
  int number_;
};

std::string shown(const std::string& path) {
  return base::is_printable(path) ? path : base::in_quotes(path);
}

[[noreturn]] void refuse(const std::string& path, const std::string& problem) {
  throw base::InputError(shown(path) + ": " + problem);
}

std::string reason(int code) {
  switch (code) {
    case ENOENT:
      return "there is no such file or folder";
    case ENOTDIR:
      return "a part of this path is a file, not a folder";
    case EISDIR:
      return "this is a folder; accepted: a file";
    case EACCES:
    case EPERM:
      return "permission denied";
    case EROFS:
      return "the file system is read-only";
    case ENOSPC:
    case EDQUOT:
      return "the disk is full";
    default:
      return std::generic_category().message(code);
  }
}

[[noreturn]] void refuse_too_large(const std::string& path, std::size_t most) {
  constexpr std::size_t megabyte = 1024UL * 1024UL;
  refuse(path, fmt::format("larger than {} MB; accepted: a smaller file", most / megabyte));
}

/// The next bytes of an open file, up to `kBlock`; none at its end.
std::string next_bytes(const Descriptor& file, const std::string& path) {
  std::string bytes(kBlock, '\0');
  for (;;) {
    const ssize_t got = ::read(file.number(), bytes.data(), bytes.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) refuse(path, "cannot be read: " + reason(errno));
    bytes.resize(static_cast<std::size_t>(got));
    return bytes;
  }
}

std::size_t line_at(std::string_view text, std::size_t place) {
  return 1U + static_cast<std::size_t>(std::count(
                  text.begin(), text.begin() + static_cast<std::ptrdiff_t>(place), '\n'));
}

void demand_text(const std::string& path, std::string_view bytes) {
  if (bytes.empty()) refuse(path, "the file is empty");
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
    refuse(path, "the file is in UTF-16; accepted: text saved as UTF-8");
  if (const auto bad = base::first_byte_not_utf8(bytes))
    refuse(path,
           fmt::format("line {}: the byte 0x{:02x} is not UTF-8; accepted: text saved as UTF-8",
                       line_at(bytes, *bad), static_cast<unsigned char>(bytes[*bad])));
  if (const std::size_t nul = bytes.find('\0'); nul != std::string_view::npos)
    refuse(path, fmt::format("line {}: a NUL byte; accepted: a text file", line_at(bytes, nul)));
}

std::string with_plain_line_ends(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t k = 0; k < bytes.size(); ++k)
    if (bytes[k] != '\r' || k + 1 == bytes.size() || bytes[k + 1] != '\n') text += bytes[k];
  return text;
}

/// Zero, or the error number.
int write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(descriptor, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  return 0;
}

/// Takes a file away again unless it has become what it was made for.
struct Provisional {
  std::string path;
  bool kept = false;

  explicit Provisional(std::string at) : path(std::move(at)) {}
  Provisional(const Provisional&) = delete;
  Provisional& operator=(const Provisional&) = delete;
  ~Provisional() {
    if (!kept && !path.empty()) ::unlink(path.c_str());
  }
};

/// Opens a new file in the folder, under a name no one else has; `path` stays empty on failure.
int open_new(const std::filesystem::path& folder, std::string& path) {
  constexpr int most_tries = 100;
  int descriptor = -1;
  for (int k = 0; descriptor < 0 && k < most_tries; ++k) {
    path = (folder / fmt::format(".stakewright-{}-{}.part", ::getpid(), k)).string();
    descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor < 0 && errno != EEXIST) break;
  }
  if (descriptor < 0) path.clear();
  return descriptor;
}

/// Zero, or the error number.
int write_and_rename(const std::filesystem::path& folder, const std::string& target,
                     std::string_view bytes) {
  std::string path;
  Descriptor file(open_new(folder, path));
  if (!file.is_open()) return errno;
  Provisional beside(path);
  struct stat about {};
  const bool replaces = ::stat(target.c_str(), &about) == 0;
  if (replaces && ::fchmod(file.number(), about.st_mode & 0777U) != 0) return errno;
  if (const int code = write_all(file.number(), bytes)) return code;
  if (::fsync(file.number()) != 0 || !file.close_now()) return errno;
  beside.kept = ::rename(beside.path.c_str(), target.c_str()) == 0;
  return beside.kept ? 0 : errno;
}

/// A pipe, a terminal, /dev/stdout: nothing to rename over.
int write_straight(const std::string& path, std::string_view bytes) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  if (!file.is_open()) return errno;
  if (const int code = write_all(file.number(), bytes)) return code;
  return file.close_now() ? 0 : errno;
}

int write_beside(const std::string& path, std::string_view bytes) {
  // Through a link to the file it stands for, so that the link stays a link.
  std::error_code ignored;
  std::filesystem::path target = std::filesystem::weakly_canonical(path, ignored);
  if (ignored || target.empty()) target = path;
  const auto folder = target.has_parent_path() ? target.parent_path() : std::filesystem::path(".");
  return write_and_rename(folder, target.string(), bytes);
}

}  // namespace

std::string bytes_of_file(const std::string& path, std::size_t most) {
  if (path.find('\0') != std::string::npos) refuse(path, "a path has no NUL");
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!file.is_open()) refuse(path, "cannot be read: " + reason(errno));
  struct stat about {};
  if (::fstat(file.number(), &about) != 0) refuse(path, "cannot be read: " + reason(errno));
  if (S_ISDIR(about.st_mode)) refuse(path, reason(EISDIR));
  if (S_ISREG(about.st_mode) && about.st_size > static_cast<off_t>(most))
    refuse_too_large(path, most);
  std::string bytes;
  for (std::string more = next_bytes(file, path); !more.empty(); more = next_bytes(file, path)) {
    bytes += more;
    if (bytes.size() > most) refuse_too_large(path, most);
  }
  return bytes;
}

bool is_pdf_file(const std::string& path) {
  constexpr std::string_view mark = "%PDF-";
  struct stat about {};
  if (::stat(path.c_str(), &about) != 0 || !S_ISREG(about.st_mode)) return false;
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!file.is_open()) return false;
  const std::string bytes = next_bytes(file, path);
  const std::size_t start = bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return start != std::string::npos && std::string_view(bytes).substr(start).starts_with(mark);
}

std::string text_of_file(const std::string& path) {
  const std::string bytes = bytes_of_file(path, kLargestFile);
  std::string_view text = bytes;
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  demand_text(path, text);
  return with_plain_line_ends(text);
}

std::string ending_of(const std::string& path) {
  const std::size_t name =
      path.find_last_of('/') == std::string::npos ? 0 : path.find_last_of('/') + 1;
  const std::size_t dot = path.find_last_of('.');
  if (dot == std::string::npos || dot <= name) return "";
  std::string ending = path.substr(dot);
  std::transform(ending.begin(), ending.end(), ending.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return ending;
}

void write_file(const std::string& path, std::string_view bytes) {
  if (path.find('\0') != std::string::npos) refuse(path, "a path has no NUL");
  struct stat about {};
  const bool exists = ::stat(path.c_str(), &about) == 0;
  int code = 0;
  if (exists && S_ISDIR(about.st_mode)) {
    code = EISDIR;
  } else if (exists && !S_ISREG(about.st_mode)) {
    code = write_straight(path, bytes);
  } else if (exists && ::access(path.c_str(), W_OK) != 0) {
    code = errno;  // a file set read-only is not replaced, though its folder would allow it
  } else {
    code = write_beside(path, bytes);
  }
  if (code != 0) refuse(path, "cannot be written: " + reason(code));
}

}  // namespace stakewright::job
