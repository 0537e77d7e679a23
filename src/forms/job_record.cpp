#include "stakewright/forms/job_record.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::forms {
namespace {

using base::Fact;
using base::Name;

constexpr std::string_view kHead = "stakewright form";
constexpr double kMillionths = 1e6;
/// Longer texts would bury a message, in bytes.
constexpr std::size_t kLongestShown = 120;

/// FNV-1a, 64 bits (IETF draft-eastlake-fnv, section 2 and 5).
class Hash {
 public:
  void add_byte(unsigned char byte) { state_ = (state_ ^ byte) * 1099511628211ULL; }
  void add(std::uint64_t number) {
    for (int shift = 0; shift < 64; shift += 8)
      add_byte(static_cast<unsigned char>(number >> static_cast<unsigned>(shift)));
  }
  /// The length goes first, so that "AB", "C" and "A", "BC" differ.
  void add(std::string_view text) {
    add(static_cast<std::uint64_t>(text.size()));
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
  }
  void add(double value) { add(static_cast<std::uint64_t>(std::llround(value * kMillionths))); }
  void add(base::Point point) {
    add(point.x_m);
    add(point.y_m);
  }
  [[nodiscard]] std::uint64_t state() const { return state_; }

 private:
  std::uint64_t state_ = 14695981039346656037ULL;
};

std::string exact(double value) { return fmt::format("{}", std::llround(value * kMillionths)); }
std::string exact(base::Point point) {
  return fmt::format("{} {}", exact(point.x_m), exact(point.y_m));
}

/// Things of one job, keys that come again numbered.
class Things {
 public:
  explicit Things(base::Units units) : units_(units) {}

  void add(const std::string& key, const std::string& exact_text, const std::string& shown) {
    const auto same = std::count_if(things_.begin(), things_.end(), [&](const Recorded& one) {
      return one.key == key || one.key.starts_with(key + " (");
    });
    things_.push_back({same == 0 ? key : fmt::format("{} ({})", key, same + 1), exact_text, shown});
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

  std::vector<Recorded> take() { return std::move(things_); }

 private:
  base::Units units_;
  std::vector<Recorded> things_;
};

template <typename Named>
std::vector<std::string> names_of(const std::vector<Named>& list) {
  std::vector<std::string> names;
  for (const Named& named : list) names.push_back(named.name);
  return names;
}

void add_outline(Things& things, const layout::KeepClear& outline) {
  std::vector<std::string> corners;
  for (const base::Point& corner : outline.outline) corners.push_back(exact(corner));
  const char* keep = outline.keep_inside ? "inside" : "outside";
  things.add("outline " + outline.name, fmt::format("{} {}", keep, fmt::join(corners, ", ")),
             fmt::format("keep {}, {} corners", keep, corners.size()));
}

/// The same things as `fingerprint` takes, in trade words.
std::vector<Recorded> things_of(const job::Job& job) {
  const layout::Plan& plan = job.plan;
  Things things(job.units);
  things.add("sides", fmt::format("{}", plan.polygon.sides));
  const double radius_m = plan.polygon.corner_radius_m;
  things.add("size", exact(radius_m),
             job.stated_size.empty()
                 ? "corner_radius " + base::text_from_length(radius_m, job.units)
                 : job.stated_size);
  things.add_place("center", plan.center);
  things.add("facing", exact(plan.facing_rad),
             fmt::format("{:.4g} degrees", plan.facing_rad * 180.0 / std::numbers::pi));
  things.add_length("batter_setback", plan.batter_setback_m);
  things.add_names("hold", plan.hold);
  for (const layout::Pin& pin : plan.pins) things.add_place("pin " + pin.name, pin.at);
  for (const layout::Line& line : plan.lines) things.add_length("line " + line.name, line.offset_m);
  for (const layout::KeepClear& outline : plan.keep_clear) add_outline(things, outline);
  // Names alone, for the case that nothing but their order has been changed.
  things.add_names("order of pins", names_of(plan.pins));
  things.add_names("order of lines", names_of(plan.lines));
  things.add_names("order of outlines", names_of(plan.keep_clear));
  return things.take();
}

const Recorded* named(const std::vector<Recorded>& things, const std::string& key) {
  const auto found = std::find_if(things.begin(), things.end(),
                                  [&](const Recorded& one) { return one.key == key; });
  return found == things.end() ? nullptr : &*found;
}

bool is_short(const Recorded& thing) { return thing.shown.size() <= kLongestShown; }

Fact change(const Recorded& was, const Recorded& is) {
  if (was.shown == is.shown || !is_short(was) || !is_short(is))
    return {"errors.changed", {{"what", Name{was.key}}}};
  return {"errors.was_now",
          {{"what", Name{was.key}}, {"was", Name{was.shown}}, {"now", Name{is.shown}}}};
}

/// The thing with what it is.
base::Value in_full(const Recorded& thing) {
  if (!is_short(thing)) return Name{thing.key};
  return Fact{"errors.thing_so", {{"what", Name{thing.key}}, {"so", Name{thing.shown}}}};
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

[[noreturn]] void refuse_record() { throw base::InputError(Fact{"errors.form_record"}); }

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
    record.things.push_back({fields[1], fields[2], fields[3]});
  } else {
    refuse_record();
  }
}

}  // namespace

