// Good texts spoiled at random: each is taken or refused in plain words, and none crashes.
#include <gtest/gtest.h>

#include <functional>
#include <random>
#include <string>
#include <vector>

#include "readers.hpp"

namespace stakewright::fuzz {
namespace {

constexpr unsigned kSeed = 424242;
/// Of a spoiled text in a failure's message; a form is longer.
constexpr std::size_t kMostShown = 5000;

/// Spoils texts the way hands, disks and editors do.
class Spoiler {
 public:
  explicit Spoiler(unsigned seed) : random_(seed) {}

  std::string spoiled(std::string text) {
    const std::size_t times = 1 + below(3);
    for (std::size_t k = 0; k < times && !text.empty(); ++k) spoil(text);
    return text;
  }

  std::size_t below(std::size_t limit) {
    return std::uniform_int_distribution<std::size_t>(0, limit - 1)(random_);
  }

 private:
  void spoil(std::string& text) {
    const std::size_t at = below(text.size());
    const std::size_t size = 1 + below(20);
    switch (below(7)) {
      case 0:
        text[at] = static_cast<char>(below(256));
        break;
      case 1:
        text.erase(at, size);
        break;
      case 2:
        text.insert(at, text.substr(below(text.size()), size));
        break;
      case 3:
        text.insert(at, odd_piece());
        break;
      case 4:
        text.replace(at, size, odd_piece());
        break;
      case 5:
        text.resize(at);
        break;
      default:
        text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
        break;
    }
  }

  std::string odd_piece() {
    static const std::vector<std::string> pieces = {"\"",
                                                    "'",
                                                    "\"\"\"",
                                                    "[",
                                                    "]",
                                                    "[[",
                                                    "{",
                                                    "}",
                                                    "=",
                                                    ",",
                                                    ".",
                                                    "#",
                                                    "\n",
                                                    "\r\n",
                                                    "\r",
                                                    "-",
                                                    "/",
                                                    "0",
                                                    "1e300",
                                                    "nan",
                                                    "inf",
                                                    "-1",
                                                    "9223372036854775807",
                                                    "0x7f",
                                                    "1979-05-27",
                                                    "true",
                                                    "\\u0000",
                                                    std::string(1, '\0'),
                                                    "\xff\xfe",
                                                    "\xef\xbb\xbf",
                                                    "\u202e",
                                                    "\u00bd",
                                                    "12' 14\"",
                                                    "3/0in",
                                                    "99999999999999999999ft",
                                                    "a.b.c.d = 1\n",
                                                    "[site]\n",
                                                    std::string(300, '('),
                                                    std::string(300, '[')};
    return pieces[below(pieces.size())];
  }

  std::mt19937 random_;
};

void expect_no_fault(const std::string& good, int cases,
                     const std::function<std::string(std::string_view)>& fault_of) {
  ASSERT_EQ(fault_of(good), "") << "the good text itself";
  Spoiler spoiler(kSeed);
  for (int k = 0; k < cases; ++k) {
    const std::string text = spoiler.spoiled(good);
    const std::string fault = fault_of(text);
    ASSERT_EQ(fault, "") << "seed " << kSeed << ", case " << k << ", text:\n"
                         << text.substr(0, kMostShown);
  }
}

TEST(SpoiledInput, NeverBreaksTheJobReader) {
  expect_no_fault(good_job(), 4000, fault_of_job_reader);
}

TEST(SpoiledInput, NeverBreaksTheReadingsReader) {
  expect_no_fault(good_readings(), 8000, fault_of_readings_reader);
}

TEST(SpoiledInput, NeverBreaksTheReadersOfLengths) {
  for (const char* good : {"12' 4-5/16\"", "12-4-5/16", "148 5/16in", "3.766m", "8/12", "29e6psi"})
    expect_no_fault(good, 3000, fault_of_length_reader);
}

TEST(SpoiledForm, NeverBreaksTheReaderOfForms) {
  expect_no_fault(good_form(), 600, fault_of_form_reader);
  expect_no_fault(good_plain_form(), 600, fault_of_form_reader);
}

}  // namespace
}  // namespace stakewright::fuzz
