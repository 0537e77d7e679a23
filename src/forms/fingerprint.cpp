#include "stakewright/forms/fingerprint.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <string_view>

namespace stakewright::forms {
namespace {

/// FNV-1a, 64 bits (IETF draft-eastlake-fnv, section 2 and 5).
class Hash {
 public:
  void add_byte(unsigned char byte) { state_ = (state_ ^ byte) * 1099511628211ULL; }
  void add(std::uint64_t number) {
    for (int shift = 0; shift < 64; shift += 8)
      add_byte(static_cast<unsigned char>(number >> static_cast<unsigned>(shift)));
  }
  /// The length goes first, so that "AB", "C" and "A", "BC" differ.
  void add(std::string_view text) {
    add(static_cast<std::uint64_t>(text.size()));
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
  }
  void add(double value) {
    constexpr double kMillionths = 1e6;
    add(static_cast<std::uint64_t>(std::llround(value * kMillionths)));
  }
  void add(base::Point point) {
    add(point.x_m);
    add(point.y_m);
  }
  [[nodiscard]] std::uint64_t state() const { return state_; }

 private:
  std::uint64_t state_ = 14695981039346656037ULL;
};

}  // namespace

std::string fingerprint(const layout::Plan& plan) {
  Hash hash;
  hash.add(static_cast<std::uint64_t>(plan.polygon.sides));
  hash.add(plan.polygon.corner_radius_m);
  hash.add(plan.center);
  hash.add(plan.facing_rad);
  hash.add(plan.batter_setback_m);
  hash.add(static_cast<std::uint64_t>(plan.hold.size()));
  for (const std::string& label : plan.hold) hash.add(std::string_view(label));
  hash.add(static_cast<std::uint64_t>(plan.pins.size()));
  for (const layout::Pin& pin : plan.pins) {
    hash.add(std::string_view(pin.name));
    hash.add(pin.at);
  }
  hash.add(static_cast<std::uint64_t>(plan.lines.size()));
  for (const layout::Line& line : plan.lines) {
    hash.add(std::string_view(line.name));
    hash.add(line.offset_m);
  }
  hash.add(static_cast<std::uint64_t>(plan.keep_clear.size()));
  for (const layout::KeepClear& area : plan.keep_clear) {
    hash.add(std::string_view(area.name));
    hash.add(static_cast<std::uint64_t>(area.keep_inside ? 1 : 0));
    hash.add(static_cast<std::uint64_t>(area.outline.size()));
    for (const base::Point& corner : area.outline) hash.add(corner);
  }
  const auto folded = static_cast<std::uint32_t>(hash.state() ^ (hash.state() >> 32U));
  return fmt::format("{:04X}-{:04X}", folded >> 16U, folded & 0xFFFFU);
}

}  // namespace stakewright::forms
