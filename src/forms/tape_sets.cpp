#include <fmt/format.h>

#include <map>
#include <utility>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::forms {
namespace {

std::vector<layout::Tape> tapes_of(const layout::Plan& plan,
                                   const std::vector<suspects::PlannedPull>& pulls) {
  std::map<std::pair<std::string, std::string>, int> skips;
  for (const layout::Tape& tape : layout::check_tapes(plan)) {
    skips[{tape.from, tape.to}] = tape.skip;
    skips[{tape.to, tape.from}] = tape.skip;
  }
  std::vector<layout::Tape> tapes;
  for (const suspects::PlannedPull& pull : pulls)
    tapes.push_back({pull.from, pull.to, skips.at({pull.from, pull.to}), pull.length_m});
  return tapes;
}

}  // namespace

TapeSet usual_tapes(const layout::Plan& plan) {
  return plan.polygon.sides <= kMostSidesTapedInFull ? TapeSet::plan : TapeSet::all;
}

TapeSet tape_set_from_text(std::string_view text) {
  if (text == "plan") return TapeSet::plan;
  if (text == "all") return TapeSet::all;
  throw base::InputError(fmt::format("read {}; accepted are plan, all", base::in_quotes(text)));
}

ReadingRows reading_rows(const job::Job& job, TapeSet set) {
  if (set == TapeSet::all) return {walked(job.plan, standing_tapes(job.plan)), {}};
  const suspects::TapePlan plan = suspects::tape_plan(job.plan, results::usual_request(job));
  return {tapes_of(job.plan, plan.pulls), plan.misses};
}

std::vector<layout::Tape> walked(const layout::Plan& plan, const std::vector<layout::Tape>& tapes) {
  std::vector<layout::Tape> result;
  for (const Station& station : by_station(plan, tapes))
    result.insert(result.end(), station.tapes.begin(), station.tapes.end());
  return result;
}

std::vector<Station> grouped(const std::vector<layout::Tape>& tapes) {
  std::vector<Station> stations;
  for (const layout::Tape& tape : tapes) {
    if (stations.empty() || stations.back().hold != tape.from) stations.push_back({tape.from, {}});
    stations.back().tapes.push_back(tape);
  }
  return stations;
}

}  // namespace stakewright::forms
