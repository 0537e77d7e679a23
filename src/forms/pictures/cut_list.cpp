#include "cut_list.hpp"

#include <cmath>
#include <numbers>
#include <utility>

#include "found_marks.hpp"
#include "pen.hpp"
#include "roof_words.hpp"
#include "stakewright/base/angle.hpp"
#include "stick_shape.hpp"

namespace stakewright::forms {
namespace {

using base::text_from_angle;
using roof::Cut;
using roof::CutName;
using roof::PartKind;

class Writer {
 public:
  explicit Writer(const PartInput& input) : input_(input) {}

  /// One entry for the cuts of a name, left and right apart where they are set differently.
  /// `pattern`: the sentence for one of them.  Returns the number it got; empty for no cut.
  std::string add(const roof::Part& part, CutName name, const char* heading, const char* pattern) {
    const auto cuts = cuts_of(input_.carry, part.name(), name);
    if (cuts.empty()) return "";
    const std::string first = sentence(part, *cuts.front(), pattern);
    const std::string last = sentence(part, *cuts.back(), pattern);
    std::string words = first;
    if (first != last) {
      words = input_.wording.filled("pictures.cut_left", {{"words", first}}) + ' ' +
              input_.wording.filled("pictures.cut_right", {{"words", last}});
    }
    if (cuts.front()->setting.past_tilt) words += ' ' + past_tilt_words(*cuts.front());
    list_.cuts.push_back({input_.wording.text(heading), words});
    return std::to_string(list_.cuts.size());
  }

  CutList list(const CutNumbers& numbers) && {
    list_.numbers = numbers;
    return std::move(list_);
  }

 private:
  [[nodiscard]] std::string length(double length_m) const {
    return base::text_from_length(length_m, input_.choices.units);
  }

  [[nodiscard]] std::string sentence(const roof::Part& part, const Cut& cut,
                                     const char* pattern) const {
    const SquareHold hold = square_hold(cut.setting.square, input_.choices.units);
    const double half_m =
        0.5 * (part.kind == PartKind::hip ? input_.job.roof.hip_m : input_.job.roof.rafter_m);
    return input_.wording.filled(pattern,
                                 {{"angle", hold.angle_arm},
                                  {"other", hold.other_arm},
                                  {"miter", text_from_angle(std::abs(cut.setting.miter_rad))},
                                  {"bevel", text_from_angle(cut.setting.bevel_rad)},
                                  {"heel", length(part.heel_m)},
                                  {"notch", length(part.notch_m)},
                                  {"fall", length(half_m * std::tan(cut.setting.bevel_rad))},
                                  {"drop", length(part.drop_m)}});
  }

  [[nodiscard]] std::string past_tilt_words(const Cut& cut) const {
    return input_.wording.filled(
        "pictures.past_tilt",
        {{"rest", text_from_angle(std::numbers::pi / 2.0 - cut.setting.bevel_rad)}});
  }

  const PartInput& input_;
  CutList list_;
};

}  // namespace

CutList rafter_cuts(const PartInput& input, const roof::Part& part) {
  const bool plumb_tail = input.job.roof.tail == roof::Tail::plumb;
  const bool hip = part.kind == PartKind::hip;
  Writer writer(input);
  CutNumbers numbers;
  numbers.plumb =
      writer.add(part, CutName::plumb, "pictures.cut_plumb", "pictures.cut_plumb_words");
  if (part.notch_m > 0.0)
    numbers.seat = writer.add(part, CutName::seat, "pictures.cut_seat", "pictures.cut_seat_words");
  const bool jack = part.kind == PartKind::jack;
  numbers.cheek =
      writer.add(part, CutName::cheek, jack ? "pictures.cut_cheek" : "pictures.cut_cheeks",
                 jack ? "pictures.cut_cheek_jack_words" : "pictures.cut_cheek_words");
  const char* tail =
      plumb_tail ? "pictures.cut_tail_plumb_words" : "pictures.cut_tail_square_words";
  const char* hip_tail =
      plumb_tail ? "pictures.cut_hip_tail_plumb_words" : "pictures.cut_hip_tail_square_words";
  numbers.tail = writer.add(part, CutName::tail, "pictures.cut_tail", hip ? hip_tail : tail);
  if (hip) writer.add(part, CutName::backing, "pictures.cut_backing", "pictures.cut_backing_words");
  return std::move(writer).list(numbers);
}

CutList fascia_cuts(const PartInput& input, const roof::Part& part) {
  Writer writer(input);
  CutNumbers numbers;
  numbers.cheek =
      writer.add(part, CutName::miter, "pictures.cut_miter", "pictures.cut_miter_words");
  numbers.tail = writer.add(part, CutName::bevel, "pictures.cut_bevel", "pictures.cut_bevel_words");
  return std::move(writer).list(numbers);
}

double draw_cut_list(drawing::Page& page, const drawing::Box& box, const CutList& list) {
  constexpr double kNumber_pt = 22.0;
  constexpr double kBetween_pt = 5.0;
  Pen pen(page);
  double y = box.y_pt;
  for (std::size_t k = 0; k < list.cuts.size(); ++k) {
    const double left = box.x_pt + kNumber_pt;
    const double width = box.width_pt - kNumber_pt;
    draw_number(page, {box.x_pt + kSuspectRadius_pt, y + kSuspectRadius_pt - 1.0},
                std::to_string(k + 1));
    pen.text({left, y + drawing::ascent_pt(kText_pt)}, list.cuts[k].heading, kStrong);
    y += kLeading_pt;
    y += pen.paragraph({left, y}, width, list.cuts[k].words) + kBetween_pt;
  }
  return y;
}

}  // namespace stakewright::forms
