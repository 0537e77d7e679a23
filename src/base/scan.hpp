// Reading a short text from left to right.  Numbers are plain decimals ("12", "12.36", ".5"):
// no thousands marks, always a point, whatever the machine's locale.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string_view>

namespace stakewright::base {

struct WrittenNumber {
  double value = 0.0;  ///< infinite when it has more digits than a double holds
  bool whole = false;  ///< written without a point
};

class Scan {
 public:
  explicit Scan(std::string_view text) : rest_(text) { spaces(); }

  [[nodiscard]] bool at_end() const { return rest_.empty(); }

  void spaces();

  /// Takes the first of `marks` that comes next, upper or lower case, and says whether one did.
  bool take(std::initializer_list<std::string_view> marks);

  std::optional<WrittenNumber> number();

  /// The same, with a power of ten allowed after it: "6.45e-6".
  std::optional<WrittenNumber> number_with_power();

 private:
  WrittenNumber taken(std::size_t bytes, bool whole);

  std::string_view rest_;
};

/// A leading minus sign, typed or typographic.
bool take_minus(Scan& scan);

}  // namespace stakewright::base
