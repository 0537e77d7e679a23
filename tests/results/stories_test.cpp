// The stories of docs/stories: what was done to the data stands beside each.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/results/check_input.hpp"

namespace stakewright::results {
namespace {

struct Story {
  std::string name;
  std::set<std::string> done;  ///< what is wrong in the data, as the suspects should say it
};

check::Findings told(const std::string& name) {
  const std::string folder = STAKEWRIGHT_STORIES;
  const job::Job job = job::read_job(folder + "/" + name + ".toml");
  return check::check(check_input(job, job::read_readings(folder + "/" + name + ".csv", job)));
}

std::string pair_of(const check::Findings& findings, std::size_t reading) {
  const auto& seen = findings.network.observations[reading];
  return findings.network.points[seen.from].label + "-" + findings.network.points[seen.to].label;
}

std::set<std::string> causes_of(const check::Findings& findings) {
  std::set<std::string> causes;
  for (const suspects::Cause& cause : findings.suspects.ranked.front().causes) {
    if (cause.what == suspects::Cause::What::reading)
      causes.insert("reading " + pair_of(findings, cause.index));
    else if (cause.what == suspects::Cause::What::stake)
      causes.insert("stake " + findings.network.points[cause.index].label);
    else if (cause.what == suspects::Cause::What::instrument_zero)
      causes.insert("zero " + findings.network.instruments[cause.index].name);
    else
      causes.insert("another kind");
  }
  return causes;
}

std::string largest_residual(const check::Findings& findings) {
  const auto& readings = findings.all.readings_out;
  const auto largest =
      std::max_element(readings.begin(), readings.end(), [](const auto& a, const auto& b) {
        return std::abs(a.standardized) < std::abs(b.standardized);
      });
  EXPECT_GT(std::abs(largest->standardized), 3.29);  // the rule would speak: alpha 0.001
  return "reading " + pair_of(findings, static_cast<std::size_t>(largest - readings.begin()));
}

TEST(Stories, LargestResidualBlamesAGoodReadingAndTheSuspectsDoNot) {
  const Story stories[] = {
      {"two-tapes", {"reading A-C", "reading B-E"}},
      {"stake-and-tapes", {"stake D", "reading C-E", "reading E-F"}},
      {"worn-hook", {"zero steel"}},
  };
  for (const Story& story : stories) {
    const check::Findings findings = told(story.name);
    EXPECT_EQ(story.done.count(largest_residual(findings)), 0U) << story.name;
    EXPECT_EQ(causes_of(findings), story.done) << story.name;
    EXPECT_GT(findings.suspects.ranked.front().chance, 0.9) << story.name;
  }
}

CarryResult carried(const std::string& name) {
  return carry_of(job::read_job(std::string(STAKEWRIGHT_STORIES) + "/" + name + ".toml"),
                  told(name), {});
}

TEST(PourOrMove, IsDecidedByWhatTheCornersDoToTheRoof) {
  // Nothing was done to the first: its stakes stand within a millimeter, and all is cut alike.
  const CarryResult pour = carried("pour-as-it-is");
  ASSERT_EQ(pour.cases.size(), 1U);
  EXPECT_TRUE(roof::all_to_pattern(pour.cases[0].outcome));
  // D of the second stands 16 mm outward.  Its hip answers with the cosine of its slope, 26.57
  // degrees at a pitch of 30 on six sides: 14.3 mm, and the readings are good to a millimeter or
  // two.
  const CarryResult move = carried("move-first");
  ASSERT_EQ(move.cases.size(), 2U);
  EXPECT_EQ(move.cases[move.enough].way, roof::Way::after_moves);
  EXPECT_TRUE(roof::all_to_pattern(move.cases[1].outcome));
  const auto& hips = move.cases[0].carry.parts;
  const auto hip = std::find_if(hips.begin(), hips.end(), [](const roof::Part& part) {
    return part.kind == roof::PartKind::hip && roof::text_from_place(part.at) == "D";
  });
  EXPECT_NEAR(*hip->line.difference, 0.0143, 0.0025);
  EXPECT_EQ(hip->fit, roof::Fit::own);
}

}  // namespace
}  // namespace stakewright::results
