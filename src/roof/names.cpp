#include "stakewright/roof/names.hpp"

#include <algorithm>
#include <charconv>
#include <vector>

#include "stakewright/layout/polygon.hpp"

namespace stakewright::roof {
namespace {

// In the order of the enums.
constexpr std::array<std::string_view, 8> kPartNames = {"hip",    "common", "jack", "blocking",
                                                        "fascia", "beam",   "post", "hub"};
constexpr std::array<std::string_view, 9> kCutNames = {
    "plumb", "seat", "cheek", "backing", "tail", "tail bevel", "miter", "bevel", "rip"};
constexpr std::array<std::string_view, 15> kJointNames = {"hip at the peak",
                                                          "common at the peak",
                                                          "jack at its hip",
                                                          "hip's plumb cut, from edge to edge",
                                                          "hip's seat, from end to end",
                                                          "common's plumb cut, from edge to edge",
                                                          "common's seat, from end to end",
                                                          "hips beside each other at the peak",
                                                          "fascia corner, along the boards",
                                                          "fascia corner, across the thickness",
                                                          "fascia corner, over the width",
                                                          "fascia corner, step",
                                                          "beam corner, along the beams",
                                                          "beam corner, across the thickness",
                                                          "sheathing edge at the peak"};
static_assert(static_cast<std::size_t>(PartKind::hub) + 1 == kPartNames.size());
static_assert(static_cast<std::size_t>(CutName::rip) + 1 == kCutNames.size());
static_assert(static_cast<std::size_t>(JointName::sheathing_edge) + 1 == kJointNames.size());

constexpr std::string_view kPeak = "peak";
constexpr std::string_view kLeft = "left";
constexpr std::string_view kRight = "right";

using Words = std::vector<std::string_view>;

Words words_of(std::string_view text) {
  constexpr std::string_view kBetween = " ,";
  Words words;
  for (std::size_t from = text.find_first_not_of(kBetween); from != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(kBetween, from), text.size());
    words.push_back(text.substr(from, end - from));
    from = text.find_first_not_of(kBetween, end);
  }
  return words;
}

/// The corner of that label; `sides` where there is none.
std::size_t corner_of(std::string_view label, int sides) {
  const auto labels = layout::corner_labels(sides);
  return static_cast<std::size_t>(std::find(labels.begin(), labels.end(), label) - labels.begin());
}

/// A corner "C" or a side "B-C".
std::optional<Place> whole_place(std::string_view text, int sides) {
  const auto corners = static_cast<std::size_t>(sides);
  for (const std::string_view dash : {"-", "–"}) {
    const std::size_t at = text.find(dash);
    if (at == std::string_view::npos) continue;
    const std::size_t left = corner_of(text.substr(0, at), sides);
    if (left == corners) return {};
    const Place side = Place::at_side(left, corners);
    if (corner_of(text.substr(at + dash.size()), sides) != side.next) return {};
    return side;
  }
  const std::size_t corner = corner_of(text, sides);
  if (corner == corners) return {};
  return Place::at_corner(corner);
}

std::optional<Hand> hand_of(std::string_view word) {
  if (word == kLeft) return Hand::left;
  if (word == kRight) return Hand::right;
  return {};
}

/// A whole number above 0; 0 for anything else.
int number_of(std::string_view word) {
  int number = 0;
  const auto [end, fault] = std::from_chars(word.data(), word.data() + word.size(), number);
  const bool whole = fault == std::errc() && end == word.data() + word.size();
  return whole && number > 0 ? number : 0;
}

std::optional<Place> place_in(const Words& words, int sides) {
  if (words.size() == 1 && words[0] == kPeak) return Place{};
  if (words.empty() || words.size() > 3) return {};
  const auto place = whole_place(words[0], sides);
  if (!place || words.size() == 1) return place;
  const auto hand = hand_of(words[1]);
  if (!hand) return {};
  if (words.size() == 2) return place->on(*hand);
  const int number = number_of(words[2]);
  if (number == 0 || place->of != Place::Of::side) return {};
  return place->on(*hand, number);
}

}  // namespace

std::string_view name_of(PartKind kind) { return kPartNames[static_cast<std::size_t>(kind)]; }
std::string_view name_of(CutName name) { return kCutNames[static_cast<std::size_t>(name)]; }
std::string_view name_of(JointName name) { return kJointNames[static_cast<std::size_t>(name)]; }

std::string text_from_place(const Place& place) {
  static const auto labels = layout::corner_labels(layout::kMostSides);
  if (place.of == Place::Of::peak) return std::string(kPeak);
  std::string text = labels[place.corner];
  if (place.of == Place::Of::side) text += '-' + labels[place.next];
  if (place.hand == Hand::none) return text;
  text += ' ';
  text += place.hand == Hand::left ? kLeft : kRight;
  if (place.number > 0) text += ' ' + std::to_string(place.number);
  return text;
}

std::optional<Place> place_from_text(std::string_view text, int sides) {
  return place_in(words_of(text), sides);
}

base::Value place_of(const Place& place) {
  using base::Fact;
  using base::Id;
  if (place.of == Place::Of::peak) return Fact{"places.peak"};
  const base::Name at{text_from_place(place.whole())};
  if (place.hand == Hand::none) return at;
  const bool left = place.hand == Hand::left;
  if (place.number == 0) return Fact{left ? Id("places.left") : Id("places.right"), {{"at", at}}};
  return Fact{left ? Id("places.left_number") : Id("places.right_number"),
              {{"at", at}, {"number", base::Count{static_cast<std::size_t>(place.number)}}}};
}

std::string text_from_part(const PartName& part) {
  return std::string(name_of(part.kind)) + ' ' + text_from_place(part.at);
}

std::optional<PartName> part_from_text(std::string_view text, int sides) {
  Words words = words_of(text);
  if (words.empty()) return {};
  const auto name = std::find(kPartNames.begin(), kPartNames.end(), words[0]);
  if (name == kPartNames.end()) return {};
  words.erase(words.begin());
  const auto place = place_in(words, sides);
  if (!place) return {};
  return PartName{static_cast<PartKind>(name - kPartNames.begin()), *place};
}

}  // namespace stakewright::roof
