#include "stakewright/forms/job_record.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/forms/fingerprint.hpp"

namespace stakewright::forms {
namespace {

constexpr std::string_view kHead = "stakewright form";
constexpr double kMillionths = 1e6;
/// Longer texts would bury a message, in bytes.
constexpr std::size_t kLongestShown = 120;

std::string exact(double value) { return fmt::format("{}", std::llround(value * kMillionths)); }
std::string exact(base::Point point) {
  return fmt::format("{} {}", exact(point.x_m), exact(point.y_m));
}

/// Facts of one job, keys that come again numbered.
class Facts {
 public:
  explicit Facts(base::Units units) : units_(units) {}

  void add(const std::string& key, const std::string& exact_text, const std::string& shown) {
    const auto same = std::count_if(facts_.begin(), facts_.end(), [&](const Fact& fact) {
      return fact.key == key || fact.key.starts_with(key + " (");
    });
    facts_.push_back({same == 0 ? key : fmt::format("{} ({})", key, same + 1), exact_text, shown});
  }
  void add(const std::string& key, const std::string& words) { add(key, words, words); }
  void add_length(const std::string& key, double length_m) {
    add(key, exact(length_m), base::text_from_length(length_m, units_));
  }
  void add_place(const std::string& key, base::Point at) {
    add(key, exact(at),
        fmt::format("{} right, {} forward", base::text_from_length(at.x_m, units_),
                    base::text_from_length(at.y_m, units_)));
  }
  void add_names(const std::string& key, const std::vector<std::string>& names) {
    add(key, names.empty() ? "none" : base::joined(names));
  }

  std::vector<Fact> take() { return std::move(facts_); }

 private:
  base::Units units_;
  std::vector<Fact> facts_;
};

template <typename Named>
std::vector<std::string> names_of(const std::vector<Named>& list) {
  std::vector<std::string> names;
  for (const Named& named : list) names.push_back(named.name);
  return names;
}

void add_outline(Facts& facts, const layout::KeepClear& outline) {
  std::vector<std::string> corners;
  for (const base::Point& corner : outline.outline) corners.push_back(exact(corner));
  const char* keep = outline.keep_inside ? "inside" : "outside";
  facts.add("outline " + outline.name, fmt::format("{} {}", keep, fmt::join(corners, ", ")),
            fmt::format("keep {}, {} corners", keep, corners.size()));
}

/// The same things as `fingerprint` takes, in trade words.
std::vector<Fact> facts_of(const job::Job& job) {
  const layout::Plan& plan = job.plan;
  Facts facts(job.units);
  facts.add("sides", fmt::format("{}", plan.polygon.sides));
  const double radius_m = plan.polygon.corner_radius_m;
  facts.add("size", exact(radius_m),
            job.stated_size.empty() ? "corner_radius " + base::text_from_length(radius_m, job.units)
                                    : job.stated_size);
  facts.add_place("center", plan.center);
  facts.add("facing", exact(plan.facing_rad),
            fmt::format("{:.4g} degrees", plan.facing_rad * 180.0 / std::numbers::pi));
  facts.add_length("batter_setback", plan.batter_setback_m);
  facts.add_names("hold", plan.hold);
  for (const layout::Pin& pin : plan.pins) facts.add_place("pin " + pin.name, pin.at);
  for (const layout::Line& line : plan.lines) facts.add_length("line " + line.name, line.offset_m);
  for (const layout::KeepClear& outline : plan.keep_clear) add_outline(facts, outline);
  // Names alone, for the case that nothing but their order has been changed.
  facts.add_names("order of pins", names_of(plan.pins));
  facts.add_names("order of lines", names_of(plan.lines));
  facts.add_names("order of outlines", names_of(plan.keep_clear));
  return facts.take();
}

const Fact* fact_named(const std::vector<Fact>& facts, const std::string& key) {
  const auto found =
      std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.key == key; });
  return found == facts.end() ? nullptr : &*found;
}

std::string change(const Fact& was, const Fact& is) {
  const bool is_short = was.shown.size() <= kLongestShown && is.shown.size() <= kLongestShown;
  if (was.shown != is.shown && is_short)
    return fmt::format("{} was {}, now {}", was.key, was.shown, is.shown);
  return fmt::format("{} has been changed", was.key);
}

