// Jobs to draw, from plain to crowded.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "stakewright/forms/field_form.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::forms {

inline Voice voice_in(base::Units units, const std::string& language = "en") {
  return {wording::built_in(language), units};
}

struct Sample {
  std::string words;  ///< for failure messages
  job::Job job;
  results::LayoutResult layout;
  base::Units units;
  FormChoices choices;
  std::vector<drawing::Page> drawn;  ///< for tests that look at the same pages again and again

  [[nodiscard]] std::vector<layout::Tape> tapes() const {
    return walked(job.plan, standing_tapes(job.plan));
  }
  [[nodiscard]] std::vector<drawing::Page> pages() const {
    return field_form(job, layout, tapes(), voice_in(units), choices);
  }
};

inline Sample worked_out(job::Job job, const std::string& words) {
  Sample sample;
  sample.words = words;
  sample.layout.stakes = layout::stakes(job.plan);
  sample.layout.tapes = layout::check_tapes(job.plan);
  sample.layout.order = layout::staking_order(job.plan, {});
  sample.layout.radial = layout::radial(job.plan);
  sample.layout.lines = layout::lines(job.plan);
  sample.layout.strings = layout::strings(job.plan);
  sample.units = job.units;
  sample.choices.paper = usual_paper(job.units);
  sample.job = std::move(job);
  return sample;
}

inline job::Job plain_job(int sides, base::Units units = base::Units::feet_inches) {
  job::Job job;
  job.title = "Orchard shelter";
  job.units = units;
  job.plan.polygon = {sides, 2.7 + 0.1 * sides};
  return job;
}

inline Sample plain(int sides, base::Units units = base::Units::feet_inches) {
  return worked_out(plain_job(sides, units), fmt::format("{} sides, plain", sides));
}

/// Three lines, two held stakes, two pins, an outline, turned a little.
inline Sample crowded(int sides, base::Units units, double facing_rad) {
  job::Job job = plain_job(sides, units);
  const double r = job.plan.polygon.corner_radius_m;
  job.plan.facing_rad = facing_rad;
  job.plan.hold = {"A", "B"};
  job.plan.lines = {{"plate", 0.07}, {"slab edge", 0.2}, {"dig", 0.6}};
  job.plan.pins = {{"P1", {-1.7 * r, -1.5 * r}}, {"P2", {1.8 * r, -1.6 * r}}};
  job.plan.keep_clear = {
      {"boundary",
       true,
       {{-2.0 * r, -2.0 * r}, {2.0 * r, -2.0 * r}, {2.1 * r, 2.0 * r}, {-2.0 * r, 1.9 * r}}}};
  return worked_out(std::move(job),
                    fmt::format("{} sides, crowded, facing {} rad", sides, facing_rad));
}

}  // namespace stakewright::forms
