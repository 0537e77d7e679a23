// Facts told in both languages and all units.
#include "stakewright/wording/voice.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "stakewright/base/angle.hpp"

namespace stakewright::wording {
namespace {

using namespace base;

Voice english(Units units = Units::feet_inches) { return {built_in("en"), units}; }
Voice spanish() { return {built_in("es"), Units::millimeters}; }

constexpr double kInch_m = 0.0254;

TEST(AVoice, TellsALengthInItsOwnUnitAndRoundsItOnce) {
  EXPECT_EQ(english().text(Length{kInch_m * 7 / 8}), "7/8\"");
  EXPECT_EQ(english(Units::millimeters).text(Length{kInch_m}), "25 mm");
  EXPECT_EQ(english(Units::millimeters).text(Length{kInch_m, Step::fine}), "25.4 mm");
}

TEST(AVoice, SaysADirectionInPlaceOfASign) {
  EXPECT_EQ(english().text(Directed{Way::outward, Length{kInch_m}}), "1\" outward");
  EXPECT_EQ(english().text(Directed{Way::outward, Length{-kInch_m}}), "1\" inward");
  EXPECT_EQ(spanish().text(Directed{Way::sideways, Length{-0.025}}), "25 mm contra el reloj");
}

TEST(AVoice, SaysNoDirectionOfWhatRoundsToNothing) {
  EXPECT_EQ(english().text(Directed{Way::outward, Length{-0.0001}}), "0\"");
  EXPECT_EQ(english().text(Offset{0.0001, -kInch_m}), "1\" counterclockwise");
  EXPECT_EQ(english().text(Offset{}), "in place");
  EXPECT_EQ(english().text(Offset{kInch_m, kInch_m}), "1\" outward and 1\" clockwise");
}

TEST(AVoice, HasAWordForNothingWhereTheFieldHasOne) {
  EXPECT_EQ(english().text(Directed{Way::pack, Length{-kInch_m}}), "cut 1\"");
  EXPECT_EQ(english().text(Directed{Way::pack, Length{0.0001}}), "none");
  EXPECT_EQ(english().text(Directed{Way::added, Length{-0.003175, Step::fine}}), "1/8\" taken off");
  EXPECT_EQ(english().text(Directed{Way::added, Length{}}), "next to nothing");
  EXPECT_EQ(spanish().text(Directed{Way::on_tape, Length{0.0}}), "tal cual");
}

TEST(AVoice, TellsANumberAsAsked) {
  EXPECT_EQ(english().text(Number{2.0, 2}), "2.00");
  EXPECT_EQ(english().text(Number{0.001, -1}), "0.001");
  EXPECT_EQ(english().text(Number{-2.0, -1}), "-2");
}

TEST(AVoice, NeverClaimsCertainty) {
  EXPECT_EQ(english().text(Chance{0.97}), "97 %");
  EXPECT_EQ(english().text(Chance{0.9999}), "over 99 %");
  EXPECT_EQ(spanish().text(Chance{0.0001}), "menos de 1 %");
}

TEST(AVoice, ChoosesBetweenOneAndSeveral) {
  const Length walk{0.3048 * 40, Step::whole};
  EXPECT_EQ(english().text(Fact{"tapes.enough", {{"count", Count{1}}, {"walk", walk}}}),
            "1 pull is enough; the tape's two ends are carried 40' 0\" in all.");
  EXPECT_EQ(english().text(Fact{"tapes.enough", {{"count", Count{13}}, {"walk", walk}}}),
            "13 pulls are enough; the tape's two ends are carried 40' 0\" in all.");
}

TEST(AVoice, PutsNamesInARow) {
  EXPECT_EQ(english().text(names({"A"})), "A");
  EXPECT_EQ(english().text(names({"A", "B", "C"})), "A, B and C");
  EXPECT_EQ(english().text(names({"A", "B", "C"}, List::Joint::any)), "A, B or C");
  EXPECT_EQ(english().text(names({"A", "B", "C"}, List::Joint::listed)), "A, B, C");
  EXPECT_EQ(english().text(names({"A", "B", "C"}, List::Joint::either)), "A, or B, or C");
  EXPECT_EQ(spanish().text(names({"A", "B"})), "A y B");
}

TEST(AVoice, LooksNoNameUpAndFillsNoHoleOfOne) {
  EXPECT_EQ(english().text(Name{"tapes.corner"}), "tapes.corner");
  EXPECT_EQ(english().text(Fact{"errors.plain", {{"text", Name{"{text} {line}"}}}}),
            "{text} {line}");
}

TEST(AVoice, NamesAReadingOneWayAndSaysWhichOfSeveral) {
  EXPECT_EQ(english().text(ReadingName{{"B", "E"}}), "B–E");
  EXPECT_EQ(english().text(ReadingName{{"A", "O", "C"}, 1, 2}), "A–O–C (reading 2 of 2)");
}

TEST(AVoice, TellsARoughSizeAsRoughlyAsItIsKnown) {
  EXPECT_EQ(english().text(RoughLength{-0.0305, 0.004}), "1-1/4\"");
  EXPECT_EQ(english(Units::millimeters).text(RoughLength{0.0312, 0.003}), "30 mm");
  EXPECT_EQ(english().text(RoughLength{0.001, 1.0}), "1/16\"");  // never nothing
}

TEST(AVoice, NamesThePartsOfAnAngleThatAreThere) {
  const auto words = [](double angle_rad) {
    return english().text(Angle{angle_rad, AngleStyle::words});
  };
  EXPECT_EQ(words(kDegree_rad), "1 degree");
  EXPECT_EQ(words(-2.5 * kDegree_rad), "2 degrees 30 minutes");
  EXPECT_EQ(words((1.0 + 1.0 / 60.0 + 1.0 / 3600.0) * kDegree_rad), "1 degree 1 minute 1 second");
  EXPECT_EQ(words(59.9999 / 3600.0 * kDegree_rad), "1 minute");
  EXPECT_EQ(words(0.0), "0 seconds");
  EXPECT_EQ(words(std::numeric_limits<double>::infinity()), "-");
}

TEST(AVoice, OpensASentenceWithACapitalWhereTheMessageSaysSo) {
  const Fact clause{"causes.labels", {{"first", Name{"a"}}, {"second", Name{"b"}}}};
  EXPECT_EQ(english().text(Fact{"causes.alone", {{"first", clause}}}),
            "The labels of stakes a and b are changed over.");
}

TEST(AVoice, PutsThePlacesOfAnErrorInFrontOutermostFirst) {
  const InputError error = InputError("read \"x\"; accepted: a length")
                               .at("plan.side")
                               .at(Fact{"figures.degrees", {{"count", Count{7}}}})
                               .at("job.toml");
  EXPECT_EQ(english().text(error),
            "job.toml: 7 degrees: plan.side: read \"x\"; accepted: a length");
  EXPECT_EQ(spanish().text(error).substr(0, 18), "job.toml: 7 grados");
}

}  // namespace
}  // namespace stakewright::wording
