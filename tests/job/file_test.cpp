#include "stakewright/job/file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "refusal.hpp"

namespace stakewright::job {
namespace {

namespace fs = std::filesystem;
using testing::EndsWith;
using testing::HasSubstr;

/// A folder of its own for each test, gone afterward.
class Files : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "stakewright-files-XXXXXX").string();
    ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }

  [[nodiscard]] std::string put(const std::string& name, std::string_view bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
    return path(name);
  }

  static std::string bytes_of(const std::string& path) {
    std::ostringstream bytes;
    bytes << std::ifstream(path, std::ios::binary).rdbuf();
    return bytes.str();
  }

  /// Names of all that is in the folder, hidden files too.
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> result;
    for (const auto& entry : fs::directory_iterator(folder_))
      result.push_back(entry.path().filename().string());
    return result;
  }

  fs::path folder_;
};

std::string refused_reading(const std::string& path) {
  return refusal([&] { text_of_file(path); });
}

std::string refused_writing(const std::string& path, std::string_view bytes = "text\n") {
  return refusal([&] { write_file(path, bytes); });
}

TEST_F(Files, AreReadWhole) {
  EXPECT_EQ(text_of_file(put("job.toml", "title = \"Obstgarten \u00fc\"\n")),
            "title = \"Obstgarten \u00fc\"\n");
}

TEST_F(Files, LoseTheirByteOrderMarkAndTheirCarriageReturns) {
  EXPECT_EQ(text_of_file(put("a",
                             "\xEF\xBB\xBF"
                             "one\r\ntwo\r\n")),
            "one\ntwo\n");
  EXPECT_EQ(text_of_file(put("b", "one\rtwo\r")), "one\rtwo\r");
}

TEST_F(Files, ThatCannotBeReadSayWhy) {
  EXPECT_EQ(refused_reading(path("none.toml")),
            path("none.toml") + ": cannot be read: there is no such file or folder");
  EXPECT_THAT(refused_reading(folder_.string()), EndsWith("this is a folder; accepted: a file"));
  EXPECT_THAT(refused_reading(put("empty", "")), EndsWith("the file is empty"));
  EXPECT_THAT(refused_reading(put("bom", "\xEF\xBB\xBF")), EndsWith("the file is empty"));
  EXPECT_THAT(refused_reading(put("file", "x") + "/job.toml"), HasSubstr("not a folder"));
  EXPECT_THAT(refused_reading(std::string("a\0b", 3)), HasSubstr("NUL"));
  EXPECT_THAT(refused_reading(path("two\nlines")), HasSubstr("two\\x0alines"));
}

// Opening the memory of a process succeeds even for root; reading its first page fails.
TEST_F(Files, ThatFailWhileTheyAreReadSayWhy) {
  if (!fs::exists("/proc/self/mem")) GTEST_SKIP() << "no /proc on this machine";
  EXPECT_THAT(refused_reading("/proc/self/mem"), HasSubstr("cannot be read: "));
}

TEST_F(Files, ThatNobodyMayReadSayWhy) {
  if (::geteuid() == 0) GTEST_SKIP() << "root may read every file";
  const std::string closed = put("closed", "x");
  fs::permissions(closed, fs::perms::none);
  EXPECT_THAT(refused_reading(closed), EndsWith("cannot be read: permission denied"));
}

TEST_F(Files, LargerThanTheLimitAreRefusedUnread) {
  const std::string large = put("large", "x");
  fs::resize_file(large, 50U * 1024U * 1024U);
  EXPECT_THAT(refused_reading(large), EndsWith("larger than 4 MB; accepted: a smaller file"));
  fs::resize_file(large, kLargestFile + 1);
  EXPECT_THAT(refused_reading(large), HasSubstr("larger than 4 MB"));
  std::ofstream(large, std::ios::binary) << std::string(kLargestFile, 'x');
  EXPECT_EQ(text_of_file(large).size(), kLargestFile);
  EXPECT_THAT(refused_reading("/dev/zero"), HasSubstr("larger than 4 MB"));  // it has no end
}