std::string one_way_only(const Fact& fact, const char* what) {
  return fact.shown.size() <= kLongestShown ? fmt::format("{} ({}) {}", fact.key, fact.shown, what)
                                            : fmt::format("{} {}", fact.key, what);
}

/// The fields between the tabs of a line.
std::vector<std::string> cut(std::string_view line) {
  std::vector<std::string> fields;
  for (std::size_t tab = 0; tab != std::string_view::npos; line.remove_prefix(tab + 1)) {
    tab = line.find('\t');
    fields.emplace_back(line.substr(0, tab));
    if (tab == std::string_view::npos) break;
  }
  return fields;
}

[[noreturn]] void refuse_record() {
  throw base::InputError(
      "its record of the job cannot be read; accepted: a form that stakewright made");
}

void take_line(const std::vector<std::string>& fields, JobRecord& record) {
  const std::string& word = fields.front();
  for (const std::string& field : fields)
    if (!base::is_printable(field)) refuse_record();
  if (fields.size() == 2 && word == "fingerprint") {
    record.fingerprint = fields[1];
  } else if (fields.size() == 2 && word == "title") {
    record.title = fields[1];
  } else if (fields.size() == 2 && word == "units") {
    record.units = base::units_from_word(fields[1]);
  } else if (fields.size() == 2 && word == "language") {
    record.language = fields[1];
  } else if (fields.size() == 2 && word == "blank") {
    record.blanks.push_back(fields[1]);
  } else if (fields.size() == 4 && word == "fact" && fields[1].size() <= kLongestShown) {
    record.facts.push_back({fields[1], fields[2], fields[3]});
  } else {
    refuse_record();
  }
}

}  // namespace

JobRecord job_record(const job::Job& job, base::Units units, const std::string& language,
                     std::vector<std::string> blanks) {
  return {fingerprint(job.plan), job.title, units, language, facts_of(job), std::move(blanks)};
}

std::string text_of(const JobRecord& record) {
  std::string text = fmt::format("{}\t{}\nfingerprint\t{}\ntitle\t{}\nunits\t{}\nlanguage\t{}\n",
                                 kHead, kFormVersion, record.fingerprint, record.title,
                                 base::word_of(record.units), record.language);
  for (const Fact& fact : record.facts)
    text += fmt::format("fact\t{}\t{}\t{}\n", fact.key, fact.exact, fact.shown);
  for (const std::string& blank : record.blanks) text += fmt::format("blank\t{}\n", blank);
  return text;
}

JobRecord job_record_from_text(std::string_view text) {
  JobRecord record;
  bool is_first = true;
  while (!text.empty()) {
    // Programs that copy a form may write its line ends anew.
    const std::size_t end = text.find_first_of("\r\n");
    const auto fields = cut(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (fields.size() == 1 && fields.front().empty()) continue;
    if (is_first) {
      if (fields.front() != kHead || fields.size() != 2) refuse_record();
      if (fields[1] != fmt::format("{}", kFormVersion))
        throw base::InputError(
            fmt::format("form version {}; accepted: {}, as this stakewright makes it",
                        base::in_quotes(fields[1]), kFormVersion));
      is_first = false;
    } else {
      take_line(fields, record);
    }
  }
  if (is_first || record.fingerprint.empty()) refuse_record();
  return record;
}

std::vector<std::string> changes_since(const JobRecord& record, const job::Job& job) {
  if (record.fingerprint == fingerprint(job.plan)) return {};
  const std::vector<Fact> facts = facts_of(job);
  std::vector<std::string> changes;
  for (const Fact& was : record.facts) {
    const Fact* is = fact_named(facts, was.key);
    if (is == nullptr) changes.push_back(one_way_only(was, "is gone"));
    if (is != nullptr && is->exact != was.exact) changes.push_back(change(was, *is));
  }
  for (const Fact& is : facts)
    if (fact_named(record.facts, is.key) == nullptr) changes.push_back(one_way_only(is, "is new"));
  // Names in another order are worth telling only when nothing else is.
  const auto is_order = [](const std::string& words) { return words.starts_with("order of "); };
  if (!std::all_of(changes.begin(), changes.end(), is_order)) std::erase_if(changes, is_order);
  return changes;
}

}  // namespace stakewright::forms
