// What differs from the pattern over the corners as found.
#include <algorithm>
#include <cmath>

#include "carry_sections.hpp"

namespace stakewright::told {
namespace {

using base::Count;
using base::Directed;
using base::Fact;
using base::Id;
using base::Length;
using base::List;
using base::Way;
using roof::PartKind;

PartKind kind_of(const roof::Part& part) { return part.kind; }
PartKind kind_of(const roof::Cut& cut) { return cut.part; }

/// Without blocking: it is cut to fit on the spot.
template <class Pieces>
Pieces to_judge(const Pieces& pieces) {
  Pieces judged;
  std::copy_if(pieces.begin(), pieces.end(), std::back_inserter(judged),
               [](const auto& piece) { return kind_of(piece) != PartKind::blocking; });
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

/// How many pieces come off the pattern, are off, or may be off.
Fact pieces_told(const roof::Carry& carry, const base::Tolerance& tolerance,
                 const wording::Voice& voice) {
  const auto parts = to_judge(carry.parts);
  const std::size_t off = count_of(parts, roof::Fit::own);
  const std::size_t doubtful = count_of(parts, roof::Fit::try_pattern);
  if (off + doubtful == 0) return {"carry.all_off_pattern", {{"count", Count{parts.size()}}}};
  const Fact are_off{"carry.are_off",
                     {{"count", Count{off}}, {"size", lumber_size(tolerance.part_m, voice)}}};
  const Fact may_be{"carry.may_be",
                    {{"count", Count{doubtful}}, {"open", fine(largest_uncertainty_m(parts))}}};
  return {
      "carry.some_off_pattern",
      {{"all", Count{parts.size()}},
       {"count", Count{parts.size() - off - doubtful}},
       {"others", doubtful == 0 ? are_off
                  : off == 0    ? may_be
                                : Fact{"lists.clauses", {{"before", are_off}, {"next", may_be}}}}}};
}

void add_figure(const roof::Place& at, base::Value figure, List& to) {
  to.items.emplace_back(
      Fact{"carry.at_place", {{"at", place_of(at)}, {"figure", std::move(figure)}}});
}

/// The eave's changed overhang, or its steps, without those that come out as nothing.
Paragraph eave(const roof::Spec& spec, const roof::Carry& carry, const wording::Voice& voice) {
  const bool even = spec.eave == roof::Eave::even;
  List places{{}, List::Joint::listed};
  if (even) {
    for (const roof::Joint& joint : carry.joints) {
      const Length step{std::abs(joint.gap_m)};
      if (joint.what == roof::JointName::fascia_step && !told_alike(step, Length{}, voice))
        add_figure(joint.at, step, places);
    }
  } else {
    for (const roof::EaveSide& side : carry.eaves) {
      const Directed change{Way::more, Length{side.overhang.difference.value_or(0.0)}};
      if (!told_alike(change, {Way::more, Length{}}, voice)) add_figure(side.at, change, places);
    }
  }
  if (places.items.empty()) return {};
  return {{even ? Id("carry.boards_step") : Id("carry.overhang_changes"),
           {{"places", std::move(places)}}}};
}

Table own_pieces_table(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Part& part : by_kind(carry)) {
    if (part.kind == PartKind::blocking || part.fit != roof::Fit::own) continue;
    placed.push_back({name(part.kind),
                      part.at,
                      {Directed{Way::longer, fine(*part.line.difference)},
                       length_or_dash(roof::line_to_cut_m(part)), length_or_dash(part.shortening_m),
                       length_or_dash(part.tail_m), length_or_dash(part.overall_m)}});
  }
  return {{Fact{"roof_tables.part"}, Fact{"roof_tables.at"}, Fact{"roof_tables.off_the_pattern"},
           Fact{"roof_tables.line"}, Fact{"roof_tables.short_by"}, Fact{"roof_tables.tail"},
           Fact{"roof_tables.overall"}},
          gathered(placed, voice, Rows::selected)};
}

/// Cuts that are off by more than the part tolerance, and how many may be.
std::vector<Section> own_cuts(const roof::Carry& carry, const wording::Voice& voice) {
  const auto cuts = to_judge(carry.cuts);
  std::vector<roof::Cut> off;
  std::copy_if(cuts.begin(), cuts.end(), std::back_inserter(off),
               [](const auto& cut) { return cut.fit == roof::Fit::own; });
  const std::size_t doubtful = count_of(cuts, roof::Fit::try_pattern);
  if (off.empty() && doubtful == 0) return {};
  Section section;
  if (!off.empty())
    section = {Fact{"carry.own_cuts"}, {settings_table(off, Rows::selected, voice)}};
  if (doubtful > 0)
    section.blocks.emplace_back(
        Paragraph{{off.empty() ? Id("carry.cuts_may_be_off") : Id("carry.more_cuts_may_be_off"),
                   {{"count", Count{doubtful}}}}});
  return {std::move(section)};
}

/// The worst joint of each kind that may not close when every piece is cut to the pattern.
Table joints_table(const roof::Carry& carry) {
  Table table{
      {Fact{"roof_tables.joint"}, Fact{"roof_tables.may_not_close"}, Fact{"roof_tables.worst_at"},
       Fact{"roof_tables.it_stands"}, Fact{"columns.give_or_take"}},
      {}};
  for (const JointKind& kind : joint_kinds(carry.joints)) {
    if (kind.worst == nullptr) continue;
    table.rows.push_back({name(kind.what), so_many_of(kind.open, kind.joints),
                          place_of(kind.worst->at), Directed{Way::open, fine(kind.worst->gap_m)},
                          fine(kind.worst->uncertainty_m)});
  }
  return table;
}

}  // namespace

std::vector<Section> found_sections(const job::Job& job, const roof::Carry& carry, Fact over,
                                    const wording::Voice& voice) {
  Paragraph opening{std::move(over), pieces_told(carry, job.tolerance, voice)};
  add(eave(job.roof, carry, voice), opening);
  std::vector<Section> sections{{{}, {std::move(opening)}}};
  if (Table table = own_pieces_table(carry, voice); !table.rows.empty())
    sections.push_back({Fact{"carry.own_pieces"}, {std::move(table)}});
  add(own_cuts(carry, voice), sections);
  if (Table table = joints_table(carry); !table.rows.empty())
    sections.push_back({Fact{"carry.open_joints"}, {std::move(table)}});
  return sections;
}

}  // namespace stakewright::told