JobRecord job_record(const job::Job& job, base::Units units, const std::string& language,
                     std::vector<std::string> blanks) {
  return {fingerprint(job.plan), job.title, units, language, things_of(job), std::move(blanks)};
}

std::string text_of(const JobRecord& record) {
  std::string text = fmt::format("{}\t{}\nfingerprint\t{}\ntitle\t{}\nunits\t{}\nlanguage\t{}\n",
                                 kHead, kFormVersion, record.fingerprint, record.title,
                                 base::word_of(record.units), record.language);
  for (const Recorded& thing : record.things)
    text += fmt::format("fact\t{}\t{}\t{}\n", thing.key, thing.exact, thing.shown);
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
            Fact{"errors.form_version",
                 {{"read", base::Quoted{fields[1]}}, {"version", base::Number{kFormVersion}}}});
      is_first = false;
    } else {
      take_line(fields, record);
    }
  }
  if (is_first || record.fingerprint.empty()) refuse_record();
  return record;
}

std::string fingerprint(const layout::Plan& plan) {
  Hash hash;
  hash.add(static_cast<std::uint64_t>(plan.polygon.sides));
  hash.add(plan.polygon.corner_radius_m);
  hash.add(plan.center);
  hash.add(plan.facing_rad);
  hash.add(plan.batter_setback_m);
  hash.add(static_cast<std::uint64_t>(plan.hold.size()));
  for (const std::string& label : plan.hold) hash.add(std::string_view(label));
  hash.add(static_cast<std::uint64_t>(plan.pins.size()));
  for (const layout::Pin& pin : plan.pins) {
    hash.add(std::string_view(pin.name));
    hash.add(pin.at);
  }
  hash.add(static_cast<std::uint64_t>(plan.lines.size()));
  for (const layout::Line& line : plan.lines) {
    hash.add(std::string_view(line.name));
    hash.add(line.offset_m);
  }
  hash.add(static_cast<std::uint64_t>(plan.keep_clear.size()));
  for (const layout::KeepClear& area : plan.keep_clear) {
    hash.add(std::string_view(area.name));
    hash.add(static_cast<std::uint64_t>(area.keep_inside ? 1 : 0));
    hash.add(static_cast<std::uint64_t>(area.outline.size()));
    for (const base::Point& corner : area.outline) hash.add(corner);
  }
  const auto folded = static_cast<std::uint32_t>(hash.state() ^ (hash.state() >> 32U));
  return fmt::format("{:04X}-{:04X}", folded >> 16U, folded & 0xFFFFU);
}

std::vector<Fact> changes_since(const JobRecord& record, const job::Job& job) {
  if (record.fingerprint == fingerprint(job.plan)) return {};
  const std::vector<Recorded> things = things_of(job);
  std::vector<Fact> changes;
  // Names in another order are worth telling only when nothing else is.
  std::vector<Fact> orders;
  for (const Recorded& was : record.things) {
    const Recorded* is = named(things, was.key);
    auto& list = was.key.starts_with("order of ") ? orders : changes;
    if (is == nullptr) list.push_back({"errors.gone", {{"what", in_full(was)}}});
    if (is != nullptr && is->exact != was.exact) list.push_back(change(was, *is));
  }
  for (const Recorded& is : things)
    if (named(record.things, is.key) == nullptr)
      changes.push_back({"errors.new", {{"what", in_full(is)}}});
  return changes.empty() ? orders : changes;
}

}  // namespace stakewright::forms
