// The carry as told on a terminal, over real roofs.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <sstream>

#include "refusal.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/told/carry.hpp"
#include "text.hpp"

namespace stakewright::cli {
namespace {

using results::CarryResult;
using testing::AllOf;
using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;
using told::Detail;

constexpr auto kFeet = base::Units::feet_inches;
constexpr auto kMillimeters = base::Units::millimeters;
constexpr double kInch_m = 0.0254;

/// Six sides, 16 ft across flats on the plate line, 8 in 12, one spacing of jacks.
job::Job hexagon(const std::string& more = "") {
  return job::job_from_text(
      "title = 'Larch Hollow'\nunits = 'feet-inches'\n[plan]\nsides = 6\nacross_flats = '16ft'\n"
      "[roof]\npitch = '8/12'\noverhang = '18in'\nspacing = '24in'\n" +
          more,
      "job.toml");
}

/// Findings of corners known to `sd_m` each way, one of them moved outward, and its move.
check::Findings found_with(const job::Job& job, std::size_t corner, double outward_m,
                           double sd_m = 0.0001) {
  check::Findings findings;
  findings.verdict = findings.places = check::Verdict::out;
  findings.used.status = adjustment::Status::settled;
  findings.network.corner_count = 6;
  findings.used.place_known.assign(7, false);
  findings.set_sd_m = 0.0001;
  findings.survey.emplace();
  findings.survey->planned = layout::corners_of(job.plan.polygon, job.plan);
  findings.survey->found = findings.survey->planned;
  auto& moved = findings.survey->found[corner];
  moved = (1.0 + outward_m / base::norm_m(moved)) * moved;
  findings.placement.emplace();
  findings.placement->deviation_covariance = base::Matrix(12, 12);
  for (std::size_t i = 0; i < 12; ++i) findings.placement->deviation_covariance(i, i) = sd_m * sd_m;
  placement::Move move;
  move.corner = corner;
  move.outward_m = -outward_m;
  findings.moves = {move};
  return findings;
}

wording::Voice english(base::Units units) { return {wording::built_in("en"), units}; }

std::string report(const job::Job& job, const CarryResult& result, base::Units units = kFeet,
                   Detail detail = Detail::what_differs) {
  const wording::Voice voice = english(units);
  return text_of(told::carry_report(job, result, detail, voice), voice, Emphasis::off);
}

std::string cut_sheet_report(const job::Job& job, const CarryResult& result, base::Units units) {
  const wording::Voice voice = english(units);
  return text_of(told::cut_sheet_report(job, result, voice), voice, Emphasis::off);
}

/// The text with its lines run together, to find sentences in.
std::string unwrapped(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

void expect_within_width(const std::string& report) {
  std::istringstream in(report);
  for (std::string line; std::getline(in, line);)
    EXPECT_LE(display_width(line), kReportWidth) << line;
}

std::size_t lines_of(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

TEST(CarryReport, TellsAlikePiecesOnceWhenOnlyPlanned) {
  const job::Job job = hexagon();
  const std::string told = report(job, results::carry_of(job, {}));
  // 8 ft of run at 8 in 12: 64 in of rise; a common of 14.42 in a foot, 115.4 in.
  EXPECT_THAT(told, HasSubstr("The peak stands 5' 4\" above the plate."));
  EXPECT_THAT(told, ContainsRegex("common +all 6 +9' 7-3/8\""));
  EXPECT_THAT(told, ContainsRegex("jack +each side: 1 left and right"));
  EXPECT_THAT(told, ContainsRegex("common plumb +all 6 +33\\.69° +8\" on 12\""));
  EXPECT_THAT(told, Not(HasSubstr("as they were found")));
  EXPECT_LT(lines_of(told), 60U);
}

TEST(CarryReport, PutsASquaresFiguresOnAMetricArmToo) {
  const job::Job job = hexagon();
  EXPECT_THAT(report(job, results::carry_of(job, {}), kMillimeters),
              HasSubstr("167 mm on 250 mm"));  // 250 · 8/12
}

TEST(CarryReport, TurnsTheSquareOverPastFortyFiveDegrees) {
  const job::Job job = job::job_from_text(
      "units = 'feet-inches'\n[plan]\nsides = 6\nside = 9\n[roof]\npitch = 2\n", "job.toml");
  EXPECT_THAT(report(job, results::carry_of(job, {})), ContainsRegex("common plumb .*12\" on 6\""));
}

TEST(CarryReport, SaysHowACutIsMadeThatNoSawTilts) {
  const job::Job job = hexagon();
  const std::string told = report(job, results::carry_of(job, {}));
  // Half of 2-1/2 in times tan 60.
  EXPECT_THAT(told, ContainsRegex("hip cheek +all 12 +30\\.00° .* 60\\.00° +2-3/16\""));
  EXPECT_THAT(unwrapped(told), HasSubstr("saw by hand"));
  const job::Job square = job::job_from_text(
      "units = 'feet-inches'\n[plan]\nsides = 4\nside = 9\n[roof]\npitch = 0.5\n", "job.toml");
  EXPECT_THAT(report(square, results::carry_of(square, {})), Not(HasSubstr("set back")));
}

TEST(CarryReport, SetsApartThePiecesThatAreOffAndOnlyThose) {
  const job::Job job = hexagon();
  const auto result = results::carry_of(job, found_with(job, 3, kInch_m), {});
  const std::string told = report(job, result);
  EXPECT_THAT(told, ContainsRegex("hip +D +7/8\" longer"));  // an inch times cos 30
  EXPECT_THAT(told, Not(ContainsRegex("hip +A")));
  EXPECT_THAT(told, ContainsRegex("common +C-D, D-E +11/32\" longer"));
  EXPECT_THAT(unwrapped(told), HasSubstr("Of 48 pieces"));
  EXPECT_THAT(unwrapped(told), HasSubstr("The eave stays level, so the overhang changes: C-D "));
  EXPECT_LT(lines_of(told), 110U);
}

TEST(CarryReport, TellsDoubtFromBeingOff) {
  const job::Job job = hexagon();
  const auto result = results::carry_of(job, found_with(job, 3, 0.0, 0.002), {});
  const std::string told = report(job, result);
  EXPECT_THAT(unwrapped(told), HasSubstr("try the pattern on the spot"));
  EXPECT_THAT(told, Not(HasSubstr("Pieces that are off")));
}

TEST(CarryReport, NamesTheStepsOfAnEvenOverhang) {
  const job::Job job = hexagon("eave = 'even'\n");
  EXPECT_THAT(unwrapped(report(job, results::carry_of(job, found_with(job, 3, kInch_m), {}))),
              HasSubstr("the fascia boards step at the corners: C 1/16\", E 1/16\""));
}

TEST(CarryReport, ListsEveryPieceWhenAskedForAll) {
  const job::Job job = hexagon();
  const auto result = results::carry_of(job, found_with(job, 3, kInch_m), {});
  const std::string told = report(job, result, kFeet, Detail::all);
  EXPECT_THAT(told, ContainsRegex("hip +D +10' .* 7/8\" longer +0\" +OWN CUT"));
  EXPECT_THAT(told, ContainsRegex("hip +A, B.* 0\" +0\" +pattern"));
  EXPECT_GT(lines_of(told), lines_of(report(job, result)) + 60U);
}

TEST(Conclusion, SaysThatMovingPaysWhereItDoes) {
  const job::Job job = hexagon();
  const std::string told = report(job, results::carry_of(job, found_with(job, 3, kInch_m), {}));
  EXPECT_THAT(unwrapped(told),
              HasSubstr("It pays to move before the pour: after moving D every piece comes off"));
  EXPECT_THAT(told, ContainsRegex("left as found +[0-9]+ of 48"));
  EXPECT_THAT(told, ContainsRegex("after the moves +0 of 48 +0 +0 of"));
}

TEST(Conclusion, SaysToLeaveCornersThatAMoveWouldBetterByLessThanASawCut) {
  const job::Job job = hexagon();
  const std::string told = report(job, results::carry_of(job, found_with(job, 3, 0.0002), {}));
  EXPECT_THAT(unwrapped(told),
              HasSubstr("Leave the corners as they are: every piece comes off the pattern"));
  EXPECT_THAT(unwrapped(told),
              HasSubstr("Moving D would better the worst of it by no more than 1/16\""));
}

TEST(Conclusion, SaysThatThePlayOfThePostsIsEnoughAndHowEachStandsOff) {
  const job::Job job = hexagon("base_play = '1in'\n");
  results::CarryRequest request;
  request.way = roof::Way::with_play;
  const std::string told =
      report(job, results::carry_of(job, found_with(job, 3, kInch_m), request));
  EXPECT_THAT(unwrapped(told),
              HasSubstr("Setting the posts off their footings' centers is enough"));
  EXPECT_THAT(told, ContainsRegex("D +[0-9/-]+\" inward"));
  EXPECT_THAT(unwrapped(told),
              HasSubstr("With the posts set off their footings' centers: All 48 pieces"));
}

TEST(Ways, AreShownInFullAsAsked) {
  const job::Job job = hexagon();
  results::CarryRequest request;
  request.way = roof::Way::after_moves;
  EXPECT_THAT(unwrapped(report(job, results::carry_of(job, found_with(job, 3, kInch_m), request))),
              HasSubstr("Once the moves are made: All 48 pieces"));
  check::Findings no_moves = found_with(job, 3, 0.0);
  no_moves.moves.clear();
  EXPECT_THAT(told_in_english(results::carry_of(job, no_moves, request).remarks),
              testing::ElementsAre(HasSubstr("no move to make")));
}

TEST(SensitivityReport, TellsWhatACornerDoesToThePiecesNearItAndWhatIsNeeded) {
  const job::Job job = hexagon();
  results::CarryRequest request;
  request.shift_m = 0.25 * kInch_m;
  const wording::Voice voice = english(kFeet);
  const std::string told = text_of(
      told::sensitivity_report(job, results::carry_of(job, request), voice), voice, Emphasis::off);
  // A hip answers with the cosine of its slope, 30 degrees at 8 in 12 on six sides: 7/32 in.
  EXPECT_THAT(told, ContainsRegex("hip +A +7/32\" longer +0\""));
  EXPECT_THAT(told, Not(ContainsRegex("hip +D")));
  EXPECT_THAT(told, ContainsRegex("beam miter +.*A-B left.*° more +"));
  EXPECT_THAT(unwrapped(told), HasSubstr("For every piece to come off the pattern"));
  expect_within_width(told);
}

TEST(CutSheetReport, GroupsThePiecesAndSaysWhatToOrder) {
  const job::Job job = hexagon("[stock]\nlengths = ['14ft', '20ft']\n");
  results::CarryRequest request;
  request.cut_sheet = true;
  const std::string told = cut_sheet_report(job, results::carry_of(job, request), kFeet);
  EXPECT_THAT(told, HasSubstr("Hips, 2-1/2\" by 5-1/2\""));
  EXPECT_THAT(told, ContainsRegex("hip +all 6 +6 +12' "));
  EXPECT_THAT(told, ContainsRegex("hips +[0-9]+' .*84' 0\" +6 of 14' 0\""));
  EXPECT_THAT(told, HasSubstr("Sheathing, "));
  EXPECT_THAT(told, HasSubstr("have no bearing"));
  expect_within_width(told);
  expect_within_width(cut_sheet_report(job, results::carry_of(job, request), kMillimeters));
}

/// Cells of a line of a table: two spaces or more part them.
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  for (std::size_t from = line.find_first_not_of(' '); from != std::string::npos;) {
    const std::size_t end = line.find("  ", from);
    cells.push_back(line.substr(from, end - from));
    from = end == std::string::npos ? end : line.find_first_not_of(' ', end);
  }
  return cells;
}

/// The pieces that all lists of a cut sheet count, one after the other.
std::size_t pieces_counted(const std::string& cut_sheet) {
  std::istringstream in(cut_sheet);
  std::size_t sum = 0;
  bool in_list = false;
  for (std::string line; std::getline(in, line);) {
    const auto cells = cells_of(line);
    if (cells == std::vector<std::string>{"part", "at", "pieces", "stick"})
      in_list = true;
    else if (cells.size() != 4 || !line.starts_with("  ") || cells[0] == "buy")
      in_list = false;
    else if (in_list)
      sum += std::stoul(cells[2]);
  }
  return sum;
}

/// A roof over corners strewn at random, as a carry with its cut sheet.
results::CarryResult strewn(const job::Job& job, std::mt19937& random) {
  std::uniform_real_distribution<double> spread(0.0005, 0.02);
  std::normal_distribution<double> off(0.0, spread(random));
  check::Findings findings = found_with(job, 0, 0.0, 0.002);
  for (auto& corner : findings.survey->found)
    corner = corner + base::Point{off(random), off(random)};
  results::CarryRequest request;
  request.cut_sheet = true;
  return results::carry_of(job, findings, request);
}

TEST(CutSheetReport, CountsEveryPieceOnceThoughRowsPrintAlike) {
  std::mt19937 random(704);
  for (int round = 0; round < 40; ++round) {
    const std::string more = "post_height = '8ft'\nhub = '" + std::to_string(round % 2 * 8) +
                             "in'\n[stock]\nlengths = ['8ft', '" +
                             std::to_string(10 + round % 3 * 4) + "ft']\n";
    const job::Job job = hexagon(more);
    const auto result = strewn(job, random);
    const auto& parts = result.carry().parts;
    const auto pieces = static_cast<std::size_t>(std::count_if(
        parts.begin(), parts.end(), [](const auto& part) { return part.stick_m > 0.0; }));
    for (const base::Units shown : {kFeet, kMillimeters})
      EXPECT_EQ(pieces_counted(cut_sheet_report(job, result, shown)), pieces)
          << "seed 704, round " << round;
  }
}

TEST(CutSheetReport, NamesWhatNoStockIsLongEnoughFor) {
  const job::Job job = hexagon("[stock]\nlengths = ['8ft']\n");
  results::CarryRequest request;
  request.cut_sheet = true;
  EXPECT_THAT(cut_sheet_report(job, results::carry_of(job, request), kFeet),
              HasSubstr("Longer than any stock"));
}

TEST(CarryReport, DefersToTheLocalCodeAndADesigner) {
  const job::Job job = hexagon();
  EXPECT_THAT(
      report(job, results::carry_of(job, {})),
      AllOf(HasSubstr("local code"), HasSubstr("licensed designer"), HasSubstr("fall protection")));
}

TEST(CarryReport, IsAsNarrowAsATerminal) {
  for (const char* more :
       {"", "eave = 'even'\nhub = '6in'\nbase_play = '1/2in'\npost_height = '8ft'\n"}) {
    const job::Job job = hexagon(more);
    const auto result = results::carry_of(job, found_with(job, 3, kInch_m, 0.002), {});
    for (const base::Units shown : {kFeet, kMillimeters}) {
      expect_within_width(report(job, results::carry_of(job, {}), shown));
      expect_within_width(report(job, result, shown));
      expect_within_width(report(job, result, shown, Detail::all));
    }
  }
}

}  // namespace
}  // namespace stakewright::cli
