#include "stakewright/forms/job_record.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <set>

#include "refusal.hpp"
#include "sample_jobs.hpp"

namespace stakewright::forms {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

job::Job known_job() {
  job::Job job = crowded(6, base::Units::feet_inches, 0.2).job;
  job.stated_size = "corner_radius 3.3m";
  return job;
}

JobRecord record_of(const job::Job& job) {
  return job_record(job, base::Units::feet_inches, "en", {"date", "reading.A-C.1"});
}

std::vector<std::string> changes_told(const JobRecord& record, const job::Job& job) {
  std::vector<std::string> told;
  for (const base::Fact& change : changes_since(record, job))
    told.push_back(told_in_english(change));
  return told;
}

TEST(JobRecord, ComesBackFromItsText) {
  const JobRecord record = record_of(known_job());
  const JobRecord again = job_record_from_text(text_of(record));
  EXPECT_EQ(again.fingerprint, fingerprint(known_job().plan));
  EXPECT_EQ(again.title, "Orchard shelter");
  EXPECT_EQ(again.units, base::Units::feet_inches);
  EXPECT_EQ(again.language, "en");
  EXPECT_THAT(again.blanks, ElementsAre("date", "reading.A-C.1"));
  EXPECT_EQ(text_of(again), text_of(record));
}

TEST(JobRecord, ComesBackWithLineEndsOfAnotherProgram) {
  std::string text = text_of(record_of(known_job()));
  std::string other;
  for (const char c : text) other += c == '\n' ? std::string("\r\n") : std::string(1, c);
  EXPECT_EQ(text_of(job_record_from_text(other)), text);
}

TEST(JobRecord, SeesNoChangeInTheSameJob) {
  EXPECT_THAT(changes_since(record_of(known_job()), known_job()), IsEmpty());
}

TEST(JobRecord, NamesWhateverMovesOrRenamesAStake) {
  struct Change {
    std::function<void(job::Job&)> make;
    std::string told;
  };
  const std::vector<Change> changes{
      {[](auto& j) { j.plan.polygon.sides = 7; }, "sides was 6, now 7"},
      {[](auto& j) {
         j.plan.polygon.corner_radius_m = 3.4;
         j.stated_size = "corner_radius 3.4m";
       },
       "size was corner_radius 3.3m, now corner_radius 3.4m"},
      // Two lengths that read the same in sixteenths.
      {[](auto& j) { j.plan.polygon.corner_radius_m += 0.0001; }, "size has been changed"},
      {[](auto& j) {
         j.plan.center = {0.3048, -0.6096};
       },
       "center was 0\" right, 0\" forward, now 1' 0\" right, -2' 0\" forward"},
      {[](auto& j) { j.plan.facing_rad = 0.0; }, "facing was 11.46 degrees, now 0 degrees"},
      {[](auto& j) { j.plan.batter_setback_m = 0.3048; }, "batter_setback was 0\", now 1' 0\""},
      {[](auto& j) { j.plan.hold = {"C"}; }, "hold was A and B, now C"},
      {[](auto& j) { j.plan.hold = {}; }, "hold was A and B, now none"},
      {[](auto& j) {
         j.plan.pins[0].at = {0.0, 0.0};
       },
       "now 0\" right, 0\" forward"},
      {[](auto& j) { j.plan.pins[1].name = "peg"; }, "pin P2"},
      {[](auto& j) { j.plan.pins.pop_back(); }, "is gone"},
      {[](auto& j) { std::swap(j.plan.pins[0], j.plan.pins[1]); },
       "order of pins was P1 and P2, now P2 and P1"},
      {[](auto& j) { j.plan.lines[2].offset_m = 0.6096; }, "line dig was 1' 11-5/8\", now 2' 0\""},
      {[](auto& j) {
         j.plan.lines.push_back({"eave", 0.5});
       },
       "line eave (1' 7-11/16\") is new"},
      {[](auto& j) { j.plan.keep_clear[0].keep_inside = false; },
       "outline boundary was keep inside, 4 corners, now keep outside, 4 corners"},
      {[](auto& j) { j.plan.keep_clear[0].outline[2].y_m += 1.0; },
       "outline boundary has been changed"},
      {[](auto& j) { j.plan.keep_clear.push_back(j.plan.keep_clear[0]); }, "outline boundary (2)"},
  };
  const JobRecord record = record_of(known_job());
  for (const Change& change : changes) {
    job::Job job = known_job();
    change.make(job);
    ASSERT_NE(fingerprint(job.plan), record.fingerprint) << change.told;
    EXPECT_THAT(changes_told(record, job), testing::Contains(HasSubstr(change.told)));
  }
}

TEST(JobRecord, DoesNotBuryTheChangeInNames) {
  job::Job job = known_job();
  job.plan.pins[1].name = "peg";
  for (const std::string& words : changes_told(record_of(known_job()), job))
    EXPECT_THAT(words, testing::Not(HasSubstr("order of")));
}

TEST(JobRecord, OfAnothersMakingIsRefused) {
  const auto refused = [](const std::string& text) {
    return refusal([&] { job_record_from_text(text); });
  };
  const std::string good = text_of(record_of(known_job()));
  EXPECT_THAT(refused(""), HasSubstr("cannot be read"));
  EXPECT_THAT(refused("hello"), HasSubstr("cannot be read"));
  EXPECT_THAT(refused("stakewright form\t1\n"), HasSubstr("cannot be read"));
  EXPECT_THAT(refused("stakewright form\t2\n"),
              AllOf(HasSubstr("\"2\""), HasSubstr("accepted: 1")));
  EXPECT_THAT(refused(good + "fact\tsize\n"), HasSubstr("cannot be read"));
  EXPECT_THAT(refused(good + "blank\ta\x1b[31m\n"), HasSubstr("cannot be read"));
  EXPECT_THAT(refused(good + "units\tcubits\n"), HasSubstr("cubits"));
}

layout::Plan plan() {
  layout::Plan plan;
  plan.polygon = {6, 2.8};
  plan.hold = {"A", "B"};
  plan.pins = {{"P1", {-4.0, -3.0}}};
  plan.lines = {{"plate", 0.07}};
  plan.keep_clear = {{"boundary", true, {{-6, -6}, {6, -6}, {6, 6}, {-6, 6}}}};
  return plan;
}

TEST(Fingerprint, IsShortEnoughToReadOverThePhone) {
  EXPECT_THAT(fingerprint(plan()), testing::MatchesRegex("[0-9A-F]{4}-[0-9A-F]{4}"));
}

TEST(Fingerprint, ChangesWithWhateverMovesOrRenamesAStake) {
  const std::vector<std::function<void(layout::Plan&)>> changes{
      [](auto& p) { p.polygon.sides = 7; },
      [](auto& p) { p.polygon.corner_radius_m += 0.0001; },
      [](auto& p) { p.center.x_m += 0.001; },
      [](auto& p) { p.center.y_m += 0.001; },
      [](auto& p) { p.facing_rad += 0.001; },
      [](auto& p) { p.batter_setback_m = 1.2; },
      [](auto& p) {
        p.hold = {"A", "C"};
      },
      [](auto& p) { p.hold = {"AB"}; },
      [](auto& p) { p.pins[0].at.x_m += 0.001; },
      [](auto& p) { p.pins[0].name = "P2"; },
      [](auto& p) { p.lines[0].offset_m = 0.08; },
      [](auto& p) { p.lines[0].name = "eave"; },
      [](auto& p) { p.keep_clear[0].keep_inside = false; },
      [](auto& p) { p.keep_clear[0].outline[2].y_m = 7.0; },
      [](auto& p) { p.keep_clear[0].name = "tree"; }};
  std::set<std::string> seen{fingerprint(plan())};
  for (std::size_t i = 0; i < changes.size(); ++i) {
    layout::Plan changed = plan();
    changes[i](changed);
    EXPECT_TRUE(seen.insert(fingerprint(changed)).second) << "change " << i;
  }
}

TEST(Fingerprint, StaysWhenALengthComesByAnotherUnit) {
  layout::Plan changed = plan();
  changed.polygon.corner_radius_m = 2.8 / 0.0254 * 0.0254 + 1e-12;
  EXPECT_EQ(fingerprint(changed), fingerprint(plan()));
}

}  // namespace
}  // namespace stakewright::forms
