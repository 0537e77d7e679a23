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

namespace stakewright::job {
namespace {

struct Story {
  std::string name;
  std::set<std::string> done;  ///< what is wrong in the data, as the suspects should say it
};

check::Findings told(const std::string& name) {
  const std::string folder = STAKEWRIGHT_STORIES;
  const Job job = read_job(folder + "/" + name + ".toml");
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.units = job.units;
  input.instruments = job.instruments;
  input.readings = read_readings(folder + "/" + name + ".csv", job);
  return check::check(input);
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

}  // namespace
}  // namespace stakewright::job
