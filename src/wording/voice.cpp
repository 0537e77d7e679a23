#include "stakewright/wording/voice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>
#include <optional>

#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::wording {
namespace {

using base::Fact;
using base::Value;

constexpr double kInch_m = 0.0254;
constexpr double kMinute_rad = base::kDegree_rad / 60.0;

/// Steps that a size is told in when it is only roughly known.
constexpr double kInchSteps_m[] = {kInch_m / 16.0, kInch_m / 8.0, kInch_m / 4.0, kInch_m / 2.0,
                                   kInch_m};
constexpr double kMetricSteps_m[] = {0.001, 0.005, 0.010, 0.050};
constexpr double kAngleSteps_rad[] = {kMinute_rad / 6.0, kMinute_rad, 10.0 * kMinute_rad,
                                      base::kDegree_rad};

/// The size to the largest step within two standard deviations; never nothing.
template <std::size_t n>
double rough(const double (&steps)[n], double size, double sd) {
  double step = steps[0];
  for (const double next : steps)
    if (next <= 2.0 * sd) step = next;
  const double rounded = std::round(std::abs(size) / step) * step;
  return rounded == 0.0 ? std::abs(size) : rounded;
}

struct WayKeys {
  const char* positive;
  const char* negative;
  const char* nothing = nullptr;  ///< null: the size alone
};

WayKeys keys_of(base::Way way) {
  switch (way) {
    case base::Way::outward:
      return {"ways.outward", "ways.inward"};
    case base::Way::sideways:
      return {"ways.clockwise", "ways.counterclockwise"};
    case base::Way::longer:
      return {"ways.longer", "ways.shorter"};
    case base::Way::reads:
      return {"ways.reads_long", "ways.reads_short"};
    case base::Way::large:
      return {"ways.reads_large", "ways.reads_small"};
    case base::Way::more:
      return {"ways.more", "ways.less"};
    case base::Way::high:
      return {"ways.high", "ways.low"};
    case base::Way::right:
      return {"ways.right", "ways.left"};
    case base::Way::forward:
      return {"ways.forward", "ways.back"};
    case base::Way::out:
      return {"ways.out", "ways.in"};
    case base::Way::open:
      return {"ways.open", "ways.too_long"};
    case base::Way::pack:
      return {"ways.pack", "ways.cut", "ways.no_packing"};
    case base::Way::added:
      return {"ways.added", "ways.taken_off", "ways.next_to_nothing"};
    case base::Way::on_tape:
      return {"ways.tape_more", "ways.tape_less", "ways.as_it_is"};
  }
  return {};
}

/// How many a value counts; nothing when it does not count.
std::optional<std::size_t> counted(const Value& value) {
  if (const auto* count = std::get_if<base::Count>(&value)) return count->value;
  if (const auto* list = std::get_if<base::List>(&value)) return list->items.size();
  return std::nullopt;
}

/// What chooses between one and several.
std::size_t count_in(const Fact& fact) {
  if (const Value* named = fact.value("count"))
    if (const auto count = counted(*named)) return *count;
  for (const base::Hole& hole : fact.holes)
    if (const auto count = counted(hole.value)) return *count;
  return 0;
}

/// Of an ASCII letter; any other stays.
std::string with_capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

/// Tells one kind of value after the other.
class Telling {
 public:
  Telling(const Voice& voice) : voice_(voice) {}  // NOLINT: made where it is used

  std::string operator()(const base::Nothing& /*nothing*/) const { return {}; }
  std::string operator()(const base::Name& name) const { return name.text; }
  std::string operator()(const base::Quoted& quoted) const { return base::in_quotes(quoted.text); }
  std::string operator()(const Fact& fact) const { return voice_.text(fact); }
  std::string operator()(const base::Count& count) const { return std::to_string(count.value); }
  std::string operator()(const base::Number& number) const {
    if (number.decimals < 0) return fmt::format("{:g}", number.value);
    return fmt::format("{:.{}f}", number.value, number.decimals);
  }

