#include "stakewright/forms/field_form.hpp"

#include <fmt/format.h>

#include <iterator>

#include "sheets.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/forms/fingerprint.hpp"

namespace stakewright::forms {
namespace {

const char* units_key(base::Units units) {
  switch (units) {
    case base::Units::feet_inches:
      return "units.feet_inches";
    case base::Units::meters:
      return "units.meters";
    case base::Units::millimeters:
      break;
  }
  return "units.millimeters";
}

}  // namespace

std::string shortened(const std::string& name) {
  constexpr std::size_t kMost_bytes = 24;
  if (name.size() <= kMost_bytes) return name;
  std::size_t end = kMost_bytes;
  // Not in the middle of a character: UTF-8 goes on with bytes 10xxxxxx (RFC 3629, section 3).
  while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) --end;
  return name.substr(0, end) + "…";
}

std::vector<drawing::Page> finished(std::vector<Sheet> sheets, const job::Job& job,
                                    const Wording& wording, const FormChoices& choices) {
  add_heads(sheets, job.title, fingerprint(job.plan), wording.text(units_key(choices.units)),
            wording);
  std::vector<drawing::Page> pages;
  pages.reserve(sheets.size());
  for (Sheet& sheet : sheets) pages.push_back(std::move(sheet.page));
  return pages;
}

Paper usual_paper(base::Units units) {
  return units == base::Units::feet_inches ? Paper::letter : Paper::a4;
}

Paper paper_from_text(std::string_view text) {
  if (text == "letter") return Paper::letter;
  if (text == "a4") return Paper::a4;
  throw base::InputError(fmt::format("read \"{}\"; accepted are letter, a4", text));
}

std::vector<drawing::Page> field_form(const job::Job& job, const results::LayoutResult& layout,
                                      const std::vector<layout::Tape>& tapes,
                                      const Wording& wording, const FormChoices& choices) {
  const FormInput input{job, layout, tapes, wording, choices};
  std::vector<Sheet> sheets = plan_sheets(input);
  for (auto* make : {staking_sheets, reading_sheets}) {
    auto more = make(input);
    sheets.insert(sheets.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
  }
  return finished(std::move(sheets), job, wording, choices);
}

}  // namespace stakewright::forms
