#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "reports.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

std::string loose_section(const check::Findings& findings) {
  std::string text;
  for (const adjustment::Loose& loose : findings.used.loose) {
    std::vector<std::string> tapes;
    for (const adjustment::MissingTape& tape : loose.would_fix)
      tapes.push_back(tape_name(findings.network.points[tape.from].label,
                                findings.network.points[tape.to].label));
    text += paragraph(fmt::format("Corner {} is not fixed; {} would fix it.",
                                  findings.network.points[loose.point].label, base::joined(tapes)));
  }
  return text;
}

std::string next_rows(const check::Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (const suspects::NextTape& next : findings.tape_next)
    rows.push_back({tape_name(findings.network.points[next.from].label,
                              findings.network.points[next.to].label),
                    next.another_tape ? "with another tape"
                    : next.repeat     ? "again"
                                      : "new",
                    next.why});
  return table({{"pull"}, {""}, {"why"}}, rows, shown.emphasis);
}

/// Why no pull is listed.
std::string nothing_to_pull(const check::Findings& findings) {
  if (findings.suspects.of_another_job) return findings.suspects.remark;
  if (!findings.used.loose.empty()) return "";
  if (findings.verdict == check::Verdict::contradiction)
    return "The readings contradict each other, and no single pull would tell more than they do. "
           "See check for the likeliest cause; put it right, and pull its tapes again.";
  if (findings.verdict == check::Verdict::undecided)
    return "No single pull stands out. Pull again what reaches the corners that check cannot tell.";
  return "No further pull is needed to tell what is wrong.";
}

}  // namespace

std::string next_tapes_report(const job::Job& job, const check::Findings& findings,
                              const Shown& shown) {
  std::string text = plain(job.title) + "\n\n" + loose_section(findings);
  if (findings.tape_next.empty()) return text + paragraph(nothing_to_pull(findings));
  text += heading("Worth pulling next", shown.emphasis) + next_rows(findings, shown);
  const double pulls = findings.tape_next.front().pulls_until_clear;
  if (pulls > 0.0)
    text += paragraph(fmt::format(
        "About {} until the answer is clear.",
        counted(static_cast<std::size_t>(std::ceil(pulls)), "such pull", "such pulls")));
  return text;
}

}  // namespace stakewright::cli