TEST_F(Files, ThatAreNoTextNameTheLine) {
  EXPECT_THAT(refused_reading(put("latin", "one\ntwo\nOs\xE9\n")),
              EndsWith("line 3: the byte 0xe9 is not UTF-8; accepted: text saved as UTF-8"));
  EXPECT_THAT(refused_reading(put("nul", std::string_view("one\nt\0o\n", 8))),
              EndsWith("line 2: a NUL byte; accepted: a text file"));
  EXPECT_THAT(refused_reading(put("utf16", std::string_view("\xFF\xFEt\0", 4))),
              HasSubstr("UTF-16"));
}

TEST_F(Files, AreWrittenWholeAndReplaced) {
  write_file(path("points.csv"), "first");
  EXPECT_EQ(bytes_of(path("points.csv")), "first");
  write_file(path("points.csv"), std::string_view("\0\xFF", 2));
  EXPECT_EQ(bytes_of(path("points.csv")), std::string("\0\xFF", 2));
  write_file(path("nothing"), "");
  EXPECT_EQ(bytes_of(path("nothing")), "");
  EXPECT_THAT(names(), testing::UnorderedElementsAre("points.csv", "nothing"));
}

TEST_F(Files, KeepTheirPermissionsAndTheirLinks) {
  const std::string target = put("target", "old");
  fs::permissions(target, fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("target", path("link"));
  write_file(path("link"), "new");
  EXPECT_TRUE(fs::is_symlink(path("link")));
  EXPECT_EQ(bytes_of(target), "new");
  EXPECT_EQ(fs::status(target).permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(Files, ThatCannotBeWrittenSayWhy) {
  EXPECT_EQ(refused_writing(path("no/such/points.csv")),
            path("no/such/points.csv") + ": cannot be written: there is no such file or folder");
  EXPECT_THAT(refused_writing(folder_.string()), HasSubstr("this is a folder"));
  EXPECT_THAT(refused_writing(put("file", "x") + "/points.csv"), HasSubstr("not a folder"));
  EXPECT_THAT(refused_writing(""), HasSubstr("cannot be written"));
  EXPECT_THAT(refused_writing(path(std::string(300, 'x'))), HasSubstr("cannot be written"));
  EXPECT_THAT(names(), testing::ElementsAre("file"));
}

TEST_F(Files, AreNotWrittenIntoAFolderSetReadOnly) {
  // Kernel folders take no new file even from root.
  EXPECT_THAT(refused_writing("/proc/points.csv"), HasSubstr("cannot be written"));
  if (::geteuid() == 0) GTEST_SKIP() << "root may write into every folder of this disk";
  fs::permissions(folder_, fs::perms::owner_read | fs::perms::owner_exec);
  EXPECT_THAT(refused_writing(path("points.csv")), EndsWith("permission denied"));
  fs::permissions(folder_, fs::perms::owner_all);
}

TEST_F(Files, SetReadOnlyAreNotReplaced) {
  if (::geteuid() == 0) GTEST_SKIP() << "root may write every file";
  const std::string kept = put("kept", "old");
  fs::permissions(kept, fs::perms::owner_read);
  EXPECT_THAT(refused_writing(kept), EndsWith("permission denied"));
  EXPECT_EQ(bytes_of(kept), "old");
}

TEST_F(Files, OnAFullDiskSayWhy) {
  if (!fs::exists("/dev/full")) GTEST_SKIP() << "no /dev/full on this machine";
  EXPECT_EQ(refused_writing("/dev/full"), "/dev/full: cannot be written: the disk is full");
}

TEST_F(Files, GoStraightToADeviceAndLeaveItThere) {
  write_file("/dev/null", "text");
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
}

// A limit on the size of files stops the writing half-way, as a disk that fills up does.
TEST_F(Files, LeaveNothingHalfWritten) {
  const std::string kept = put("kept", "the old text");
  struct rlimit before {};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  struct rlimit small = before;
  small.rlim_cur = 100'000;
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
  const std::string over_old = refused_writing(kept, std::string(1'000'000, 'x'));
  const std::string new_one = refused_writing(path("new"), std::string(1'000'000, 'x'));
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, handler);
  EXPECT_THAT(over_old, HasSubstr("kept: cannot be written: "));
  EXPECT_THAT(new_one, HasSubstr("new: cannot be written: "));
  EXPECT_EQ(bytes_of(kept), "the old text");
  EXPECT_THAT(names(), testing::ElementsAre("kept"));
}

}  // namespace
}  // namespace stakewright::job
