#include "stakewright/wording/phrases.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "refusal.hpp"

namespace stakewright::wording {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Phrases spanish(std::vector<std::string> names = {}) {
  return {{{"Stake {} is {} of its place.", "La estaca {} está {} de su sitio."},
           {"{} outward", "{} hacia fuera"},
           {"{} clockwise", "{} a la derecha"},
           {"{} and {}", "{} y {}"},
           {"side", "lado"},
           {"Pull {} from {}.", "Desde {1}, mida {0}."},
           {"Nothing moves.", "No se mueve nada."}},
          std::move(names)};
}

TEST(Phrases, SayAWholePhraseInTheOtherLanguage) {
  EXPECT_EQ(spanish().said("side"), "lado");
  EXPECT_EQ(spanish().said("Nothing moves."), "No se mueve nada.");
}

TEST(Phrases, LookUpWhatStandsInTheHoles) {
  auto book = spanish();
  EXPECT_EQ(book.said("Stake D is 1-5/16\" outward and 7/16\" clockwise of its place."),
            "La estaca D está 1-5/16\" hacia fuera y 7/16\" a la derecha de su sitio.");
  EXPECT_THAT(book.missing(), IsEmpty());
}

TEST(Phrases, MayChangeTheOrderOfTheHoles) {
  EXPECT_EQ(spanish().said("Pull 9'-2\" from C."), "Desde C, mida 9'-2\".");
}

TEST(Phrases, TakeSeveralSentencesOneByOne) {
  EXPECT_EQ(spanish().said("Pull 2.5 m from C. Nothing moves."),
            "Desde C, mida 2.5 m. No se mueve nada.");
}

TEST(Phrases, LeaveFiguresAndLabelsAlone) {
  auto book = spanish();
  for (const char* figure : {"16'-4 5/16\"", "3766 mm", "12.5 m", "97 %", "A–C", "AA", "26.57°",
                             "184.3°", "60-00-20", "1,234", "2.5 cu yd", "- 3"})
    EXPECT_EQ(book.said(figure), figure);
  EXPECT_THAT(book.missing(), IsEmpty());
}

TEST(Phrases, NeverTranslateANameOfTheJob) {
  auto book = spanish({"side", "and so on"});
  EXPECT_EQ(book.said("side"), "side");
  EXPECT_EQ(book.said("Stake and so on is 2 mm outward of its place."),
            "La estaca and so on está 2 mm hacia fuera de su sitio.");
}

TEST(Phrases, KeepWhatTheyLackInEnglishAndSayWhich) {
  auto book = spanish();
  EXPECT_EQ(book.said("Nothing moves. The sun shines."), "No se mueve nada. The sun shines.");
  EXPECT_THAT(book.missing(), ElementsAre("The sun shines."));
  // Half a sentence in each language helps nobody.
  EXPECT_EQ(book.said("Stake D is somewhere of its place."), "Stake D is somewhere of its place.");
}

TEST(Phrases, OfNoBookSayEverythingInEnglish) {
  Phrases english;
  EXPECT_EQ(english.said("The sun shines."), "The sun shines.");
  EXPECT_THAT(english.missing(), IsEmpty());
}

TEST(Phrases, RefuseHolesThatDoNotMatch) {
  const auto refused = [](const char* english, const char* other) {
    return refusal([&] { Phrases({{english, other}}, {}); });
  };
  EXPECT_THAT(refused("{} outward", "hacia fuera"), HasSubstr("phrase \"{} outward\""));
  EXPECT_THAT(refused("outward", "{} hacia fuera"), HasSubstr("the same 0 holes"));
  EXPECT_THAT(refused("{} of {}", "{0} de {0}"), HasSubstr("the same 2 holes"));
  EXPECT_THAT(refused("{} of {}", "{0} de {2}"), HasSubstr("the same 2 holes"));
}

TEST(Phrases, FindAClauseThatBeginsOrEndsASentence) {
  Phrases book({{"the pin was not measured", "el punto no se midió"},
                {"only rods were read", "únicamente se leyó la regla"},
                {"{} stands {}", "{} está {}"},
                {"stake {}", "la estaca {}"},
                {"the angle {}", "ángulo {}"}},
               {});
  EXPECT_EQ(book.said("The pin was not measured."), "El punto no se midió.");
  EXPECT_EQ(book.said("Only rods were read."), "Únicamente se leyó la regla.");  // accents and all
  EXPECT_EQ(book.said("Stake D stands 3 mm."), "La estaca D está 3 mm.");
  EXPECT_EQ(book.said("The angle A–O–C"), "Ángulo A–O–C");
  EXPECT_THAT(book.missing(), IsEmpty());
}

TEST(Phrases, TakeInForAVerdictAndADirectionAndNotForInches) {
  Phrases book({{"in", "bien"}, {"{} in", "{} adentro"}}, {});
  EXPECT_EQ(book.said("in"), "bien");
  EXPECT_EQ(book.said("4\" in"), "4\" adentro");
}

TEST(Phrases, KeepANameWithFullStopsWhole) {
  Phrases book({{"Pin {} stands.", "El punto {} está firme."}},
               {"Road. The end", "Nothing. Moves"});
  EXPECT_EQ(book.said("Pin Road. The end stands."), "El punto Road. The end está firme.");
  EXPECT_EQ(book.said("Nothing. Moves"), "Nothing. Moves");
  EXPECT_THAT(book.missing(), IsEmpty());
}

TEST(Phrases, FindARemarkInBracketsAfterASentence) {
  Phrases book({{"Stake {} is off.", "La estaca {} está mal."}, {"{} (see {})", "{} (vea {})"}},
               {});
  EXPECT_EQ(book.said("Stake D is off. (see 2)"), "La estaca D está mal. (vea 2)");
  EXPECT_THAT(book.missing(), IsEmpty());
}

TEST(Phrases, GiveUpOnTextsThatWouldBeLookedUpForEver) {
  Phrases book({{"{} and {}", "{} y {}"}, {"{}, {}", "{}, {}"}}, {});
  std::string text = "q";
  for (int i = 0; i < 400; ++i) text += i % 2 == 0 ? " and qq" : ", qq";
  EXPECT_EQ(book.said(text), text);
}

}  // namespace
}  // namespace stakewright::wording
