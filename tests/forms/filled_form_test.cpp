// What is typed into the blanks of a form, as readings.
#include "stakewright/forms/form_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include "refusal.hpp"
#include "sample_jobs.hpp"
#include "stakewright/fields/fillable.hpp"

namespace stakewright::forms {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using testing::StartsWith;

/// Blanks and what is typed there.
using Typed = std::map<std::string, std::string>;

job::Job job_with_instruments(job::Job job) {
  job.instruments = readings::built_in_instruments();
  return job;
}

/// A job and its form, which is drawn once.
struct Form {
  job::Job job;
  std::string pdf;
};

Form form_of(const Sample& sample) {
  return {job_with_instruments(sample.job),
          form_file(sample.pages(), sample.job, "en", voice_in(sample.units))};
}

const Form& hexagon() {
  static const Form form = form_of(crowded(6, base::Units::feet_inches, 0.2));
  return form;
}

const Form& metric() {
  static const Form form = form_of(plain(5, base::Units::millimeters));
  return form;
}

std::string filled(const std::string& pdf, const Typed& typed) {
  QPDF document;
  document.processMemoryFile("form", pdf.data(), pdf.size());
  for (QPDFObjectHandle field :
       document.getRoot().getKey("/AcroForm").getKey("/Fields").getArrayAsVector()) {
    const auto text = typed.find(fields::blank_name(field.getKey("/T").getUTF8Value()));
    if (text != typed.end())
      field.replaceKey("/V", QPDFObjectHandle::newUnicodeString(text->second));
  }
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.write();
  const auto bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

FormReadings read(const Form& form, const Typed& typed) {
  return readings_on(filled(form.pdf, typed), "filled.pdf", form.job);
}

std::string refused(const Form& form, const Typed& typed) {
  return refusal([&] { read(form, typed); });
}

TEST(FilledForm, LeavesEmptyBlanksOutAndSaysSoWhenThereIsNothingElse) {
  const FormReadings form = read(hexagon(), {{"date", "Monday"}, {"note.A-B", "skipped"}});
  EXPECT_THAT(form.rows, IsEmpty());
  ASSERT_THAT(form.remarks, SizeIs(1));
  EXPECT_EQ(told_in_english(form.remarks[0]), "filled.pdf: no reading is filled in");
}

TEST(FilledForm, ReadsLengthsAsAReadingsFileDoes) {
  for (const char* text : {"9' 2-7/8\"", "9-2-7/8", "9'-2 7/8\"", "110-7/8in", " 9-2-7/8 "}) {
    const FormReadings form = read(hexagon(), {{"reading.A-B.1", text}});
    ASSERT_THAT(form.readings, SizeIs(1)) << text;
    EXPECT_NEAR(form.readings[0].value_m, 110.875 * 0.0254, 1e-12) << text;
    EXPECT_EQ(form.readings[0].from, "A");
    EXPECT_EQ(form.readings[0].to, "B");
    EXPECT_EQ(form.readings[0].instrument, "steel");
  }
}

TEST(FilledForm, ReadsFeetAndInchesTypedEachInTheirPlace) {
  for (const char* text : {"9 2-7/8", "9 2 7/8", "9\u00a02-7/8", "9   2-7/8", "9\r\n2-7/8"}) {
    const FormReadings form = read(hexagon(), {{"reading.A-B.1", text}});
    ASSERT_THAT(form.readings, SizeIs(1)) << text;
    EXPECT_NEAR(form.readings[0].value_m, 110.875 * 0.0254, 1e-12) << text;
  }
  // Nine feet and a quarter, or nine and a quarter inches?
  EXPECT_THAT(refused(hexagon(), {{"reading.A-B.1", "9 1/4"}}),
              AllOf(StartsWith("filled.pdf, field reading.A-B.1: read \"9 1/4\"; accepted:")));
}

TEST(FilledForm, TakesBothReadingsOfARow) {
  const FormReadings form =
      read(hexagon(), {{"reading.A-B.2", "9-3"}, {"reading.A-B.1", "9-2-7/8"}});
  ASSERT_THAT(form.readings, SizeIs(2));
  EXPECT_NEAR(form.readings[0].value_m, 110.875 * 0.0254, 1e-12);
  EXPECT_NEAR(form.readings[1].value_m, 111.0 * 0.0254, 1e-12);
}

TEST(FilledForm, TakesTapeMarkAndNoteWithEachReading) {
  const FormReadings form = read(hexagon(), {{"reading.A-B.1", "10-2-7/8"},
                                             {"instrument.A-B", "fibreglass"},
                                             {"burned.A-B", "1ft"},
                                             {"note.A-B", "over the\nhedge"}});
  ASSERT_THAT(form.readings, SizeIs(1));
  EXPECT_EQ(form.readings[0].instrument, "fibreglass");
  EXPECT_NEAR(form.readings[0].burned_m.value_or(0.0), 0.3048, 1e-12);
  EXPECT_EQ(form.readings[0].note, "over the hedge");
}

TEST(FilledForm, TakesANumberForATapeNamedAtItsHead) {
  const Typed head{{"tape.1", "steel"}, {"tape.2", "laser"}, {"reading.A-B.1", "9-3"}};
  Typed second = head;
  second["instrument.A-B"] = "2";
  EXPECT_EQ(read(hexagon(), second).readings[0].instrument, "laser");
  EXPECT_EQ(read(hexagon(), second).readings[0].kind, readings::Kind::laser);
  const FormReadings unnamed = read(hexagon(), head);
  EXPECT_EQ(unnamed.readings[0].instrument, "steel");
  ASSERT_THAT(unnamed.remarks, SizeIs(1));
  EXPECT_THAT(told_in_english(unnamed.remarks[0]), HasSubstr("1 of the readings names no tape"));
  EXPECT_THAT(refused(hexagon(), {{"reading.A-B.1", "9-3"}, {"instrument.A-B", "2"}}),
              HasSubstr("field instrument.A-B: read \"2\", and field tape.2 is empty"));
}

TEST(FilledForm, TakesWhateverElseWasTapedFromItsSpareRows) {
  const FormReadings form =
      read(hexagon(), {{"hold.s1", "P1"}, {"to.s1", "C"}, {"reading.s1.1", "21-3"}});
  ASSERT_THAT(form.readings, SizeIs(1));
  EXPECT_EQ(form.readings[0].from, "P1");
  EXPECT_EQ(form.readings[0].to, "C");
  EXPECT_THAT(refused(hexagon(), {{"hold.s1", "P9"}, {"to.s1", "C"}, {"reading.s1.1", "21-3"}}),
              StartsWith("filled.pdf, field hold.s1: read \"P9\"; accepted: A, B"));
}

/// A page with the blanks that the sheets for laser and level have.
Form with_laser_and_level() {
  drawing::Page page;
  double y = 100.0;
  for (const char* name :
       {"round", "laser-name", "laser.O-A.1", "laser.O-A.2", "laser-hold.s1", "laser-to.s1",
        "laser.s1.1", "level-name", "level.1.A", "level.2.T1", "level-point.s1", "level.1.s1"})
    page.blanks.push_back({name, {50.0, y += 25.0, 100.0, 23.0}, drawing::BlankKind::text});
  const job::Job job = job_with_instruments(crowded(6, base::Units::meters, 0.0).job);
  return {job, form_file({page}, job, "en", voice_in(job.units))};
}

TEST(FilledForm, ReadsLaserDistancesAndRodReadings) {
  const FormReadings form = read(with_laser_and_level(), {{"round", "2"},
                                                          {"laser.O-A.1", "3.301"},
                                                          {"laser-hold.s1", "P1"},
                                                          {"laser-to.s1", "B"},
                                                          {"laser.s1.1", "7.02"},
                                                          {"level.1.A", "1.203"},
                                                          {"level.2.T1", "0.871"},
                                                          {"level-point.s1", "P2"},
                                                          {"level.1.s1", "1.4"}});
  std::vector<std::string> told;
  for (const readings::Reading& reading : form.readings)
    told.push_back(fmt::format("{} {} {} {:.3f} round {}", readings::word_of(reading.kind),
                               reading.from, reading.to, reading.value_m, reading.round));
  EXPECT_THAT(told, ElementsAre("laser O A 3.301 round 2", "laser P1 B 7.020 round 2",
                                "level L1 A 1.203 round 2", "level L2 T1 0.871 round 2",
                                "level L1 P2 1.400 round 2"));
  EXPECT_THAT(refused(with_laser_and_level(), {{"level.1.A", "high"}}),
              StartsWith("filled.pdf, field level.1.A: read \"high\""));
  EXPECT_THAT(refused(with_laser_and_level(), {{"laser-name", "steel"}, {"laser.O-A.1", "3.3"}}),
              AllOf(StartsWith("filled.pdf, field laser-name"), HasSubstr("accepted: a laser")));
}

TEST(FilledForm, InOtherUnitsThanTheJobsMeansWhatItsBlanksSay) {
  Sample sample = plain(6, base::Units::feet_inches);
  sample.units = base::Units::millimeters;
  const Form form = form_of(sample);
  const FormReadings result = read(form, {{"reading.A-B.1", "2816"}, {"burned.A-B", "100"}});
  ASSERT_THAT(result.readings, SizeIs(1));
  EXPECT_NEAR(result.readings[0].value_m, 2.816, 1e-12);
  const auto again = job::readings_from_rows(result.rows, "again", form.job);
  EXPECT_NEAR(again[0].value_m, 2.816, 1e-12);
  EXPECT_NEAR(again[0].burned_m.value_or(0.0), 0.1, 1e-12);
}

TEST(FilledForm, NamesTheFieldThatHoldsNoReading) {
  EXPECT_THAT(refused(metric(), {{"reading.A-C.1", "abc"}}),
              StartsWith("filled.pdf, field reading.A-C.1: read \"abc\"; accepted: a length"));
  EXPECT_THAT(refused(metric(), {{"reading.A-C.1", "0"}}), HasSubstr("a length above 0"));
  EXPECT_THAT(refused(metric(), {{"reading.A-C.1", "3\x01"}}),
              AllOf(HasSubstr("field reading.A-C.1"), HasSubstr("\\x01")));
  EXPECT_THAT(refused(metric(), {{"reading.A-C.1", "3766"}, {"burned.A-C", "4000"}}),
              StartsWith("filled.pdf, field burned.A-C: read \"4000\""));
  EXPECT_THAT(refused(metric(), {{"reading.A-C.1", "3766"}, {"note.A-C", std::string(300, 'x')}}),
              AllOf(StartsWith("filled.pdf, field note.A-C"), HasSubstr("200 characters")));
}

TEST(FilledForm, OfAnotherJobIsRefusedWithWhatIsOtherwise) {
  job::Job other = metric().job;
  other.title = "Barn";
  other.plan.polygon.sides = 6;
  EXPECT_THAT(refusal([&] { readings_on(metric().pdf, "filled.pdf", other); }),
              AllOf(StartsWith("filled.pdf: the form was made for another job"),
                    HasSubstr("title was \"Orchard shelter\", now \"Barn\""),
                    HasSubstr("sides was 5, now 6")));
}

TEST(FilledForm, StaysGoodWhenTitleOrTolerancesChange) {
  job::Job job = metric().job;
  job.title = "Another title";
  job.tolerance.corner_m = 0.01;
  EXPECT_THAT(
      readings_on(filled(metric().pdf, {{"reading.A-C.1", "3766"}}), "filled.pdf", job).readings,
      SizeIs(1));
}

TEST(FilledForm, KnowsPinsWhoseNamesHaveDashesAndPoints) {
  Sample sample = crowded(4, base::Units::meters, 0.0);
  sample.job.plan.pins[0].name = "St. 1-2";
  sample = worked_out(sample.job, "pins with odd names");
  const std::vector<layout::Tape> tapes{{"St. 1-2", "A", 0, 4.0}, {"A", "St. 1-2", 0, 4.0}};
  const Voice voice = voice_in(sample.units);
  const auto pages = field_form(sample.job, sample.layout, tapes, voice, sample.choices);
  const Form form{job_with_instruments(sample.job), form_file(pages, sample.job, "en", voice)};
  Typed typed;
  for (const drawing::Page& page : pages)
    for (const drawing::Blank& blank : page.blanks)
      if (blank.name.starts_with("reading.") && !blank.name.starts_with("reading.s"))
        typed[blank.name] = "4.012";
  ASSERT_THAT(typed, SizeIs(4));
  const FormReadings result = read(form, typed);
  ASSERT_THAT(result.readings, SizeIs(4));
  for (const readings::Reading& reading : result.readings)
    EXPECT_TRUE(reading.from == "St. 1-2" || reading.to == "St. 1-2");
}

TEST(FilledForm, ReadsBackEveryReadingBlankThereIs) {
  for (const Sample& sample : {crowded(9, base::Units::millimeters, 1.0), plain(24)}) {
    Typed typed;
    for (const drawing::Page& page : sample.pages())
      for (const drawing::Blank& blank : page.blanks)
        if (blank.name.starts_with("reading.") && !blank.name.starts_with("reading.s"))
          typed[blank.name] = "2.5m";
    const FormReadings result = read(form_of(sample), typed);
    EXPECT_THAT(result.readings, SizeIs(2 * sample.tapes().size())) << sample.words;
  }
}

TEST(Hints, AreInTheLanguageOfTheForm) {
  const Voice voice = voice_in(base::Units::millimeters, "es");
  EXPECT_EQ(hint_for("reading.A-C.2", voice), "A-C: lectura 2");
  EXPECT_EQ(hint_for("something.else", voice), "something.else");
}

TEST(Hints, AreThereForEveryBlank) {
  for (const drawing::Page& page : crowded(6, base::Units::feet_inches, 0.2).pages())
    for (const drawing::Blank& blank : page.blanks)
      EXPECT_NE(hint_for(blank.name, voice_in(base::Units::millimeters)), blank.name);
}

}  // namespace
}  // namespace stakewright::forms
