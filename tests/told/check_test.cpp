#include "stakewright/told/check.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "hexagon_findings.hpp"
#include "telling.hpp"

namespace stakewright::told {
namespace {

using base::Units;
using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using tests::hexagon_all_in;
using tests::hexagon_d_out;

std::string opening(const check::Findings& findings, Units units = Units::feet_inches) {
  return text_of(check_opening(findings, base::Tolerance{}), english(units));
}

std::string in_spanish(const check::Findings& findings) {
  return text_of(check_opening(findings, base::Tolerance{}), spanish());
}

std::vector<std::string> lines(const check::Findings& findings,
                               const wording::Voice& voice = english()) {
  return lines_of(check_report(tests::hexagon_job(), findings, false).sections, voice);
}

TEST(CheckOpening, TellsAForemanThatNothingMoves) {
  EXPECT_EQ(opening(hexagon_all_in()),
            "All 6 corners are in, each within 1/4\" of its place. Nothing moves.");
  EXPECT_EQ(in_spanish(hexagon_all_in()),
            "Las 6 esquinas están bien, cada una a 6 mm o menos de su lugar. No se mueve nada.");
}

TEST(CheckOpening, TellsWhichStakeMovesWhichWayAndFromWhere) {
  EXPECT_THAT(
      opening(hexagon_d_out()),
      HasSubstr("Stake D is 7/8\" outward and 1/8\" clockwise of its place. Move it 7/8\" "
                "inward and 1/8\" counterclockwise: hold at B and pull 13' 10-1/4\", hold at F "
                "and pull 16' 0\"; it stands where the two meet."));
  EXPECT_THAT(
      in_spanish(hexagon_d_out()),
      HasSubstr("La estaca D está corrida 22 mm afuera y 3 mm a favor del reloj. Muévala 22 "
                "mm adentro y 3 mm contra el reloj: cero en B y mida 4223 mm, cero en F y "
                "mida 4877 mm; va donde se cruzan las dos."));
}

TEST(CheckOpening, TellsWhatWasLeftOutAndWhatSlipItLooksLike) {
  EXPECT_THAT(
      opening(hexagon_d_out()),
      HasSubstr(
          "The tape A–C reads 1' 0\" too long and was left out; it looks like a whole foot."));
  EXPECT_THAT(in_spanish(hexagon_d_out()),
              HasSubstr("La medida A–C da 305 mm de más y se dejó fuera; causa probable: un pie "
                        "entero."));
}

TEST(CheckOpening, SaysWhoIsInBesideTheOneThatMoves) {
  EXPECT_THAT(opening(hexagon_d_out()),
              HasSubstr("A, B, C, E and F are in, within 1/4\" of their places."));
}

TEST(CheckOpening, SpeaksMetricToo) {
  EXPECT_THAT(opening(hexagon_d_out(), Units::millimeters),
              AllOf(HasSubstr("Stake D is 22 mm outward and 3 mm clockwise of its place."),
                    HasSubstr("hold at B and pull 4223 mm"), Not(HasSubstr("\""))));
}

TEST(CheckOpening, SaysWhenTooFewStakesStayToTapeFrom) {
  auto findings = hexagon_d_out();
  findings.moves[0].tapes.clear();
  EXPECT_THAT(opening(findings), HasSubstr("fewer than two stakes stay to tape it from."));
}

TEST(CheckOpening, LeavesManyMovesToTheTable) {
  auto findings = hexagon_d_out();
  for (const std::size_t corner : {0U, 1U, 2U, 4U}) {
    findings.moves.push_back(findings.moves[0]);
    findings.moves.back().corner = corner;
  }
  EXPECT_THAT(opening(findings), HasSubstr("2 more stakes to move: see the moves below."));
}

TEST(CheckOpening, NamesAHeldStakeThatIsOut) {
  auto findings = hexagon_d_out();
  findings.moves.clear();
  EXPECT_THAT(
      opening(findings),
      HasSubstr("Stake D is 7/8\" outward and 1/8\" clockwise of its place and has no move."));
}

TEST(CheckOpening, NamesTheTapesThatWouldFixALooseCorner) {
  auto findings = hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.used.status = adjustment::Status::shape_not_fixed;
  findings.used.loose = {{2, {{0, 2}, {2, 4}}}};
  findings.placement->corners[2] = {};
  findings.survey->measured[2] = false;
  EXPECT_EQ(opening(findings),
            "No corner is shown to be out. A, B, D, E and F are in, within 1/4\" of their places. "
            "Corner C is not fixed by these readings. Pull A–C and "
            "C–E to fix it.");
}

TEST(CheckOpening, JudgesNothingWhenTheReadingsContradictEachOther) {
  auto findings = hexagon_d_out();
  findings.verdict = findings.places = check::Verdict::contradiction;
  findings.moves.clear();
  findings.slips = {};
  findings.slips.verdict = adjustment::SlipVerdict::not_separable;
  findings.slips.ranked = {{{0}, {0.3}, 0.5}, {{1, 2}, {0.1, 0.1}, 0.4}};
  const std::string text = opening(findings);
  EXPECT_THAT(text, HasSubstr("The readings contradict each other"));
  EXPECT_THAT(text, HasSubstr("cannot tell which: A–C, or B–D with D–F."));
  EXPECT_THAT(text, Not(HasSubstr("Move it")));
  EXPECT_THAT(text, Not(HasSubstr(" in, within")));
}

TEST(CheckOpening, NamesTheNextPullWhenItCannotTell) {
  auto findings = hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.placement->corners[3].verdict = placement::Verdict::undecided;
  suspects::Cause stake;
  stake.what = suspects::Cause::What::stake;
  stake.index = 3;
  stake.outward_m = tests::kInch_m;
  findings.suspects.ranked = {{0.5, {suspects::Cause{}}, {}}, {0.4, {stake}, {}}};
  suspects::NextTape next;
  next.from = 0;
  next.to = 3;
  next.repeat = true;
  next.tells = 0;
  next.tells_from = 1;
  findings.tape_next = {next};
  EXPECT_THAT(opening(findings), HasSubstr("Pull A–D again next: tells a misread A–C from stake D "
                                           "standing 1\" outward."));
  EXPECT_THAT(in_spanish(findings),
              HasSubstr("Ahora mida otra vez A–D: distingue entre una mala lectura de A–C y la "
                        "estaca D corrida 25 mm afuera."));
}

TEST(CheckOpening, SaysThatThereIsNothingToJudgeBy) {
  check::Findings findings;
  EXPECT_EQ(opening(findings), "There are no readings to judge by.");
}

TEST(CheckOpening, KeepsALaserApartFromATape) {
  auto findings = hexagon_d_out();
  findings.network.instruments[0].kind = readings::Kind::laser;
  EXPECT_THAT(opening(findings), HasSubstr("The laser reading A–C reads"));
}

TEST(CheckOpening, GivesTheLikeliestCauseItsChance) {
  auto findings = hexagon_d_out();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.slips.excluded = {};
  EXPECT_THAT(
      opening(findings),
      HasSubstr("Likeliest cause (96 %): The tape A–C is misread: it reads about 1' 0\" too "
                "long (a whole foot)."));
}

TEST(CheckReport, HasItsSectionsInEitherLanguage) {
  EXPECT_THAT(
      lines(hexagon_d_out()),
      AllOf(Contains("Corners: tolerance 1/4\", a verdict needs a chance of 95 %"),
            Contains("D | 7/8\" outward | 1/8\" clockwise | 7/8\" | 1/16\" | under 1 % | OUT"),
            Contains("Moves, in working order"), Contains("Readings"),
            Contains("What the numbers may mean, weighed from the plan"),
            Contains(" | 3 % | something else"), Contains("Adjustment")));
  EXPECT_THAT(
      lines(hexagon_d_out(), spanish()),
      AllOf(Contains("Esquinas: tolerancia 6 mm, para decidir se pide una probabilidad de 95 %"),
            Contains(
                "D | 22 mm afuera | 3 mm a favor del reloj | 22 mm | 1.6 mm | menos de 1 % | MAL"),
            Contains("Movimientos, en orden de trabajo"), Contains("Lecturas"),
            Contains(" | 3 % | otra cosa"), Contains("Ajuste")));
}

// Labels, instruments, rounds and pins may be called what they like: no word of theirs is looked
// up, and no word of the report hangs on them.
TEST(CheckReport, TakesNoNameForAWordOfItsOwn) {
  auto findings = hexagon_d_out();
  const std::vector<std::string> words{"OUT", "stake", "in", "cannot tell", "{corner}", "corner"};
  std::vector<std::string> plain;
  for (std::size_t i = 0; i < words.size(); ++i)
    plain.push_back(findings.network.points[i].label + findings.network.points[i].label);
  const auto told_with = [&](const std::vector<std::string>& labels, const wording::Voice& voice) {
    for (std::size_t i = 0; i < labels.size(); ++i) findings.network.points[i].label = labels[i];
    findings.network.instruments[0].name = labels[0];
    return lines(findings, voice);
  };
  for (const wording::Voice& voice : {english(), spanish()}) {
    std::vector<std::string> expected = told_with(plain, voice);
    for (std::string& line : expected)
      for (std::size_t i = 0; i < words.size(); ++i)
        for (auto at = line.find(plain[i]); at != std::string::npos;
             at = line.find(plain[i], at + words[i].size()))
          line.replace(at, plain[i].size(), words[i]);
    EXPECT_EQ(told_with(words, voice), expected);
  }
}

}  // namespace
}  // namespace stakewright::told
