// The roof as found, against plane trigonometry done apart from the code.

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <map>

#include "refusal.hpp"
#include "roof/roofs.hpp"
#include "roof/trade.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRounding = 1e-10;

/// Labels of the corner `k` places after the first, and of the side from it.
std::string corner_label(std::size_t k, std::size_t n) {
  return layout::corner_labels(static_cast<int>(n))[k % n];
}

std::string side_label(std::size_t k, std::size_t n) {
  return corner_label(k, n) + "-" + corner_label(k + 1, n);
}

/// The plate as found and what plane trigonometry says of its sides.
struct Sides {
  std::vector<base::Point> plate;
  base::Point apex;
  double height_m;

  [[nodiscard]] std::size_t size() const { return plate.size(); }
  [[nodiscard]] base::Point corner(std::size_t k) const { return plate[k % size()]; }
  [[nodiscard]] double run(std::size_t k) const {
    return trade::run_m(corner(k), corner(k + 1), apex);
  }
  [[nodiscard]] double slope(std::size_t k) const { return std::atan2(height_m, run(k)); }
  [[nodiscard]] double turn(std::size_t k) const {
    return trade::turn_rad(corner(k + size() - 1), corner(k), corner(k + 1));
  }
};

Sides sides_of(const Site& site, const Carry& roof) {
  return {trade::shifted(site.found.corners, site.plate_offset_m), roof.apex.at,
          roof.apex.height_m};
}

TEST(FoundRoof, HasTheHipsAndCommonsOfItsOwnRuns) {
  for (const auto& site : random_sites(60, 401)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    for (std::size_t k = 0; k < sides.size(); ++k) {
      const double hip_run = base::distance_m(sides.corner(k), sides.apex);
      const std::string corner = corner_label(k, sides.size());
      EXPECT_NEAR(*part(roof, PartKind::hip, corner).line.found,
                  std::hypot(hip_run, sides.height_m), kRounding);
      EXPECT_NEAR(*cut(roof, PartKind::hip, corner, "plumb").angle.found,
                  std::atan2(sides.height_m, hip_run), kRounding);
      const std::string side = side_label(k, sides.size());
      EXPECT_NEAR(*part(roof, PartKind::common, side).line.found,
                  std::hypot(sides.run(k), sides.height_m), kRounding);
      EXPECT_NEAR(*cut(roof, PartKind::common, side, "seat").angle.found,
                  std::numbers::pi / 2 - sides.slope(k), kRounding);
    }
  }
}

TEST(FoundRoof, RunsItsJacksFromTheFoundCommonToTheMiddleOfTheFoundHip) {
  for (const auto& site : random_sites(60, 412)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const std::size_t n = sides.size();
    for (const auto& one : roof.parts) {
      if (one.kind != PartKind::jack) continue;
      const std::size_t k = one.at.corner;
      const bool left = one.at.hand == Hand::left;
      // On the side, from the left corner: where the apex stands over it, less or more spacings.
      const double side = base::distance_m(sides.corner(k), sides.corner(k + 1));
      const double foot =
          base::dot(sides.apex - sides.corner(k), sides.corner(k + 1) - sides.corner(k)) / side;
      const double at = foot + (left ? -1.0 : 1.0) * one.at.number * site.spec.spacing_m;
      EXPECT_NEAR(one.from_corner_m, at, 1e-9);
      // Similar triangles: as far along the common as it stands from the corner.
      const double share = left ? at / foot : (side - at) / (side - foot);
      EXPECT_NEAR(*one.line.found, share * std::hypot(sides.run(k), sides.height_m), kRounding);
      if (one.fit != Fit::own) continue;
      // Half the hip over the sine of the angle in plan between jack and hip, up the slope.
      const double angle = std::atan2(left ? foot : side - foot, sides.run(k));
      EXPECT_NEAR(one.shortening_m,
                  0.5 * site.spec.hip_m / std::sin(angle) / std::cos(sides.slope(k)), kRounding);
    }
    for (std::size_t k = 0; k < n; ++k)
      EXPECT_NEAR(*part(roof, PartKind::beam, side_label(k, n)).line.found,
                  base::distance_m(sides.corner(k), sides.corner(k + 1)), kRounding);
  }
}

