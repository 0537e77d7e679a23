// What the fields of a job file and of a readings file take.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/readings/setting_out.hpp"

namespace stakewright::job {

/// A stretch of numbers, its ends within it or not, and its name in messages.
struct Range {
  double least = 0.0;
  double most = 0.0;
  bool with_least = true;
  bool with_most = true;
  const char* words = "";

  [[nodiscard]] bool has(double value) const {
    const bool above = with_least ? value >= least : value > least;
    const bool below = with_most ? value <= most : value < most;
    return above && below;  // false for what is not a number
  }
};

inline constexpr Range kAnyLength = {-base::kLongestLength_m, base::kLongestLength_m, true, true,
                                     "a length"};
inline constexpr Range kLengthAboveZero = {0.0, base::kLongestLength_m, false, true,
                                           "a length above 0"};
inline constexpr Range kLengthFromZero = {0.0, base::kLongestLength_m, true, true,
                                          "a length of 0 or more"};

// What a tape is read in, and how it is pulled.
inline constexpr Range kTemperature = {readings::kColdestTape_c, readings::kWarmestTape_c, true,
                                       true, "a temperature from -40 to 60 C"};
inline constexpr Range kPull = {0.0, readings::kHardestPull_n, false, true,
                                "a pull above 0 and up to 2000 N"};

inline constexpr std::size_t kLongestName = 40;  ///< characters

/// Throws InputError unless `name` may stand in a readings file: 1 to 40 characters, no space at
/// either end, no # in front (such a line of a readings file is a remark).
void demand_name(const std::string& name);

/// Names a field may hold.
class Names {
 public:
  explicit Names(std::vector<std::string> known) : known_(std::move(known)) {}

  [[nodiscard]] bool has(const std::string& name) const;

  /// The name that differs from this one in capitals only, or not at all; empty when none does.
  [[nodiscard]] std::string but_for_capitals(const std::string& name) const;

  /// Throws InputError for any other, listing these, and the one that differs in capitals only.
  void demand(const std::string& name) const;

 private:
  [[nodiscard]] std::string listed() const;

  std::vector<std::string> known_;
};

/// Corners, the center pin and the known points of a plan.
Names points_of(const layout::Plan& plan);

}  // namespace stakewright::job