  std::string operator()(const base::ReadingName& reading) const {
    const std::string points = fmt::format("{}", fmt::join(reading.points, "–"));
    if (reading.of < 2) return points;
    return filled("figures.reading_of_several", {{"points", points},
                                                 {"number", std::to_string(reading.which + 1)},
                                                 {"of", std::to_string(reading.of)}});
  }

  std::string operator()(const base::Length& length) const {
    switch (length.step) {
      case base::Step::fine:
        return base::text_from_small_length(length.m, voice_.units());
      case base::Step::whole:
        return base::text_from_length(length.m, voice_.units(), 1);
      case base::Step::tape:
        break;
    }
    return base::text_from_length(length.m, voice_.units());
  }

  std::string operator()(const base::RoughLength& length) const {
    const double size_m = voice_.units() == base::Units::feet_inches
                              ? rough(kInchSteps_m, length.m, length.sd_m)
                              : rough(kMetricSteps_m, length.m, length.sd_m);
    return base::text_from_length(size_m, voice_.units());
  }

  std::string operator()(const base::Angle& angle) const {
    switch (angle.style) {
      case base::AngleStyle::bearing:
        return base::text_from_bearing(angle.rad);
      case base::AngleStyle::dms:
        return base::dms_from_angle(angle.rad);
      case base::AngleStyle::words:
        return in_words(angle.rad);
      case base::AngleStyle::decimal:
        break;
    }
    return base::text_from_angle(angle.rad);
  }

  std::string operator()(const base::RoughAngle& angle) const {
    return in_words(rough(kAngleSteps_rad, angle.rad, angle.sd_rad));
  }

  std::string operator()(const base::Directed& directed) const {
    return std::visit(
        [&](auto size) {
          const WayKeys keys = keys_of(directed.way);
          const double sign = turned_positive(size);
          const std::string text = (*this)(size);
          auto nothing = size;
          size_of(nothing) = 0.0;
          if (!std::isfinite(sign)) return text;
          if (text == (*this)(nothing)) return keys.nothing ? filled(keys.nothing, {}) : text;
          return filled(sign > 0.0 ? keys.positive : keys.negative, {{"size", text}});
        },
        directed.size);
  }

  std::string operator()(const base::Offset& offset) const {
    const std::string nothing = (*this)(base::Length{});
    const std::string outward =
        (*this)(base::Directed{base::Way::outward, base::Length{offset.outward_m}});
    const std::string sideways =
        (*this)(base::Directed{base::Way::sideways, base::Length{offset.sideways_m}});
    if (outward == nothing && sideways == nothing) return filled("ways.in_place", {});
    if (outward == nothing) return sideways;
    if (sideways == nothing) return outward;
    return filled("ways.both", {{"first", outward}, {"second", sideways}});
  }

  std::string operator()(const base::Chance& chance) const {
    if (chance.value > 0.99) return filled("figures.chance_over", {{"percent", "99"}});
    if (chance.value < 0.01) return filled("figures.chance_under", {{"percent", "1"}});
    return filled("figures.chance", {{"percent", fmt::format("{:.0f}", 100.0 * chance.value)}});
  }

  std::string operator()(const base::Area& area) const {
    if (!std::isfinite(area.m2)) return "-";
    if (voice_.units() == base::Units::feet_inches)
      return filled("figures.square_feet",
                    {{"figure", fmt::format("{:.1f}", area.m2 / kFoot2_m2)}});
    return filled("figures.square_meters", {{"figure", fmt::format("{:.2f}", area.m2)}});
  }

  std::string operator()(const base::Volume& volume) const {
    if (!std::isfinite(volume.m3)) return "-";
    if (voice_.units() == base::Units::feet_inches)
      return filled("figures.cubic_yards",
                    {{"figure", fmt::format("{:.2f}", volume.m3 / kYard3_m3)}});
    return filled("figures.cubic_meters", {{"figure", fmt::format("{:.2f}", volume.m3)}});
  }