TEST(FoundRoof, RipsPostsAndMitersBeamsByHalfTheTurnOfTheirCorner) {
  for (const auto& site : random_sites(40, 413)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const std::size_t n = sides.size();
    for (std::size_t k = 0; k < n; ++k) {
      const double half = 0.5 * sides.turn(k);
      EXPECT_NEAR(*cut(roof, PartKind::post, corner_label(k, n), "rip").angle.found, half, 1e-7);
      EXPECT_NEAR(*cut(roof, PartKind::beam, side_label(k, n) + " left", "miter").angle.found, half,
                  1e-7);
      EXPECT_NEAR(
          *cut(roof, PartKind::beam, side_label(k + n - 1, n) + " right", "miter").angle.found,
          half, 1e-7);
    }
  }
}

TEST(FoundRoof, FillsTheWholeRoundOfThePeakWithTheCheeksOfItsHips) {
  for (const auto& site : random_sites(40, 414)) {
    const Carry roof = carry(site);
    const std::size_t n = site.found.corners.size();
    double round = 0.0;
    for (std::size_t k = 0; k < n; ++k)
      for (const char* hand : {" left", " right"})
        round += *cut(roof, PartKind::hip, corner_label(k, n) + hand, "cheek").angle.found;
    EXPECT_NEAR(round, 2.0 * std::numbers::pi, kRounding) << site.words;
  }
}

TEST(FoundRoof, BacksEachSideOfAHipSoThatBothMakeTheAngleBetweenItsFaces) {
  for (const auto& site : random_sites(60, 402)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const std::size_t n = sides.size();
    for (std::size_t k = 0; k < n; ++k) {
      const std::string corner = corner_label(k, n);
      const double both = *cut(roof, PartKind::hip, corner + " left", "backing").angle.found +
                          *cut(roof, PartKind::hip, corner + " right", "backing").angle.found;
      EXPECT_NEAR(both,
                  trade::between_faces_rad(sides.slope(k + n - 1), sides.slope(k), sides.turn(k)),
                  1e-7);  // the arc cosine of the check loses half the digits on flat roofs
    }
  }
}

TEST(FoundRoof, KeepsALevelEaveLevelAndLetsTheOverhangFollowTheRun) {
  for (auto site : random_sites(40, 403)) {
    SCOPED_TRACE(site.words);
    site.spec.eave = Eave::level;
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const double drop = site.spec.overhang_m * site.spec.pitch;
    for (std::size_t k = 0; k < sides.size(); ++k) {
      const EaveSide& eave = roof.eaves[k];
      EXPECT_EQ(text_from_place(eave.at), side_label(k, sides.size()));
      EXPECT_NEAR(*eave.drop.found, drop, kRounding);
      EXPECT_NEAR(*eave.overhang.found, drop / std::tan(sides.slope(k)), kRounding);
    }
    // The eave lines meet: shift each plate side out by its own overhang.
    const std::size_t n = sides.size();
    std::vector<base::Point> corners;
    for (std::size_t k = 0; k < n; ++k)
      corners.push_back(trade::meet(
          trade::side_line(sides.corner(k + n - 1), sides.corner(k),
                           *roof.eaves[(k + n - 1) % n].overhang.found),
          trade::side_line(sides.corner(k), sides.corner(k + 1), *roof.eaves[k].overhang.found)));
    for (std::size_t k = 0; k < n; ++k)
      EXPECT_NEAR(*part(roof, PartKind::fascia, side_label(k, n)).line.found,
                  base::distance_m(corners[k], corners[(k + 1) % n]), kRounding);
  }
}

TEST(FoundRoof, KeepsAnEvenOverhangAndLetsTheDropFollowTheSlope) {
  for (auto site : random_sites(40, 404)) {
    SCOPED_TRACE(site.words);
    site.spec.eave = Eave::even;
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const auto corners = trade::shifted(sides.plate, site.spec.overhang_m);
    for (std::size_t k = 0; k < sides.size(); ++k) {
      EXPECT_NEAR(*roof.eaves[k].overhang.found, site.spec.overhang_m, kRounding);
      EXPECT_NEAR(*roof.eaves[k].drop.found, site.spec.overhang_m * std::tan(sides.slope(k)),
                  kRounding);
      EXPECT_NEAR(*part(roof, PartKind::fascia, side_label(k, sides.size())).line.found,
                  base::distance_m(corners[k], corners[(k + 1) % sides.size()]), kRounding);
    }
  }
}

/// The plane of a saw cut at a board's end, put back from its miter and bevel.
struct Vector {
  double x, y, z;
};

Vector sum(double a, const Vector& p, double b, const Vector& q, double c, const Vector& r) {
  return {a * p.x + b * q.x + c * r.x, a * p.y + b * q.y + c * r.y, a * p.z + b * q.z + c * r.z};
}

