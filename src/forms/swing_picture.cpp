#include "swing_picture.hpp"

#include <algorithm>
#include <array>

#include "pen.hpp"
#include "points.hpp"

namespace stakewright::forms {

using base::Point;
using drawing::At;
using drawing::Box;

void draw_swing(drawing::Page& page, const Box& box, const layout::Plan& plan,
                const layout::Swing& swing) {
  constexpr double kEdge_pt = 6.0;
  const auto points = points_by_label(plan);
  const std::array<Point, 2> holds{points.at(swing.from[0].label), points.at(swing.from[1].label)};
  const auto corners = layout::corners_of(plan.polygon, plan);

  auto shown = corners;
  shown.insert(shown.end(), holds.begin(), holds.end());
  const auto [left, right] = std::minmax_element(shown.begin(), shown.end(),
                                                 [](Point a, Point b) { return a.x_m < b.x_m; });
  const auto [back, front] = std::minmax_element(shown.begin(), shown.end(),
                                                 [](Point a, Point b) { return a.y_m < b.y_m; });
  const double scale = std::min((box.width_pt - 2.0 * kEdge_pt) / (right->x_m - left->x_m),
                                (box.height_pt - 2.0 * kEdge_pt) / (front->y_m - back->y_m));
  const Point middle = 0.5 * Point{left->x_m + right->x_m, back->y_m + front->y_m};
  const auto at = [&](Point p) {
    return At{box.x_pt + box.width_pt / 2.0 + scale * (p.x_m - middle.x_m),
              box.y_pt + box.height_pt / 2.0 - scale * (p.y_m - middle.y_m)};
  };

  drawing::Polygon outline{{}, drawing::Fill::none, {kThin_pt, {1.5, 1.5}}};
  for (const Point& corner : corners) outline.points.push_back(at(corner));
  page.marks.emplace_back(std::move(outline));
  const At stake = at(points.at(swing.stake));
  Pen pen(page);
  for (const Point& hold : holds) {
    pen.line(at(hold), stake, 1.2);
    page.marks.emplace_back(drawing::Circle{at(hold), 1.6, drawing::Fill::black, {0.0, {}}});
  }
  page.marks.emplace_back(drawing::Circle{stake, 3.2, drawing::Fill::white, {1.2, {}}});
}

}  // namespace stakewright::forms