  std::string operator()(const base::List& list) const {
    std::string text;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      const std::string item = voice_.text(list.items[i]);
      text = i == 0 ? item
                    : filled(joint_key(list.joint, i + 1 == list.items.size()),
                             {{"before", text}, {"next", item}});
    }
    return text;
  }

 private:
  static constexpr double kFoot2_m2 = 0.3048 * 0.3048;
  static constexpr double kYard3_m3 = 0.9144 * 0.9144 * 0.9144;

  static double& size_of(base::Length& length) { return length.m; }
  static double& size_of(base::RoughLength& length) { return length.m; }
  static double& size_of(base::Angle& angle) { return angle.rad; }
  static double& size_of(base::RoughAngle& angle) { return angle.rad; }

  /// The size without its sign, and what it was with it.
  template <class Size>
  static double turned_positive(Size& size) {
    const double signed_size = size_of(size);
    size_of(size) = std::abs(signed_size);
    return signed_size;
  }

  static const char* joint_key(base::List::Joint joint, bool last) {
    if (joint == base::List::Joint::with) return "lists.with";
    if (joint == base::List::Joint::either) return "lists.either";
    if (!last || joint == base::List::Joint::listed) return "lists.next";
    return joint == base::List::Joint::all ? "lists.and" : "lists.or";
  }

  [[nodiscard]] std::string in_words(double angle_rad) const {
    if (!std::isfinite(angle_rad)) return "-";
    const auto seconds = std::llround(std::abs(angle_rad) / base::kDegree_rad * 3600.0);
    std::string words;
    const auto add = [&](long long count, base::Id id) {
      if (count == 0) return;
      if (!words.empty()) words += ' ';
      words += voice_.text(Fact{id, {{"count", base::Count{static_cast<std::size_t>(count)}}}});
    };
    add(seconds / 3600, "figures.degrees");
    add(seconds / 60 % 60, "figures.minutes");
    add(seconds % 60, "figures.seconds");
    return words.empty() ? voice_.text(Fact{"figures.seconds", {{"count", base::Count{0}}}})
                         : words;
  }

  [[nodiscard]] std::string filled(
      std::string_view key,
      std::initializer_list<std::pair<std::string_view, std::string>> values) const {
    return voice_.words().filled(key, values);
  }

  const Voice& voice_;
};

}  // namespace

std::string Voice::text(const Fact& fact) const {
  std::string_view left = words_.pattern(fact.id.text(), count_in(fact));
  std::string text;
  for (;;) {
    const std::size_t open = left.find('{');
    text += left.substr(0, open);
    if (open == std::string_view::npos) return text;
    const std::size_t close = left.find('}', open);
    std::string_view name = left.substr(open + 1, close - open - 1);
    const bool opens_sentence = name.starts_with('^');
    if (opens_sentence) name.remove_prefix(1);
    const Value* value = fact.value(name);
    assert(value != nullptr && "the message has a hole that the fact does not fill");
    if (value != nullptr) {
      const std::string filled = this->text(*value);
      text += opens_sentence ? with_capital(filled) : filled;
    }
    left.remove_prefix(close + 1);
  }
}

std::string Voice::text(const Value& value) const {
  return std::visit(Telling(*this), static_cast<const base::AnyValue&>(value));
}

std::string Voice::text(const base::InputError& error) const {
  std::string text;
  for (const Value& place : error.places()) text += this->text(place) + ": ";
  return text + this->text(error.problem());
}

bool is_figure(const Value& value) {
  return std::holds_alternative<base::Length>(value) ||
         std::holds_alternative<base::RoughLength>(value) ||
         std::holds_alternative<base::Angle>(value) ||
         std::holds_alternative<base::RoughAngle>(value) ||
         std::holds_alternative<base::Directed>(value) ||
         std::holds_alternative<base::Offset>(value) ||
         std::holds_alternative<base::Chance>(value) ||
         std::holds_alternative<base::Number>(value) ||
         std::holds_alternative<base::Count>(value) || std::holds_alternative<base::Area>(value) ||
         std::holds_alternative<base::Volume>(value);
}

}  // namespace stakewright::wording