/// `way` is 1 at the right end of the board over side k, -1 at its left end.
Vector sawn_plane(const Carry& roof, const Sides& sides, Tail tail, std::size_t k, double way) {
  const base::Point along = (way / base::distance_m(sides.corner(k), sides.corner(k + 1))) *
                            (sides.corner(k + 1) - sides.corner(k));
  const trade::Line line = trade::side_line(sides.corner(k), sides.corner(k + 1), 0.0);
  const double lean = tail == Tail::square ? sides.slope(k) : 0.0;
  const Vector face{line.a * std::cos(lean), line.b * std::cos(lean), -std::sin(lean)};
  const Vector width{line.a * std::sin(lean), line.b * std::sin(lean), std::cos(lean)};
  const std::string end = side_label(k, sides.size()) + (way > 0.0 ? " right" : " left");
  const double miter = *cut(roof, PartKind::fascia, end, "miter").angle.found;
  const double bevel = *cut(roof, PartKind::fascia, end, "bevel").angle.found;
  return sum(std::cos(bevel) * std::cos(miter), {along.x_m, along.y_m, 0.0},
             -std::cos(bevel) * std::sin(miter), width, -std::sin(bevel), face);
}

TEST(FoundRoof, SawsTheTwoFasciaBoardsOfACornerInOnePlane) {
  for (const auto& site : random_sites(60, 405)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Sides sides = sides_of(site, roof);
    const std::size_t n = sides.size();
    for (std::size_t k = 0; k < n; ++k) {
      const Vector one = sawn_plane(roof, sides, site.spec.tail, (k + n - 1) % n, 1.0);
      const Vector other = sawn_plane(roof, sides, site.spec.tail, k, -1.0);
      EXPECT_NEAR(one.x + other.x, 0.0, kRounding);
      EXPECT_NEAR(one.y + other.y, 0.0, kRounding);
      EXPECT_NEAR(one.z + other.z, 0.0, kRounding);
    }
  }
}

TEST(FoundRoof, DiffersInNothingWhereTheCornersStandAsPlanned) {
  for (auto site : random_sites(60, 406)) {
    SCOPED_TRACE(site.words);
    site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
    site.found.pin = site.plan.center;
    site.found.covariance = base::Matrix(site.found.covariance.rows, site.found.covariance.cols);
    const Carry roof = carry(site);
    for (const auto& one : roof.parts) {
      EXPECT_NEAR(*one.line.difference, 0.0, kRounding);
      EXPECT_EQ(*one.line.uncertainty, 0.0);
      EXPECT_EQ(one.fit, Fit::pattern);
    }
    for (const auto& one : roof.cuts) {
      EXPECT_NEAR(*one.angle.difference, 0.0, kRounding) << name_of(one.name);
      EXPECT_EQ(one.fit, Fit::pattern);
    }
  }
}

/// All figures by kind and name, in the order of the corners.
using Table = std::map<std::string, std::vector<Figure>>;

Table table_of(const Carry& roof) {
  Table table;
  for (const auto& one : roof.parts)
    if (one.kind != PartKind::jack && one.kind != PartKind::blocking)
      table[std::string(name_of(one.kind))].push_back(one.line);
  for (const auto& one : roof.cuts) {
    const char* hand = one.at.hand == Hand::left    ? " left"
                       : one.at.hand == Hand::right ? " right"
                                                    : "";
    table[fmt::format("{} {}{}", name_of(one.part), name_of(one.name), hand)].push_back(one.angle);
  }
  return table;
}

TEST(FoundRoof, IsTheSameFromWhicheverCornerTheNamesStart) {
  for (auto site : random_sites(40, 407)) {
    SCOPED_TRACE(site.words);
    const Table before = table_of(carry(site));
    const std::size_t n = site.found.corners.size();
    // Name the second corner A: the plan faces one side further, everything moves up by one.
    site.plan.facing_rad += 2.0 * std::numbers::pi / static_cast<double>(n);
    Site renamed = site;
    const auto old = [n](std::size_t i) { return i < 2 * n ? (i + 2) % (2 * n) : i; };
    for (std::size_t i = 0; i < n; ++i) renamed.found.corners[i] = site.found.corners[(i + 1) % n];
    for (std::size_t i = 0; i < 2 * n + 2; ++i)
      for (std::size_t j = 0; j < 2 * n + 2; ++j)
        renamed.found.covariance(i, j) = site.found.covariance(old(i), old(j));
    const Table after = table_of(carry(renamed));
    for (const auto& [name, figures] : before)
      for (std::size_t i = 0; i < n; ++i) {
        EXPECT_NEAR(*after.at(name)[i].found, *figures[(i + 1) % n].found, kRounding) << name;
        EXPECT_NEAR(*after.at(name)[i].uncertainty, *figures[(i + 1) % n].uncertainty, kRounding);
      }
  }
}

