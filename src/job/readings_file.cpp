#include "stakewright/job/readings_file.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>
#include <map>

#include "accepted.hpp"
#include "rows.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/written_rows.hpp"
#include "stakewright/levels/rods.hpp"
#include "stakewright/readings/corrections.hpp"

namespace stakewright::job {
namespace {

using readings::Instrument;
using readings::Kind;
using readings::Reading;

constexpr std::size_t kLongestNote = 200;

// One to the meter of the longest tape made.
constexpr int kMostSupports = 100;

[[noreturn]] void refuse(std::string_view read, const std::string& accepted) {
  throw base::InputError(fmt::format("read {}; accepted: {}", base::in_quotes(read), accepted));
}

Names instruments_of(const Job& job) {
  std::vector<std::string> names;
  for (const Instrument& instrument : job.instruments) names.push_back(instrument.name);
  return Names(std::move(names));
}

/// One row of the file, its refusals put in their place.
class Fields {
 public:
  Fields(const Row& row, const Columns& columns, const std::string& file)
      : row_(row), columns_(columns), file_(file) {}

  [[nodiscard]] bool has(std::string_view column) const {
    return !columns_.field(row_, column).empty();
  }

  template <typename Reader>
  auto read(std::string_view column, Reader reader) const {
    try {
      return reader(columns_.field(row_, column));
    } catch (const base::InputError& error) {
      throw error.at(fmt::format("{}, {}", file_, columns_.place(row_, column)));
    }
  }

  template <typename Target, typename Reader>
  void read(std::string_view column, Target& target, Reader reader) const {
    if (has(column)) target = read(column, reader);
  }

  [[nodiscard]] std::string place() const {
    if (row_.places.empty()) return fmt::format("{}, line {}", file_, row_.line);
    return fmt::format("{}, {}", file_, columns_.place(row_, "reading"));
  }

