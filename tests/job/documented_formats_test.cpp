// docs/file-formats.md is what people write their files from: its examples are read, and every
// key and column the readers take is on the page.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>
#include <sstream>

#include "refusal.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::job {
namespace {

const std::string& page() {
  static const std::string text = text_of_file(STAKEWRIGHT_FORMATS_PAGE);
  return text;
}

/// The first fenced block of a language.
std::string block(const std::string& language) {
  const std::string fence = "```" + language + "\n";
  const std::size_t start = page().find(fence);
  if (start == std::string::npos) return "";
  const std::size_t inside = start + fence.size();
  return page().substr(inside, page().find("```", inside) - inside);
}

/// What a refusal lists after "accepted: ".
std::vector<std::string> listed(const std::string& message) {
  std::vector<std::string> words;
  std::istringstream list(message.substr(message.rfind("accepted: ") + 10));
  for (std::string word; list >> word;) words.push_back(word.substr(0, word.find(',')));
  return words;
}

TEST(DocumentedFormats, HaveExamplesThatAreRead) {
  const Job job = job_from_text(block("toml"), "job.toml");
  EXPECT_EQ(job.title, "Orchard shelter");
  EXPECT_TRUE(job.has_roof);
  EXPECT_EQ(readings_from_text(block("csv"), "readings.csv", job).size(), 4U);
}

TEST(DocumentedFormats, ShowEveryKeyAndColumn) {
  const std::string job = "units='m'\n[plan]\nsides=5\nside=2\n";
  std::vector<std::string> messages = {
      refusal([] { job_from_text("zz=1\n", "job.toml"); }),
      refusal([] { readings_from_text("zz\n", "r.csv", job_from_text(block("toml"), "j")); })};
  for (const char* table :
       {"", "[site]\n", "[[site.pin]]\n", "[[site.keep_clear]]\n", "[tolerance]\n", "[staking]\n",
        "[levels]\n", "[[instrument]]\n", "[roof]\n", "[stock]\n", "[pour]\n"})
    messages.push_back(refusal([&] { job_from_text(job + table + "zz=1\n", "job.toml"); }));
  std::size_t keys = 0;
  for (const std::string& message : messages) {
    ASSERT_THAT(message, testing::HasSubstr("nearest known")) << message;
    for (const std::string& key : listed(message)) {
      ++keys;
      const std::regex shown(fmt::format("(`|\\[\\[?(site\\.)?){}(`|\\])", key));
      EXPECT_TRUE(std::regex_search(page(), shown)) << key;
    }
  }
  EXPECT_EQ(keys, 12U + 14U + 10U + 3U + 6U + 2U + 3U + 4U + 3U + 16U + 18U + 2U + 11U);
}

}  // namespace
}  // namespace stakewright::job
