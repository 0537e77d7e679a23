#include "form.hpp"

#include <fmt/format.h>

#include "stakewright/base/error.hpp"
#include "stakewright/drawing/files.hpp"
#include "stakewright/drawing/text.hpp"
#include "stakewright/forms/correction_sheet.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/job/results.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::draw {

namespace {

struct Form {
  std::vector<drawing::Page> pages;
  std::vector<std::string> remarks;
};

Form blank_form(const Options& options, const job::Job& job, const wording::Wording& words,
                const forms::FormChoices& choices) {
  forms::ReadingRows rows =
      forms::reading_rows(job, options.tapes.value_or(forms::usual_tapes(job.plan)));
  return {forms::field_form(job, job::layout_of(job), rows.tapes, words, choices),
          std::move(rows.misses)};
}

Form correction(const Options& options, const job::Job& job, const wording::Wording& words,
                const forms::FormChoices& choices) {
  const job::ReadingRows rows = job::read_reading_rows(options.readings, job);
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.units = choices.units;
  input.instruments = job.instruments;
  input.readings = rows.readings;
  input.round = options.round;
  return {forms::correction_sheet(job, check::check(input), words, choices),
          job::not_read_remarks(rows)};
}

}  // namespace

std::vector<std::string> write_form(const Options& options) {
  if (!options.output.ends_with(".pdf")) {
    throw base::InputError(
        fmt::format("-o: read \"{}\"; a form is written as .pdf", options.output));
  }
  const job::Job job = job::read_job(options.job);
  const base::Units units = options.units.value_or(job.units);
  const wording::Chosen words = wording::chosen(options.language, options.forms);
  const forms::FormChoices choices{units, options.paper.value_or(forms::usual_paper(units)),
                                   options.show_planned};
  const Form form = options.readings.empty() ? blank_form(options, job, words.wording, choices)
                                             : correction(options, job, words.wording, choices);
  job::write_file(options.output, drawing::pdf(form.pages, job.title));

  std::vector<std::string> remarks = words.remarks;
  remarks.insert(remarks.end(), form.remarks.begin(), form.remarks.end());
  if (!drawing::face_is_installed()) {
    remarks.push_back(
        fmt::format("the face {} is not installed (package fonts-dejavu-core); the form is set "
                    "in another",
                    drawing::kFace));
  }
  return remarks;
}

}  // namespace stakewright::draw