 private:
  const Row& row_;
  const Columns& columns_;
  const std::string& file_;
};

Kind kind_from(const std::string& text) {
  for (const Kind kind : {Kind::tape, Kind::laser, Kind::level, Kind::angle})
    if (text == readings::word_of(kind)) return kind;
  refuse(text, "tape, laser, level, angle");
}

/// What every row of a file is read against.
struct Against {
  const Job& job;
  Names points;
  Names instruments;
};

// A row that names its instrument and no kind is of that instrument's kind.
void read_instrument(const Fields& fields, const Against& against, Reading& into) {
  fields.read("kind", into.kind, kind_from);
  if (!fields.has("instrument")) {
    into.instrument = readings::default_instrument(into.kind);
    return;
  }
  into.instrument = fields.read("instrument", [&](const std::string& text) {
    against.instruments.demand(text);
    const Kind kind = readings::instrument_named(against.job.instruments, text)->kind;
    if (!fields.has("kind")) into.kind = kind;
    if (kind != into.kind)
      throw base::InputError(fmt::format("read {}, a {}; accepted: a {}", base::in_quotes(text),
                                         readings::instrument_word_of(kind),
                                         readings::instrument_word_of(into.kind)));
    return text;
  });
}

void read_ends(const Fields& fields, const Against& against, Reading& into) {
  const auto point = [&](const std::string& text) {
    against.points.demand(text);
    return text;
  };
  into.from = fields.read("from", point);
  into.to = fields.read("to", [&](const std::string& text) {
    against.points.demand(text);
    if (text == into.from) refuse(text, "a point other than the one in column from");
    return text;
  });
}

// A set-up and a turning point have names of the crew's own, and none of a point's but for
// capitals: that is a slip of the pen.
void read_level_ends(const Fields& fields, const Against& against, Reading& into) {
  into.from = fields.read("from", [&](const std::string& text) {
    if (!against.points.but_for_capitals(text).empty())
      refuse(text, "the name of a set-up, not a point of the job");
    demand_name(text);
    return text;
  });
  into.to = fields.read("to", [&](const std::string& text) {
    if (text == into.from) refuse(text, "where the rod stands, not the set-up");
    const std::string point = against.points.but_for_capitals(text);
    if (!point.empty() && point != text)
      refuse(text, fmt::format("{}, or a name that differs from it by more than capitals",
                               base::in_quotes(point)));
    demand_name(text);
    return text;
  });
}

void read_at(const Fields& fields, const Against& against, Reading& into) {
  into.at = fields.read("at", [&](const std::string& text) {
    against.points.demand(text);
    if (text == into.from || text == into.to)
      refuse(text, "where the angle is turned: a point other than its two ends");
    return text;
  });
}

double length_from(const std::string& text, base::Units units, const Range& range) {
  const double read_m = base::length_m_from_text(text, units);
  if (!range.has(read_m)) refuse(text, range.words);
  return read_m;
}

/// What a length that could be read was written in: only meters have an m, and a bare number has
/// no mark at all.
base::Units written_in(std::string_view text, base::Units bare) {
  if (text.find_first_of("mM") != std::string_view::npos) return base::Units::millimeters;
  const bool marked = text.find_first_not_of("0123456789. ") != std::string_view::npos;
  return marked ? base::Units::feet_inches : bare;
}

void read_length_itself(const Fields& fields, base::Units units, Reading& into) {
  fields.read("reading", into.value_m, [&](const std::string& text) {
    into.written = written_in(text, units);
    return length_from(text, units, kLengthAboveZero);
  });
}

void read_lengths(const Fields& fields, base::Units units, Reading& into) {
  read_length_itself(fields, units, into);
  const double most_m = fields.has("reading") ? into.value_m : base::kLongestLength_m;
  const Range on_the_tape{0.0, most_m, true, false, "0 or more, and less than the reading"};
  const Range level_difference{-most_m, most_m, false, false,
                               "a level difference less than the reading"};
  fields.read("burned", into.burned_m,
              [&](const std::string& text) { return length_from(text, units, on_the_tape); });
  fields.read("slope", into.slope_m,
              [&](const std::string& text) { return length_from(text, units, level_difference); });
}

void read_conditions(const Fields& fields, Reading& into) {
  const auto quantity = [](base::Quantity of, const Range& range) {
    return [of, &range](const std::string& text) {
      const double read = base::quantity_from_text(text, of);
      if (!range.has(read)) refuse(text, range.words);
      return read;
    };
  };
  fields.read("temperature", into.temperature_c,
              quantity(base::Quantity::temperature, kTemperature));
  fields.read("pull", into.pull_n, quantity(base::Quantity::pull, kPull));
  fields.read("supports", into.spans, spans_from_text);
}

void read_remarks(const Fields& fields, Reading& into) {
  const auto text_up_to = [](std::size_t most) {
    return [most](const std::string& text) {
      if (!base::is_printable(text) || base::character_count(text) > most)
        refuse(text, fmt::format("text on one line, up to {} characters", most));
      return text;
    };
  };
  fields.read("round", into.round, text_up_to(kLongestName));
  fields.read("note", into.note, text_up_to(kLongestNote));
}

void demand_empty(const Fields& fields, std::initializer_list<const char*> columns, Kind kind) {
  for (const char* column : columns)
    if (fields.has(column))
      fields.read(column, [&](const std::string& text) -> int {
        refuse(text, fmt::format("nothing, for a reading of kind {}", readings::word_of(kind)));
      });
}

// What the kinds of reading have beside their number.
void read_length(const Fields& fields, const Against& against, Reading& into) {
  read_ends(fields, against, into);
  demand_empty(fields, {"at", "sight"}, into.kind);
  read_lengths(fields, against.job.units, into);
  read_conditions(fields, into);
}

void read_level(const Fields& fields, const Against& against, Reading& into) {
  read_level_ends(fields, against, into);
  demand_empty(fields, {"at", "temperature", "pull", "burned", "slope", "supports"}, into.kind);
  read_length_itself(fields, against.job.units, into);
  fields.read("sight", into.sight_m, [&](const std::string& text) {
    return length_from(text, against.job.units, kLengthAboveZero);
  });
}

void read_angle(const Fields& fields, const Against& against, Reading& into) {
  read_ends(fields, against, into);
  read_at(fields, against, into);
  demand_empty(fields, {"sight", "temperature", "pull", "burned", "slope", "supports"}, into.kind);
  fields.read("reading", into.angle_rad,
              [](const std::string& text) { return base::angle_rad_from_text(text); });
}

void read_number(const Fields& fields, const Against& against, Reading& into) {
  switch (into.kind) {
    case Kind::tape:
    case Kind::laser:
      return read_length(fields, against, into);
    case Kind::level:
      return read_level(fields, against, into);
    case Kind::angle:
      return read_angle(fields, against, into);
  }
}

// A correction may leave no length: found here, where the line is known.
void demand_length_left(const Reading& reading, const Job& job) {
  if (reading.kind == Kind::level || reading.kind == Kind::angle) return;
  readings::corrections(reading, *readings::instrument_named(job.instruments, reading.instrument));
}

Reading reading_from(const Row& row, const Columns& columns, const std::string& file,
                     const Against& against) {
  const Fields fields(row, columns, file);
  Reading reading;
  read_instrument(fields, against, reading);
  read_number(fields, against, reading);
  read_remarks(fields, reading);
  try {
    columns.demand_no_more(row);
    if (fields.has("reading")) demand_length_left(reading, against.job);
  } catch (const base::InputError& error) {
    throw error.at(fields.place());
  }
  reading.line = row.line;
  return reading;
}

void demand_few_rods(const std::vector<Reading>& all, const std::string& file) {
  std::size_t rods = 0;
  for (const Reading& reading : all)
    if (reading.kind == Kind::level && ++rods > levels::kMostRodReadings)
      throw base::InputError(
          fmt::format("{}, line {}: read one rod reading more; accepted: up to {}", file,
                      reading.line, levels::kMostRodReadings));
}

void demand_set_ups_apart(const std::vector<Reading>& all, const std::string& file) {
  std::map<std::string, int> rods;  // by name: the first line
  for (const Reading& reading : all)
    if (reading.kind == Kind::level) rods.emplace(reading.to, reading.line);
  for (const Reading& reading : all) {
    const auto rod = rods.find(reading.from);
    if (reading.kind != Kind::level || rod == rods.end()) continue;
    throw base::InputError(fmt::format(
        "{}, line {}, column from: read {}, where a rod stands in line {}; accepted: one name for "
        "a set-up, another for a point",
        file, reading.line, base::in_quotes(reading.from), rod->second));
  }
}

}  // namespace

int spans_from_text(const std::string& text) {
  if (text == "all") return 0;
  int supports = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), supports);
  const bool whole = error == std::errc() && end == text.data() + text.size();
  if (!whole || supports < 0 || supports > kMostSupports)
    throw base::InputError(
        fmt::format("read {}; accepted: how many supports hold the tape up between its ends, "
                    "evenly: 0 to {}, or all where it lies on the ground",
                    base::in_quotes(text), kMostSupports));
  return supports + 1;
}