/// The site seen in a mirror on the line from the center through the middle of side A-B.
Site mirrored(const Site& site) {
  const base::Point axis = base::along(site.plan.facing_rad);
  const base::Point across = base::clockwise(axis);
  const auto flip = [&](base::Point point) {
    const base::Point from_center = point - site.plan.center;
    return point - (2.0 * base::dot(from_center, across)) * across;
  };
  Site result = site;
  const std::size_t n = site.found.corners.size();
  for (std::size_t i = 0; i < n; ++i)
    result.found.corners[i] = flip(site.found.corners[(n + 1 - i) % n]);
  result.found.pin = flip(*site.found.pin);
  // Covariance of the flipped coordinates: M C M', with M the flip of each point.
  base::Matrix flips(2 * n + 2, 2 * n + 2);
  const double a = across.x_m;
  const double b = across.y_m;
  for (std::size_t i = 0; i <= n; ++i) {
    const std::size_t from = i == n ? n : (n + 1 - i) % n;
    flips(2 * i, 2 * from) = 1.0 - 2.0 * a * a;
    flips(2 * i, 2 * from + 1) = flips(2 * i + 1, 2 * from) = -2.0 * a * b;
    flips(2 * i + 1, 2 * from + 1) = 1.0 - 2.0 * b * b;
  }
  const auto& given = site.found.covariance;
  result.found.covariance = base::Matrix(given.rows, given.cols);
  for (std::size_t i = 0; i < given.rows; ++i)
    for (std::size_t j = 0; j < given.rows; ++j)
      for (std::size_t k = 0; k < given.rows; ++k)
        for (std::size_t l = 0; l < given.rows; ++l)
          result.found.covariance(i, j) += flips(i, k) * given(k, l) * flips(j, l);
  return result;
}

TEST(FoundRoof, IsMirroredByMirroredErrors) {
  for (const auto& site : random_sites(20, 408, 7)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site);
    const Carry mirror = carry(mirrored(site));
    const std::size_t n = site.found.corners.size();
    const auto same = [](const Figure& one, const Figure& other) {
      EXPECT_NEAR(*one.found, *other.found, kRounding);
      EXPECT_NEAR(*one.uncertainty, *other.uncertainty, kRounding);
    };
    for (std::size_t i = 0; i < n; ++i) {
      const std::string corner = corner_label(i, n);
      const std::string corner_there = corner_label(n + 1 - i, n);
      same(part(roof, PartKind::hip, corner).line, part(mirror, PartKind::hip, corner_there).line);
      same(cut(roof, PartKind::hip, corner + " left", "backing").angle,
           cut(mirror, PartKind::hip, corner_there + " right", "backing").angle);
      const std::string side = side_label(i, n);
      const std::string side_there = side_label(2 * n - i, n);
      for (const auto kind : {PartKind::common, PartKind::fascia})
        same(part(roof, kind, side).line, part(mirror, kind, side_there).line);
      for (const char* name : {"miter", "bevel"})
        same(cut(roof, PartKind::fascia, side + " left", name).angle,
             cut(mirror, PartKind::fascia, side_there + " right", name).angle);
    }
  }
}

TEST(Fit, IsPatternOnlyWhereDifferenceAndUncertaintyStayWithinTheSawCut) {
  for (const auto& site : random_sites(60, 409)) {
    const Carry roof = carry(site);
    const double part_m = base::Tolerance{}.part_m;
    for (const auto& one : roof.parts) {
      const double off_m = std::abs(*one.line.difference);
      EXPECT_EQ(one.fit == Fit::pattern, off_m + *one.line.uncertainty <= part_m) << site.words;
      EXPECT_EQ(one.fit == Fit::own, off_m > part_m) << site.words;
    }
  }
}

TEST(Fit, GivesAnAngleTheRoomThatItsJointHas) {
  // A bevel of a 19 mm board may be off by 1.6 mm over its thickness, a plumb cut only by
  // that over the whole depth of the rafter: 0.083 against 0.011 radians.
  Site site;
  site.plan = plan_of(6, 3.0);
  site.spec.overhang_m = 0.4;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(12, 12);
  const auto fit_of = [&site](PartKind kind, const char* at, const char* name) {
    return cut(carry(site), kind, at, name).fit;
  };
  site.found.corners[0] = site.plan.center + 0.98 * (site.found.corners[0] - site.plan.center);
  EXPECT_EQ(fit_of(PartKind::hip, "A", "plumb"), Fit::pattern);
  EXPECT_EQ(fit_of(PartKind::fascia, "A-B left", "bevel"), Fit::pattern);
  site.found.corners[0] = site.plan.center + 0.96 * (site.found.corners[0] - site.plan.center);
  EXPECT_EQ(fit_of(PartKind::hip, "A", "plumb"), Fit::own);
  EXPECT_EQ(fit_of(PartKind::fascia, "A-B left", "bevel"), Fit::pattern);
}

