#include "stakewright/forms/form_file.hpp"

#include <algorithm>
#include <array>

#include "stakewright/drawing/files.hpp"
#include "stakewright/fields/fillable.hpp"
#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

using base::Name;

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

struct Hint {
  std::string_view kind;
  base::Id id;
};

constexpr std::array kHints{Hint{"set", "blanks.set"},
                            Hint{"reading", "blanks.reading"},
                            Hint{"instrument", "blanks.instrument"},
                            Hint{"burned", "blanks.burned"},
                            Hint{"note", "blanks.note"},
                            Hint{"hold", "blanks.hold"},
                            Hint{"to", "blanks.to"},
                            Hint{"date", "blanks.date"},
                            Hint{"crew", "blanks.crew"},
                            Hint{"weather", "blanks.weather"},
                            Hint{"tape", "blanks.tape"},
                            Hint{"checked", "blanks.checked"},
                            Hint{"air", "blanks.air"},
                            Hint{"round", "blanks.round"},
                            Hint{"laser", "blanks.laser"},
                            Hint{"laser-name", "blanks.laser_name"},
                            Hint{"laser-edge", "blanks.laser_edge"},
                            Hint{"laser-hold", "blanks.laser_hold"},
                            Hint{"laser-to", "blanks.laser_to"},
                            Hint{"level", "blanks.level"},
                            Hint{"level-name", "blanks.level_name"},
                            Hint{"level-point", "blanks.level_point"},
                            Hint{"pencil", "blanks.pencil"},
                            Hint{"moved", "blanks.moved"},
                            Hint{"after", "blanks.after"},
                            Hint{"signature", "blanks.signature"}};

}  // namespace

std::string hint_for(const std::string& blank, const wording::Voice& voice) {
  const BlankName name = in_parts(blank);
  const auto hint = std::find_if(kHints.begin(), kHints.end(),
                                 [&](const Hint& one) { return one.kind == name.kind; });
  if (hint == kHints.end()) return blank;
  return voice.text(base::Fact{hint->id, {{"of", Name{name.of}}, {"number", Name{name.number}}}});
}

std::string form_file(const std::vector<drawing::Page>& pages, const job::Job& job,
                      const std::string& language, const wording::Voice& voice) {
  std::vector<std::string> blanks;
  for (const drawing::Page& page : pages)
    for (const drawing::Blank& blank : page.blanks) blanks.push_back(blank.name);
  const fields::Extras extras{
      text_of(job_record(job, voice.units(), language, std::move(blanks))), language,
      [&voice](const std::string& blank) { return hint_for(blank, voice); }};
  return fields::fillable(drawing::pdf(pages, job.title), pages, extras);
}

}  // namespace stakewright::forms