std::vector<Reading> readings_from_rows(const std::vector<WrittenRow>& rows,
                                        const std::string& name, const Job& job) {
  const std::string file = base::shown(name);
  const Row header = header_of(rows);
  const Columns columns(header, file);
  const Against against{job, points_of(job.plan), instruments_of(job)};
  std::vector<Reading> result;
  for (const WrittenRow& row : rows)
    result.push_back(reading_from(row_under(header, row), columns, file, against));
  return result;
}

ReadingRows reading_rows_from_text(std::string_view text, const std::string& name, const Job& job) {
  const std::string file = base::shown(name);
  const std::vector<Row> rows = rows_from_text(text, file, kMostReadings);
  if (rows.empty())
    throw base::InputError(file +
                           ": read no header; accepted: a first line such as "
                           "from,to,reading");
  const Columns columns(rows.front(), file);
  const Against against{job, points_of(job.plan), instruments_of(job)};
  ReadingRows result;
  for (auto row = rows.begin() + 1; row != rows.end(); ++row) {
    const bool blank = columns.field(*row, "reading").empty();
    (blank ? result.not_read : result.readings)
        .push_back(reading_from(*row, columns, file, against));
  }
  demand_few_rods(result.readings, file);
  demand_set_ups_apart(result.readings, file);
  return result;
}

ReadingRows read_reading_rows(const std::string& path, const Job& job) {
  return reading_rows_from_text(text_of_file(path), path, job);
}

std::vector<Reading> readings_from_text(std::string_view text, const std::string& name,
                                        const Job& job) {
  return reading_rows_from_text(text, name, job).readings;
}

std::vector<Reading> read_readings(const std::string& path, const Job& job) {
  return read_reading_rows(path, job).readings;
}

std::vector<base::Fact> not_read_remarks(const ReadingRows& rows) {
  constexpr std::size_t kMostNamed = 6;
  const std::size_t count = rows.not_read.size();
  if (count == 0) return {};
  base::List named{{}, base::List::Joint::listed};
  for (const readings::Reading& reading : rows.not_read)
    if (named.items.size() < kMostNamed)
      named.items.emplace_back(base::ReadingName{{reading.from, reading.to}});
  if (count <= kMostNamed)
    return {{"readings.not_read", {{"count", base::Count{count}}, {"pulls", named}}}};
  return {{"readings.not_read_and_more",
           {{"count", base::Count{count}},
            {"pulls", named},
            {"more", base::Count{count - kMostNamed}}}}};
}

}  // namespace stakewright::job
