// The corner of two fascia boards.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "part_pictures.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using drawing::At;
using drawing::Box;
using roof::CutName;
using roof::PartKind;

constexpr double kColumn_pt = 224.0;
constexpr double kGutter_pt = 20.0;
constexpr double kOutline_pt = 1.5;

/// A board and the cut of one of its ends.
struct BoardEnd {
  double width_m = 0.0;
  double thickness_m = 0.0;
  double miter_rad = 0.0;
  double bevel_rad = 0.0;
  /// How far the inner edge stands behind the outer one at the long point.
  [[nodiscard]] double inset_m() const {
    return thickness_m * std::tan(bevel_rad) / std::cos(miter_rad);
  }
  /// How far the lower edge stands behind the upper one, on the outer face.
  [[nodiscard]] double rise_m() const { return width_m * std::tan(miter_rad); }
};

BoardEnd end_of(const PartInput& input, const roof::Part& part, bool right) {
  const auto pick = [&](CutName name) {
    const auto cuts = cuts_of(input.carry, part.name(), name);
    if (cuts.empty()) return 0.0;
    return angle_to_cut_rad(right ? *cuts.back() : *cuts.front());
  };
  // As the carry has it: the board covers the end of the tail.
  const auto plumb = cuts_of(input.carry, {PartKind::common, part.at}, CutName::plumb);
  const double slope = plumb.empty() ? 0.0 : angle_to_cut_rad(*plumb.front());
  const bool upright = input.job.roof.tail == roof::Tail::plumb;
  const double depth = input.job.roof.rafter_depth_m;
  return {upright ? depth / std::cos(slope) : depth, input.job.roof.fascia_m, pick(CutName::miter),
          pick(CutName::bevel)};
}

/// The board's outer face and its top edge, middle left out.
class BoardPlotter {
 public:
  BoardPlotter(drawing::Page& page, const Box& box, const PartInput& input, const roof::Part& part,
               const CutNumbers& numbers)
      : page_(page),
        pen_(page),
        box_(box),
        input_(input),
        part_(part),
        numbers_(numbers),
        left_(end_of(input, part, false)),
        right_(end_of(input, part, true)),
        scale_(scale_for(std::max(left_.width_m, 2.0 * left_.thickness_m), kWidth_pt,
                         input.voice.units())) {}

  /// Returns where the views end.
  double draw() {
    const double k = scale_.points_per_meter();
    const double line = roof::line_to_cut_m(part_);
    const double face_top = box_.y_pt + 2.0 * kDimensionRow_pt + 14.0;
    const double face_bottom = face_top + k * left_.width_m;
    // Long points stand at the ends of the views; the eave line ends an inset within.
    const double from = box_.x_pt + 24.0;
    const double to = box_.right_pt() - 24.0;
    draw_level_dimension(page_, from, to, face_top - 2.0 * kDimensionRow_pt,
                         words("pictures.long_points_dimension", part_.overall_m));
    draw_level_dimension(page_, from + k * left_.inset_m(), to - k * right_.inset_m(),
                         face_top - kDimensionRow_pt, words("pictures.eave_dimension", line));
    for (const double x : {from, to})
      draw_extension(page_, x, face_top - 3.0, face_top - 2.0 * kDimensionRow_pt - 5.0);
    board(from, to, face_top, face_bottom, k * left_.rise_m(), k * right_.rise_m());
    number({from - 13.0, 0.5 * (face_top + face_bottom)}, numbers_.cheek);
    caption(face_bottom, "pictures.board_face");
    const double edge_top = face_bottom + 34.0;
    const double edge_bottom = edge_top + k * left_.thickness_m;
    // The outer face of the board is up: the long points are on it.
    board(from, to, edge_top, edge_bottom, k * left_.inset_m(), k * right_.inset_m());
    number({from - 13.0, 0.5 * (edge_top + edge_bottom)}, numbers_.tail);
    caption(edge_bottom, "pictures.board_edge");
    return edge_bottom + 22.0;
  }

  [[nodiscard]] const Scale& scale() const { return scale_; }
  [[nodiscard]] const BoardEnd& left() const { return left_; }

 private:
  static constexpr double kWidth_pt = 60.0;

  [[nodiscard]] std::string words(base::Id id, double length_m) const {
    return input_.voice.text(Fact{id, {{"length", Length{length_m}}}});
  }

  void number(At at, const std::string& words) {
    if (!words.empty()) draw_number(page_, at, words);
  }

  void caption(double bottom_pt, base::Id words) {
    pen_.cut_text({box_.x_pt + 24.0, bottom_pt + 14.0}, box_.width_pt - 48.0,
                  input_.voice.text(words));
  }

