#include "stakewright/told/carry.hpp"

#include <algorithm>
#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/told/roof_words.hpp"

namespace stakewright::told {
namespace {

using base::Angle;
using base::Fact;
using base::Id;
using base::Length;
using base::Nothing;
using base::Value;
using roof::PartKind;

constexpr double kLastDigits_m = 1e-7;

const roof::Part* first_of(const roof::Carry& carry, PartKind kind) {
  const auto found = std::find_if(carry.parts.begin(), carry.parts.end(),
                                  [kind](const auto& part) { return part.kind == kind; });
  return found == carry.parts.end() ? nullptr : &*found;
}

bool past_tilt(const roof::Cut& cut) { return cut.setting.past_tilt; }

/// The angle of the piece to be cut.
double angle_to_cut_rad(const roof::Cut& cut) {
  return cut.fit == roof::Fit::own ? cut.angle.found.value_or(cut.angle.planned)
                                   : cut.angle.planned;
}

/// Whose corners the rest of the report is worked over.
Fact over_corners(const results::CarryResult& result) {
  switch (result.cases[result.shown].way) {
    case roof::Way::with_play:
      return {"carry.over_posts_set_off"};
    case roof::Way::after_moves:
      return {"carry.over_moved_corners"};
    case roof::Way::leave:
      break;
  }
  return {"carry.over_corners_as_found"};
}

/// One row for pieces cut alike: line, shortening, tail, overall.
Table patterns_table(const roof::Carry& planned, const wording::Voice& voice) {
  // Pieces alike but for the last digits of a sum must not fall on two sides of a half.
  const auto figure = [](double length_m) {
    return length_or_dash(std::round(length_m / kLastDigits_m) * kLastDigits_m);
  };
  std::vector<PlacedRow> placed;
  for (const roof::Part& part : by_kind(planned))
    placed.push_back({name(part.kind),
                      part.at,
                      {figure(part.line.planned), figure(part.shortening_m), figure(part.tail_m),
                       figure(part.overall_m)}});
  return {{Fact{"roof_tables.part"}, Fact{"roof_tables.at"}, Fact{"roof_tables.line"},
           Fact{"roof_tables.shortening"}, Fact{"roof_tables.tail"}, Fact{"roof_tables.overall"}},
          gathered(placed, voice)};
}

/// Heel, notch and drop.
Paragraph seats(const roof::Carry& planned) {
  const roof::Part* common = first_of(planned, PartKind::common);
  const roof::Part* hip = first_of(planned, PartKind::hip);
  if (common == nullptr || hip == nullptr) return {};
  const bool jacks = first_of(planned, PartKind::jack) != nullptr;
  return {{"carry.heel", {{"heel", Length{common->heel_m}}}},
          {jacks ? Id("carry.notches_with_jacks") : Id("carry.notches"),
           {{"commons", Length{common->notch_m}}, {"hips", Length{hip->notch_m}}}},
          {"carry.drop", {{"drop", Length{hip->drop_m}}}}};
}

Section settings_section(const roof::Carry& planned, const wording::Voice& voice) {
  Section section{Fact{"carry.settings"}, {settings_table(planned.cuts, Rows::every, voice)}};
  if (std::any_of(planned.cuts.begin(), planned.cuts.end(), past_tilt))
    section.blocks.emplace_back(Paragraph{{"carry.past_tilt"}});
  return section;
}

}  // namespace

std::vector<roof::Part> by_kind(const roof::Carry& carry) {
  std::vector<roof::Part> parts;
  for (const PartKind kind : roof::kPartKinds) {
    std::copy_if(carry.parts.begin(), carry.parts.end(), std::back_inserter(parts),
                 [kind](const auto& part) { return part.kind == kind; });
  }
  return parts;
}

Table settings_table(const std::vector<roof::Cut>& cuts, Rows which, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Cut& cut : cuts) {
    const roof::Setting& setting = cut.setting;
    const SquareHold hold = square_hold(setting.square, voice.units());
    placed.push_back(
        {name(cut.part, cut.name),
         cut.at,
         {Angle{angle_to_cut_rad(cut)},
          Fact{"carry.on_square", {{"one", hold.angle_arm}, {"other", hold.other_arm}}},
          Angle{setting.miter_rad}, Angle{setting.bevel_rad},
          past_tilt(cut) ? Value(Length{setting.set_back_m}) : Nothing{}}});
  }
  const bool set_back = std::any_of(cuts.begin(), cuts.end(), past_tilt);
  return {{Fact{"roof_tables.cut"}, Fact{"roof_tables.at"}, Fact{"roof_tables.angle"},
           Fact{"roof_tables.square"}, Fact{"roof_tables.miter"}, Fact{"roof_tables.bevel"},
           set_back ? Value(Fact{"roof_tables.set_back"}) : Nothing{}},
          gathered(placed, voice, which)};
}

Report carry_report(const job::Job& job, const results::CarryResult& result, Detail detail,
                    const wording::Voice& voice) {
  const roof::Carry& carry = result.carry();
  Paragraph opening{{"carry.peak_stands", {{"height", Length{carry.apex.height_m}}}}};
  add(conclusion(job, result), opening);
  Report report{job.title, {{{}, {std::move(opening)}}}};
  if (!carry.joints.empty()) {
    add(ways_sections(job, result), report.sections);
    add(found_sections(job, carry, over_corners(result), voice), report.sections);
  }
  report.sections.push_back(
      {Fact{"carry.patterns"}, {patterns_table(result.planned, voice), seats(result.planned)}});
  report.sections.push_back(settings_section(result.planned, voice));
  if (detail == Detail::all) add(full_lists(carry, job.tolerance, voice), report.sections);
  report.sections.push_back({{}, {need(result.need, voice.units())}});
  report.sections.push_back({{}, {Paragraph{{"carry.caution"}}}});
  return report;
}

}  // namespace stakewright::told
