#include "stakewright/base/length.hpp"

#include <fmt/format.h>

#include "scan.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::base {
namespace {

constexpr int kFinestFraction = 64;
constexpr double kInchesPerFoot = 12.0;
constexpr const char* kAcceptedLengths =
    "a length such as 12' 4-5/16\", 12-4-5/16, 148 5/16in, 12.36ft, 3.766m, 3766mm, 376.6cm";
constexpr const char* kAcceptedAreas = "an area such as 200sqft, 200 ft2, 18.6m2, 18.6 sqm";

// What is wrong with a text, in the words that follow "accepted: ".
struct Refusal {
  std::string accepted;
};

[[noreturn]] void refuse(std::string accepted) { throw Refusal{std::move(accepted)}; }

// 1 in = 25.4 mm exactly.  254 times a figure in 64ths is exact, so one division rounds once.
double meters_from_inches(double inches) { return inches * 254.0 / 10000.0; }

bool take_foot_mark(Scan& scan) { return scan.take({"ft", "'", "\u2032", "\u2019"}); }
bool take_inch_mark(Scan& scan) { return scan.take({"in", "\"", "\u2033", "\u201d"}); }

double fraction_of_inch(WrittenNumber top, Scan& scan) {
  const auto bottom = scan.number();
  if (!bottom || !top.whole || !bottom->whole) refuse(kAcceptedLengths);
  for (int power = 2; power <= kFinestFraction; power *= 2) {
    if (bottom->value != power) continue;
    if (top.value >= power) refuse("a fraction whose top is less than its bottom");
    return top.value / power;
  }
  refuse("halves, quarters, 8ths, 16ths, 32nds and 64ths of an inch");
}

struct Inches {
  double value = 0.0;
  bool has_fraction = false;
};

// "10", "10.25", "1/4", "10-1/4", "10 1/4", of which the first number is read already.
Inches inches_after(WrittenNumber first, Scan& scan) {
  if (scan.take({"/"})) return {fraction_of_inch(first, scan), true};
  Scan ahead = scan;
  ahead.spaces();
  ahead.take({"-"});
  ahead.spaces();
  const auto top = ahead.number();
  if (!top || !ahead.take({"/"})) return {first.value, false};
  if (!first.whole) refuse("whole inches before a fraction");
  scan = ahead;
  return {first.value + fraction_of_inch(*top, scan), true};
}

// What follows "12'" or "12-": inches, with or without their mark.
double feet_and_inches_m(WrittenNumber feet, Scan& scan) {
  if (!feet.whole) refuse("whole feet before inches");
  const auto first = scan.number();
  if (!first) refuse(kAcceptedLengths);
  const Inches inches = inches_after(*first, scan);
  if (inches.value >= kInchesPerFoot) refuse("fewer than 12 inches after feet");
  scan.spaces();
  take_inch_mark(scan);
  return meters_from_inches(kInchesPerFoot * feet.value + inches.value);
}

double after_foot_mark_m(WrittenNumber feet, Scan& scan) {
  scan.spaces();
  if (scan.at_end()) return meters_from_inches(kInchesPerFoot * feet.value);
  scan.take({"-"});
  scan.spaces();
  return feet_and_inches_m(feet, scan);
}

// "12-4-5/16".  Without fraction or inch mark "12-4" is feet and inches where those are spoken
// only.
double dashed_m(WrittenNumber feet, Scan& scan, Units bare) {
  Scan ahead = scan;
  const bool plain = ahead.number() && (ahead.spaces(), ahead.at_end());
  if (plain && bare != Units::feet_inches) refuse(kAcceptedLengths);
  return feet_and_inches_m(feet, scan);
}

double bare_m(double value, Units bare) {
  switch (bare) {
    case Units::feet_inches:
      return meters_from_inches(kInchesPerFoot * value);
    case Units::millimeters:
      return value / 1000.0;
    case Units::meters:
      break;
  }
  return value;
}

double unsigned_length_m(Scan& scan, Units bare) {
  const auto first = scan.number();
  if (!first) refuse(kAcceptedLengths);
  const Inches inches = inches_after(*first, scan);
  scan.spaces();
  if (take_inch_mark(scan)) return meters_from_inches(inches.value);
  if (inches.has_fraction)
    refuse(scan.at_end() ? "an inch mark after a fraction, or feet-inches-fraction as in 12-4-5/16"
                         : kAcceptedLengths);
  if (take_foot_mark(scan)) return after_foot_mark_m(*first, scan);
  if (scan.take({"mm"})) return first->value / 1000.0;
  if (scan.take({"cm"})) return first->value / 100.0;
  if (scan.take({"m"})) return first->value;
  if (scan.at_end()) return bare_m(first->value, bare);
  if (!scan.take({"-"})) refuse(kAcceptedLengths);
  scan.spaces();
  return dashed_m(*first, scan, bare);
}

double unsigned_area_m2(Scan& scan, Units bare) {
  constexpr double square_foot_m2 = 0.09290304;  // 0.3048² exactly
  const auto number = scan.number();
  if (!number) refuse(kAcceptedAreas);
  scan.spaces();
  if (scan.take({"sqft", "sq ft", "ft2", "ft\u00b2"})) return number->value * square_foot_m2;
  if (scan.take({"sqm", "sq m", "m2", "m\u00b2"})) return number->value;
  return number->value * (bare == Units::feet_inches ? square_foot_m2 : 1.0);
}

// The sign, the measure, and nothing after it.
template <typename Measure>
double whole_text(std::string_view text, Measure measure, const char* accepted, double limit,
                  const char* limit_words) {
  try {
    if (text.find(',') != std::string_view::npos) refuse("a decimal point, and no comma");
    Scan scan(text);
    const bool minus = take_minus(scan);
    const double size = measure(scan);
    scan.spaces();
    if (!scan.at_end()) refuse(accepted);
    if (size > limit) refuse(limit_words);
    return minus && size > 0.0 ? -size : size;
  } catch (const Refusal& refusal) {
    throw InputError(fmt::format("read {}; accepted: {}", in_quotes(text), refusal.accepted));
  }
}

}  // namespace

double length_m_from_text(std::string_view text, Units bare) {
  return whole_text(
      text, [bare](Scan& scan) { return unsigned_length_m(scan, bare); }, kAcceptedLengths,
      kLongestLength_m, "lengths up to 10000 m (32808 ft)");
}

double area_m2_from_text(std::string_view text, Units bare) {
  return whole_text(
      text, [bare](Scan& scan) { return unsigned_area_m2(scan, bare); }, kAcceptedAreas,
      kLongestLength_m * kLongestLength_m, "areas up to 100 square kilometers");
}

}  // namespace stakewright::base