TEST(ApexOverThePin, MovesEveryHipAndComesWithThePinsUncertainty) {
  Site site;
  site.plan = plan_of(6, 3.0);
  site.spec.apex_over = ApexOver::pin;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.pin = base::Point{0.010, 0.0};
  site.found.covariance = base::Matrix(14, 14);
  site.found.covariance(12, 12) = 1e-6;  // 1 mm sideways, as far as the plan is concerned
  const Carry roof = carry(site);
  EXPECT_EQ(roof.apex.at, *site.found.pin);
  EXPECT_TRUE(roof.remarks.empty());
  const Part& hip = part(roof, PartKind::hip, "C");  // stands to the right of the center
  const double run = 6.0 / std::numbers::sqrt3 - 0.010;
  EXPECT_NEAR(*hip.line.found, std::hypot(run, 1.5), kRounding);
  // A hip's length changes with its run by run over length; 1.959964 is the normal's 0.975
  // quantile, as printed in statistical tables.
  EXPECT_NEAR(*hip.line.uncertainty, 1.959964 * 0.001 * run / std::hypot(run, 1.5), 1e-9);
}

TEST(ApexOverThePin, SaysSoWhenThePinWasNotMeasuredOrItsUncertaintyIsNotKnown) {
  Site site;
  site.plan = plan_of(6, 3.0);
  site.spec.apex_over = ApexOver::pin;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(12, 12);
  const Carry without = carry(site);
  EXPECT_THAT(told_in_english(without.remarks),
              testing::ElementsAre(testing::HasSubstr("pin was not measured")));
  EXPECT_EQ(without.apex.at, site.plan.center);
  site.found.pin = base::Point{0.004, 0.003};
  const Carry with = carry(site);
  EXPECT_THAT(told_in_english(with.remarks),
              testing::ElementsAre(testing::HasSubstr("uncertainty is not known")));
  EXPECT_EQ(with.apex.at, *site.found.pin);
}

/// Center of the circle through three points: where two perpendicular bisectors meet.
base::Point circumcenter(base::Point a, base::Point b, base::Point c) {
  const auto bisector = [](base::Point p, base::Point q) {
    const base::Point d = q - p;
    return trade::Line{d.x_m, d.y_m, 0.5 * (base::dot(q, q) - base::dot(p, p))};
  };
  return trade::meet(bisector(a, b), bisector(b, c));
}

TEST(EvenHips, OfThreeSidesStandOverTheCenterOfTheCircleThroughTheCorners) {
  for (auto site : random_sites(60, 410, 3)) {
    SCOPED_TRACE(site.words);
    site.spec.apex_over = ApexOver::even_hips;
    const Carry roof = carry(site);
    const auto plate = trade::shifted(site.found.corners, site.plate_offset_m);
    const base::Point center = circumcenter(plate[0], plate[1], plate[2]);
    EXPECT_LT(base::distance_m(roof.apex.at, center), 1e-9);
    EXPECT_NEAR(*part(roof, PartKind::hip, "A").line.found,
                *part(roof, PartKind::hip, "B").line.found, 1e-9);
  }
}

double spread_of_hip_runs(const std::vector<base::Point>& plate, base::Point apex) {
  double sum = 0.0;
  double squares = 0.0;
  for (const auto& corner : plate) {
    const double run = base::distance_m(corner, apex);
    sum += run;
    squares += run * run;
  }
  const auto n = static_cast<double>(plate.size());
  return squares - sum * sum / n;
}

TEST(EvenHips, HaveLessSpreadThanOverAnyPlaceNearby) {
  for (auto site : random_sites(60, 411)) {
    SCOPED_TRACE(site.words);
    site.spec.apex_over = ApexOver::even_hips;
    const Carry roof = carry(site);
    const auto plate = trade::shifted(site.found.corners, site.plate_offset_m);
    const double least = spread_of_hip_runs(plate, roof.apex.at);
    for (int k = 0; k < 16; ++k) {
      const base::Point aside = 1e-4 * base::along(k * std::numbers::pi / 8.0);
      EXPECT_GT(spread_of_hip_runs(plate, roof.apex.at + aside), least);
    }
  }
}

}  // namespace
}  // namespace stakewright::roof
