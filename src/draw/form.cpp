#include "form.hpp"

#include <fmt/format.h>

#include <utility>

#include "findings.hpp"
#include "picture.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/forms/correction_sheet.hpp"
#include "stakewright/forms/form_file.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::draw {

namespace {

struct Form {
  std::vector<drawing::Page> pages;
  std::vector<base::Fact> remarks;
};

Form blank_form(const Options& options, const job::Job& job, const wording::Wording& words,
                const forms::FormChoices& choices) {
  forms::ReadingRows rows =
      forms::reading_rows(job, options.tapes.value_or(forms::usual_tapes(job.plan)));
  return {forms::field_form(job, results::layout_of(job), rows.tapes, words, choices),
          std::move(rows.misses)};
}

Form correction(const Options& options, const job::Job& job, const wording::Wording& words,
                const forms::FormChoices& choices) {
  const job::ReadingRows rows = rows_of(options, job);
  return {forms::correction_sheet(job, findings_of(options, job, rows), words, choices),
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
  job::write_file(options.output,
                  forms::form_file(form.pages, job, units, options.language, words.wording));

  std::vector<std::string> remarks = words.remarks;
  const wording::Voice voice(words.wording, units);
  for (const base::Fact& remark : form.remarks) remarks.push_back(voice.text(remark));
  for (std::string& remark : remarks_on_the_face()) remarks.push_back(std::move(remark));
  return remarks;
}

}  // namespace stakewright::draw
