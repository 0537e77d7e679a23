#include "stakewright/forms/form_file.hpp"

#include "stakewright/drawing/files.hpp"
#include "stakewright/fields/fillable.hpp"
#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

/// `reading.A-C.1` as kind, what it is of, and which of several; `tape.1.checked` is of the kind
/// `checked`.
struct BlankName {
  std::string kind;
  std::string of;
  std::string number;
};

BlankName in_parts(const std::string& blank) {
  const std::size_t first = blank.find('.');
  if (first == std::string::npos) return {blank, "", ""};
  const std::string rest = blank.substr(first + 1);
  const std::size_t last = rest.rfind('.');
  if (last == std::string::npos) return {blank.substr(0, first), rest, ""};
  const std::string of = rest.substr(0, last);
  const std::string which = rest.substr(last + 1);
  if (which == "checked") return {which, of, ""};
  return {blank.substr(0, first), of, which};
}

}  // namespace

std::string hint_for(const std::string& blank, const wording::Wording& words) {
  const BlankName name = in_parts(blank);
  const std::string key = "blanks." + name.kind;
  if (words.texts().count(key) == 0) return blank;
  return words.filled(key, {{"of", name.of}, {"number", name.number}});
}

std::string form_file(const std::vector<drawing::Page>& pages, const job::Job& job,
                      base::Units units, const std::string& language,
                      const wording::Wording& words) {
  std::vector<std::string> blanks;
  for (const drawing::Page& page : pages)
    for (const drawing::Blank& blank : page.blanks) blanks.push_back(blank.name);
  const fields::Extras extras{
      text_of(job_record(job, units, language, std::move(blanks))), language,
      [&words](const std::string& blank) { return hint_for(blank, words); }};
  return fields::fillable(drawing::pdf(pages, job.title), pages, extras);
}

}  // namespace stakewright::forms
