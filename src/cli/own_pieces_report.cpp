// What differs from the pattern over the corners as found.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using roof::PartKind;

roof::PartKind kind_of(const roof::Part& part) { return part.kind; }
roof::PartKind kind_of(const roof::Cut& cut) { return cut.part; }

/// Without blocking: it is cut to fit on the spot.
template <class Pieces>
Pieces to_judge(const Pieces& pieces) {
  Pieces judged;
  std::copy_if(pieces.begin(), pieces.end(), std::back_inserter(judged),
               [](const auto& piece) { return kind_of(piece) != roof::PartKind::blocking; });
  return judged;
}

template <class Pieces>
std::size_t count_of(const Pieces& pieces, roof::Fit fit) {
  return static_cast<std::size_t>(std::count_if(
      pieces.begin(), pieces.end(), [fit](const auto& piece) { return piece.fit == fit; }));
}

double largest_uncertainty_m(const std::vector<roof::Part>& parts) {
  double largest = 0.0;
  for (const auto& part : parts) largest = std::max(largest, part.line.uncertainty.value_or(0.0));
  return largest;
}

double doubt_m(const roof::Joint& joint) { return std::abs(joint.gap_m) + joint.uncertainty_m; }

/// The joints of one kind at a glance.
struct JointKind {
  roof::JointName what = roof::JointName::hip_at_peak;
  int joints = 0;
  int open = 0;
  const roof::Joint* worst = nullptr;
};

std::vector<JointKind> joint_kinds(const std::vector<roof::Joint>& joints) {
  std::vector<JointKind> kinds;
  for (const auto& joint : joints) {
    auto kind = std::find_if(kinds.begin(), kinds.end(),
                             [&joint](const auto& other) { return other.what == joint.what; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), JointKind{joint.what});
    ++kind->joints;
    if (joint.closes) continue;
    ++kind->open;
    if (kind->worst == nullptr || doubt_m(joint) > doubt_m(*kind->worst)) kind->worst = &joint;
  }
  return kinds;
}

/// `B-C 1/16" more, C-D 3/32" less`, without those that round to nothing.
std::string changed_overhangs(const roof::Carry& carry, base::Units units) {
  std::vector<std::string> words;
  for (const auto& eave : carry.eaves) {
    const std::string change =
        directed(eave.overhang.difference.value_or(0.0), {"more", "less"}, units, Step::tape);
    if (change != text_from_length(0.0, units))
      words.push_back(roof::text_from_place(eave.at) + ' ' + change);
  }
  return fmt::format("{}", fmt::join(words, ", "));
}

/// `D 1/8", E 1/16"`: the step between the boards of a corner.
std::string steps(const roof::Carry& carry, base::Units units) {
  std::vector<std::string> words;
  for (const auto& joint : carry.joints) {
    if (joint.what != roof::JointName::fascia_step) continue;
    const std::string step = text_from_length(std::abs(joint.gap_m), units);
    if (step != text_from_length(0.0, units))
      words.push_back(roof::text_from_place(joint.at) + ' ' + step);
  }
  return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace

std::string pieces_words(const roof::Carry& carry, const base::Tolerance& tolerance,
                         base::Units units) {
  const auto parts = to_judge(carry.parts);
  const std::size_t pieces = parts.size();
  const std::size_t off = count_of(parts, roof::Fit::own);
  const std::size_t own = off + count_of(parts, roof::Fit::try_pattern);
  if (own == 0) return fmt::format("All {} pieces come off the pattern.", pieces);
  const std::string forgiven = text_from_length(tolerance.part_m, units, 32);
  std::string words = fmt::format("Of {} pieces {} come off the pattern", pieces, pieces - own);
  if (off > 0)
    words += fmt::format("; {} {} off by more than the {} that a joint forgives", off,
                         off == 1 ? "is" : "are", forgiven);
  if (own == off) return words + '.';
  return words + fmt::format(
                     "; {} may be, for the readings leave up to {} open: try the pattern on "
                     "the spot before you cut {}.",
                     own - off, text_from_small_length(largest_uncertainty_m(parts), units),
                     own - off == 1 ? "it" : "them");
}

std::string own_pieces_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  const auto figure = [&shown](double length_m) {
    return length_m == 0.0 ? std::string("-") : text_from_length(length_m, shown.units);
  };
  for (const auto& part : by_kind(carry)) {
    if (part.kind == PartKind::blocking || part.fit != roof::Fit::own) continue;
    placed.push_back({std::string(roof::name_of(part.kind)),
                      part.at,
                      {directed(*part.line.difference, kLonger, shown.units, Step::fine),
                       figure(roof::line_to_cut_m(part)), figure(part.shortening_m),
                       figure(part.tail_m), figure(part.overall_m)}});
  }
  if (placed.empty()) return "";
  return '\n' + heading("Pieces that are off: cut these to their own lengths", shown.emphasis) +
         table({{"part"},
                {"at"},
                {"off the pattern", Align::right},
                {"line", Align::right},
                {"short by", Align::right},
                {"tail", Align::right},
                {"overall", Align::right}},
               gathered(placed, Rows::selected), shown.emphasis);
}

std::string own_cuts_section(const roof::Carry& carry, const Shown& shown) {
  const auto cuts = to_judge(carry.cuts);
  std::vector<roof::Cut> off;
  std::copy_if(cuts.begin(), cuts.end(), std::back_inserter(off),
               [](const auto& cut) { return cut.fit == roof::Fit::own; });
  const std::size_t doubtful = count_of(cuts, roof::Fit::try_pattern);
  if (off.empty() && doubtful == 0) return "";
  std::string text = "\n";
  if (!off.empty())
    text += heading("Cuts that are off: set these to their own angles", shown.emphasis) +
            settings_table(off, Rows::selected, shown);
  if (doubtful > 0)
    text += paragraph(fmt::format("{} {} may be off by more than a joint forgives.",
                                  counted(doubtful, "cut", "cuts"), off.empty() ? "" : "more"));
  return text;
}

std::string joints_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& kind : joint_kinds(carry.joints)) {
    if (kind.worst == nullptr) continue;
    rows.push_back({std::string(roof::name_of(kind.what)),
                    fmt::format("{} of {}", kind.open, kind.joints),
                    roof::text_from_place(kind.worst->at),
                    directed(kind.worst->gap_m, {"open", "too long"}, shown.units, Step::fine),
                    text_from_small_length(kind.worst->uncertainty_m, shown.units)});
  }
  if (rows.empty()) return "";
  return '\n' + heading("If all is cut to the pattern: joints that may not close", shown.emphasis) +
         table({{"joint"},
                {"may not close", Align::right},
                {"worst at"},
                {"it stands", Align::right},
                {"give or take", Align::right}},
               rows, shown.emphasis);
}

std::string eave_words(const roof::Spec& spec, const roof::Carry& carry, base::Units units) {
  if (spec.eave == roof::Eave::even) {
    const std::string corners = steps(carry, units);
    if (corners.empty()) return "";
    return fmt::format("The overhang stays even, so the fascia boards step at the corners: {}.",
                       corners);
  }
  const std::string sides = changed_overhangs(carry, units);
  if (sides.empty()) return "";
  return fmt::format("The eave stays level, so the overhang changes: {}.", sides);
}

}  // namespace stakewright::cli