  /// Four edges with a gap in the middle of the long ones.
  void board(double from, double to, double top, double bottom, double left_in, double right_in) {
    const double middle = 0.5 * (from + to);
    constexpr double kGap_pt = 11.0;
    for (const auto& [y, left, right] :
         {std::array{top, from, to}, std::array{bottom, from + left_in, to - right_in}}) {
      pen_.line({left, y}, {middle - kGap_pt, y}, kOutline_pt);
      pen_.line({middle + kGap_pt, y}, {right, y}, kOutline_pt);
    }
    pen_.line({from, top}, {from + left_in, bottom}, kOutline_pt);
    pen_.line({to, top}, {to - right_in, bottom}, kOutline_pt);
    for (const double x : {middle - kGap_pt, middle + kGap_pt})
      pen_.line({x, top - 4.0}, {x, bottom + 4.0}, kRule_pt);
  }

  drawing::Page& page_;
  Pen pen_;
  Box box_;
  const PartInput& input_;
  const roof::Part& part_;
  const CutNumbers& numbers_;
  BoardEnd left_;
  BoardEnd right_;
  Scale scale_;
};

/// Two boards from above where they meet, outer edges thick.
void draw_corner(drawing::Page& page, const Box& box, const PartInput& input, double half_turn_rad,
                 const std::string& label) {
  Pen pen(page);
  constexpr double kBoard_pt = 15.0;
  const double length = std::min(0.46 * box.width_pt, box.height_pt);
  const At corner{box.x_pt + box.width_pt / 2.0, box.y_pt + 24.0};
  const double inner = kBoard_pt / std::cos(half_turn_rad);
  const At inside{corner.x_pt, corner.y_pt + inner};
  for (const double hand : {-1.0, 1.0}) {
    const double c = std::cos(half_turn_rad);
    const double s = std::sin(half_turn_rad);
    const double room = (box.bottom_pt() - inside.y_pt) / std::max(s, 0.05);
    const double reach = std::min(length, room);
    const auto along = [&](At from) {
      return At{from.x_pt + hand * reach * c, from.y_pt + reach * s};
    };
    pen.line(corner, along(corner), 2.0);
    const At far = along(corner);
    const At end{far.x_pt - hand * kBoard_pt * s, far.y_pt + kBoard_pt * c};
    pen.line(inside, end, kOutline_pt);
    pen.line(far, end, kRule_pt);
  }
  pen.line(corner, inside, kOutline_pt);
  pen.text({corner.x_pt, corner.y_pt - 8.0}, label,
           {.size_pt = 13.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle});
  pen.cut_text({box.x_pt, box.y_pt + 8.0}, 0.40 * box.width_pt,
               input.voice.text("pictures.corner_from_above"));
}

double half_turn_rad(const PartInput& input, const roof::Part& part) {
  const auto cuts = cuts_of(input.carry, {PartKind::beam, part.at}, CutName::miter);
  return cuts.empty() ? std::numbers::pi / input.job.plan.polygon.sides
                      : angle_to_cut_rad(*cuts.back());
}

void add_figures(KeyColumn& key, const roof::Part& part, const BoardEnd& end) {
  key.add_words(Fact{"pictures.broken"});
  key.add_figure(Fact{"pictures.thickness"}, Length{end.thickness_m});
  key.add_figure(Fact{"pictures.board_width"}, Length{end.width_m});
  key.add_figure(Fact{"pictures.eave_length"}, Length{roof::line_to_cut_m(part)});
  key.add_figure(Fact{"pictures.long_points"}, Length{part.overall_m});
  key.skip(5.0);
}

}  // namespace

Picture fascia_picture(const PartInput& input, const roof::Part& part, bool by_name) {
  const Voice& voice = input.voice;
  const Fact title = title_of(part, by_name);
  PictureSheet sheet = picture_sheet(input.job, {title, note_on(part, by_name)},
                                     {"pictures.fascia_foot"}, Lie::sideways, voice, input.paper);
  const Box& body = sheet.body;
  const CutList cuts = fascia_cuts(input, part);
  const Box views{body.x_pt, body.y_pt, body.width_pt - kColumn_pt - kGutter_pt, body.height_pt};
  BoardPlotter board(sheet.page, views, input, part, cuts.numbers);
  const double below = board.draw();
  const double list_end =
      draw_cut_list(sheet.page, {views.x_pt, below + 6.0, views.width_pt, 0.0}, cuts);
  const std::string right_corner = roof::text_from_place(roof::Place::at_corner(part.at.next));
  draw_corner(sheet.page,
              {views.x_pt, list_end + 8.0, views.width_pt, body.bottom_pt() - list_end - 8.0},
              input, half_turn_rad(input, part), right_corner);
  KeyColumn key(sheet.page, {body.right_pt() - kColumn_pt, body.y_pt, kColumn_pt, body.height_pt},
                voice);
  key.add_words(words_of(board.scale(), voice.units()), kStrong);
  add_figures(key, part, board.left());
  if (!by_name) add_pieces_like(key, input, PartKind::fascia);
  sheet.page.description = voice.text(Fact{"pictures.fascia_description",
                                           {{"part", title},
                                            {"line", Length{roof::line_to_cut_m(part)}},
                                            {"overall", Length{part.overall_m}}}}) +
                           cuts.text();
  return {std::string(name_of(part.kind)), std::move(sheet.page)};
}

}  // namespace stakewright::forms
