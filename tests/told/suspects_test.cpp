#include "stakewright/told/suspects.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "hexagon_findings.hpp"
#include "stakewright/base/angle.hpp"
#include "telling.hpp"

namespace stakewright::told {
namespace {

using suspects::Cause;
using suspects::SlipKind;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;
using tests::kFoot_m;
using tests::kInch_m;
using What = Cause::What;

/// Three tapes and a laser reading (A–C, B–D, D–F, A–C again), then the angle A–O–B.
adjustment::Network site() {
  adjustment::Network network = tests::hexagon_all_in().network;
  readings::Instrument laser;
  laser.name = "green laser";
  laser.kind = readings::Kind::laser;
  readings::Instrument circle;
  circle.name = "circle";
  circle.kind = readings::Kind::angle;
  network.instruments.push_back(laser);
  network.instruments.push_back(circle);
  network.observations.push_back({2, 0, 1, 5.2, 5.2, 0.001});
  network.observations.push_back({0, 1, 2, 1.0, 1.0, 0.001, 6});
  return network;
}

Cause cause(What what, std::size_t index, double size = 0.0) {
  Cause result;
  result.what = what;
  result.index = index;
  result.size = size;
  return result;
}

Cause stake_off(std::size_t point, double outward_m, double sideways_m) {
  Cause result = cause(What::stake, point);
  result.outward_m = outward_m;
  result.sideways_m = sideways_m;
  return result;
}

Cause with_other(Cause result, std::size_t other, std::optional<std::size_t> held = {}) {
  result.other = other;
  result.held = held;
  return result;
}

std::string told(const std::vector<Cause>& causes, const wording::Voice& voice = english()) {
  return voice.text(explanation(site(), causes));
}

TEST(AnExplanation, SaysThatNothingIsWrong) {
  EXPECT_THAT(told({}), StartsWith("Nothing is wrong: "));
  EXPECT_THAT(told({}, spanish()), StartsWith("Nada está mal: "));
}

TEST(AnExplanation, NamesAMisreadReadingByItsKind) {
  EXPECT_EQ(told({cause(What::reading, 1, kInch_m)}),
            "The tape B–D is misread: it reads about 1\" too long.");
  EXPECT_EQ(told({cause(What::reading, 4, -base::kDegree_rad)}),
            "The angle A–O–B is misread: it reads about 1 degree too small.");
  EXPECT_EQ(told({cause(What::reading, 1, kInch_m)}, spanish()),
            "La medida B–D está mal leída: da cerca de 25 mm de más.");
  EXPECT_EQ(told({cause(What::reading, 4, base::kDegree_rad)}, spanish()),
            "El ángulo A–O–B está mal leído: da cerca de 1 grado de más.");
}

TEST(AnExplanation, SaysWhichOfSeveralReadingsItIs) {
  EXPECT_EQ(told({cause(What::reading, 3, -kInch_m)}),
            "The laser reading C–A (reading 2 of 2) is misread: it reads about 1\" too short.");
}

TEST(AnExplanation, RoundsToWhatIsKnown) {
  Cause one = cause(What::reading, 1, 0.0305);
  one.size_sd = 0.004;
  EXPECT_THAT(told({one}), HasSubstr("about 1-1/4\" too long"));
  one.size = 0.0312;
  one.size_sd = 0.003;
  EXPECT_THAT(told({one}, english(base::Units::millimeters)), HasSubstr("about 30 mm too long"));
}

TEST(AnExplanation, SaysWhichWayAStakeStands) {
  EXPECT_EQ(told({stake_off(3, kInch_m, -0.5 * kInch_m)}),
            "Stake D stands about 1\" outward and 1/2\" counterclockwise of its place.");
  EXPECT_EQ(told({stake_off(3, kInch_m, 0.1 * kInch_m)}),
            "Stake D stands about 1\" outward of its place.");
  EXPECT_EQ(told({stake_off(6, 0.0, 0.05)}, english(base::Units::millimeters)),
            "The center pin O stands about 50 mm right of its place.");
  EXPECT_EQ(told({stake_off(6, -0.05, 0.0)}, spanish()),
            "La estaca del centro O está corrida cerca de 50 mm atrás.");
  Cause one_way = stake_off(3, kInch_m, 0.0);
  one_way.one_way_only = true;
  EXPECT_EQ(told({one_way}),
            "Stake D stands about 1\" outward of its place, as far as its readings show.");
}

TEST(AnExplanation, NamesAnInstrumentThatIsOff) {
  EXPECT_EQ(told({cause(What::instrument_zero, 0, kInch_m)}),
            "Everything read with steel is about 1\" too long: its hook or its zero is off.");
  EXPECT_EQ(told({cause(What::instrument_scale, 0, -0.00512)}),
            "Everything read with steel is about 0.51 % too short: its scale is off.");
}

TEST(AnExplanation, NamesWhatWasChangedOver) {
  EXPECT_EQ(told({with_other(cause(What::labels, 2), 3)}),
            "The labels of stakes C and D are changed over.");
  EXPECT_EQ(told({with_other(cause(What::rows, 1), 2)}),
            "The readings B–D and D–F are changed over in the list.");
  EXPECT_EQ(told({with_other(cause(What::wrong_stake, 1), 4, 1)}),
            "The tape written down as B–D was pulled from B to E.");
  EXPECT_EQ(told({with_other(cause(What::wrong_stake, 4), 2, 0)}),
            "The angle A–O–B was turned with the sight on C instead of B.");
}

TEST(AnExplanation, TellsSeveralCausesInOneSentence) {
  const Cause tape = cause(What::reading, 1, kInch_m);
  const Cause stake = stake_off(4, 2.0 * kInch_m, 0.0);
  EXPECT_EQ(told({tape, stake}),
            "The tape B–D is misread: it reads about 1\" too long; and stake E stands about 2\" "
            "outward of its place.");
  EXPECT_EQ(told({stake, tape, with_other(cause(What::labels, 0), 1)}, spanish()),
            "La estaca E está corrida cerca de 51 mm afuera; y la medida B–D está mal leída: da "
            "cerca de 25 mm de más; y las letras de las estacas A y B están cambiadas.");
}

struct Look {
  SlipKind kind;
  std::size_t times;
  double size;
  const char* english;
  const char* spanish;
};

TEST(ASlip, IsNamedByItsKindAndItsSign) {
  for (const Look& look : {
           Look{SlipKind::foot, 1, kFoot_m, "a whole foot", "un pie entero"},
           Look{SlipKind::foot, 2, -2.0 * kFoot_m, "two whole feet", "dos pies enteros"},
           Look{SlipKind::inch, 1, kInch_m, "a whole inch", "una pulgada entera"},
           Look{SlipKind::decimeter, 1, 0.1, "a whole decimeter", "un decímetro entero"},
           Look{SlipKind::burned, 1, 0.1, "the mark held was not subtracted",
                "no se restó la marca sostenida"},
           Look{SlipKind::burned, 1, -0.1, "a mark was subtracted though zero was held",
                "se restó una marca aunque se sostuvo el cero"},
           Look{SlipKind::digits, 1, 0.1, "digits changed round", "cifras cambiadas de orden"},
           Look{SlipKind::tenths, 1, -0.1, "tenths of a foot taken for inches",
                "décimos de pie tomados por pulgadas"},
           Look{SlipKind::eighth, 1, 0.01, "a sixteenth taken for an eighth",
                "un dieciseisavo tomado por un octavo"},
       }) {
    Cause one = cause(What::reading, 1, look.size);
    one.slip = suspects::SlipLook{look.kind, look.times};
    EXPECT_EQ(english().text(slip(site(), one)), look.english);
    EXPECT_EQ(spanish().text(slip(site(), one)), look.spanish);
    EXPECT_THAT(told({one}), HasSubstr(std::string(" (") + look.english + ")."));
  }
}

TEST(ASlip, ToAWrongStakeNamesWhatMayHaveBeenPulled) {
  Cause one = cause(What::reading, 1, 0.1);
  one.slip = suspects::SlipLook{SlipKind::wrong_stake, 1, {{0, 3}, {0, 5}, {2, 5}}};
  EXPECT_EQ(english().text(slip(site(), one)),
            "the tape was pulled to a wrong stake: A–D, A–F or C–F");
  one.index = 4;
  one.slip->instead_of = {{0, 2, 6}};
  EXPECT_EQ(english().text(slip(site(), one)), "the circle was pointed at a wrong stake: A–O–C");
  one.slip->instead_of.clear();
  EXPECT_EQ(spanish().text(slip(site(), one)), "el círculo se apuntó a otra estaca");
}

check::Findings open_findings() {
  check::Findings findings = tests::hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.suspects.ranked = {{0.5, {cause(What::instrument_zero, 0, 0.005)}, {}},
                              {0.4, {}, {}},
                              {0.1, {stake_off(3, 0.03, 0.0), cause(What::reading, 1, 0.1)}, {}}};
  suspects::NextTape next;
  next.to = 3;
  next.another_tape = true;
  next.pulls_until_clear = 1.2;
  next.tells_from = 1;
  findings.tape_next = {next};
  return findings;
}

TEST(TheNextTapes, SayWhatEachTellsFromWhat) {
  const check::Findings findings = open_findings();
  const auto lines = lines_of(next_tapes_report({}, findings).sections);
  EXPECT_THAT(lines,
              Contains("A–D | with another tape | tells the zero of steel being off from nothing "
                       "wrong"));
  EXPECT_EQ(lines.back(), "About 2 such pulls until the answer is clear.");
  EXPECT_EQ(text_of(next_pull(findings)),
            "Pull A–D with another tape next: tells the zero of steel being off from nothing "
            "wrong.");
}

TEST(TheNextTapes, NameCausesThatGoTogether) {
  check::Findings findings = open_findings();
  findings.tape_next.front().tells_from = 2;
  EXPECT_THAT(english().text(why(findings, findings.tape_next.front())),
              testing::EndsWith("from stake D standing 1-3/16\" outward with a misread B–D"));
}

TEST(TheNextTapes, SayWhyThereAreNone) {
  check::Findings findings = open_findings();
  findings.tape_next.clear();
  const auto lines = [&] { return lines_of(next_tapes_report({}, findings).sections); };
  EXPECT_THAT(lines(), ElementsAre(StartsWith("No single pull stands out.")));
  findings.verdict = check::Verdict::in;
  EXPECT_THAT(lines(), ElementsAre("No further pull is needed to tell what is wrong."));
  findings.used.loose = {{2, {{0, 2}, {2, 4}}}};
  EXPECT_THAT(lines(), Contains("Corner C is not fixed; A–C and C–E would fix it."));
  findings.used.loose.clear();
  findings.suspects.of_another_job = true;
  findings.suspects.remark = base::Fact{"suspects.another_shape", {{"percent", base::Number{12}}}};
  EXPECT_THAT(lines(), ElementsAre(HasSubstr("off by 12 % of their length")));
}

TEST(TheNextPull, IsNothingWhenNoneIsWorthMaking) {
  EXPECT_THAT(next_pull(tests::hexagon_all_in()), IsEmpty());
}

}  // namespace
}  // namespace stakewright::told
