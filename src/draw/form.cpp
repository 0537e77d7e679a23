#include "form.hpp"

#include <fmt/format.h>

#include <utility>

#include "picture.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/forms/form_file.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/results.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::draw {

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
  const auto pages = forms::field_form(job, job::layout_of(job), forms::standing_tapes(job.plan),
                                       words.wording, choices);
  job::write_file(options.output,
                  forms::form_file(pages, job, units, options.language, words.wording));
  std::vector<std::string> remarks = words.remarks;
  for (std::string& remark : remarks_on_the_face()) remarks.push_back(std::move(remark));
  return remarks;
}

}  // namespace stakewright::draw
