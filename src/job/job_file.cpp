// The job file, table by table.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "table.hpp"

namespace stakewright::job {
namespace {

using base::Quantity;
using base::Units;
using readings::Instrument;
using readings::Kind;

// ---- [plan] and [lines]

constexpr double kSquareMeters_most = base::kLongestLength_m * base::kLongestLength_m;
constexpr Range kAreaAboveZero = {0.0, kSquareMeters_most, false, true, "an area above 0"};
constexpr std::size_t kLongestTitle = 200;  // characters
constexpr std::size_t kLongestLineText = 80;

struct SizeKey {
  std::string_view key;
  layout::Size size;
};

constexpr std::array<SizeKey, 8> kSizeKeys = {{{"side", layout::Size::side},
                                               {"corner_radius", layout::Size::corner_radius},
                                               {"flat_radius", layout::Size::flat_radius},
                                               {"across_flats", layout::Size::across_flats},
                                               {"across_corners", layout::Size::across_corners},
                                               {"flat_to_corner", layout::Size::flat_to_corner},
                                               {"perimeter", layout::Size::perimeter},
                                               {"floor_area", layout::Size::floor_area}}};

std::string one_size_key() {
  std::vector<std::string_view> keys;
  for (const SizeKey& known : kSizeKeys) keys.push_back(known.key);
  return fmt::format("exactly one of {}", fmt::join(keys, ", "));
}

void read_plan(Table& table, Job& job) {
  int sides = 0;
  table.whole("sides", sides, layout::kFewestSides, layout::kMostSides)
      .needed(
          fmt::format("a whole number from {} to {}", layout::kFewestSides, layout::kMostSides));
  table.text("line", job.plan.measured_to, kLongestLineText);
  std::string_view stated;
  for (const SizeKey& known : kSizeKeys)
    table.ask(known.key, [&, known](const toml::node& value) {
      if (!stated.empty())
        throw base::InputError(
            fmt::format("read a second size beside {}; accepted: {}", stated, one_size_key()));
      stated = known.key;
      const double measure = known.size == layout::Size::floor_area
                                 ? area_in(value, job.units, kAreaAboveZero)
                                 : length_in(value, job.units, kLengthAboveZero);
      job.plan.polygon = layout::polygon_from(known.size, measure, sides);
      job.stated_size = fmt::format("{} {}", known.key, text_or_number(value, ""));
    });
  table.read();
  if (stated.empty()) table.refuse_table("read no size; accepted: " + one_size_key());
}

void demand_line_name(const std::string& name) {
  demand_name(name);
  const auto refuse_if = [&](const char* taken, const char* by) {
    if (name == taken)
      throw base::InputError(fmt::format("read {}, which {} gives; accepted: another name",
                                         base::in_quotes(name), by));
  };
  refuse_if(layout::kPlanLineName, "[plan]");
  refuse_if(kRoofEdgeName, "[roof]");
}

void read_lines(const Table& table, Job& job) {
  for (const std::string& name : table.keys()) {
    const double offset_m = table.value(name, [&](const toml::node& value) {
      demand_line_name(name);
      const double read_m = length_in(value, job.units, kAnyLength);
      static_cast<void>(layout::parallel(job.plan.polygon, read_m));  // refuses what leaves nothing
      return read_m;
    });
    job.plan.lines.push_back({name, offset_m});
    if (name == "plate") job.plate_offset_m = offset_m;
  }
}

// ---- [site]

constexpr Range kFacing = {-360.0, 360.0, true, true, "degrees, a number from -360 to 360"};
constexpr std::size_t kFewestOutlinePoints = 3;

std::vector<std::string> hold_from(const toml::node& value,
                                   const std::vector<std::string>& corners) {
  std::vector<std::string> held;
  for (const toml::node& item : list_from(value, "a list of corners, as in [\"A\", \"B\"]")) {
    const std::string name = name_from(item);
    if (std::find(corners.begin(), corners.end(), name) == corners.end())
      throw base::InputError(
          fmt::format("read {}; accepted: {}", base::in_quotes(name), fmt::join(corners, ", ")));
    if (std::find(held.begin(), held.end(), name) != held.end())
      throw base::InputError(
          fmt::format("read {} twice; accepted: each corner once", base::in_quotes(name)));
    held.push_back(name);
  }
  return held;
}

// A readings file tells points apart by name alone, and a crew says no capitals.
void demand_new_name(const std::string& name, const std::vector<std::string>& taken) {
  for (const std::string& other : taken)
    if (base::lower_case(name) == base::lower_case(other))
      throw base::InputError(
          fmt::format("read {}, which {} has already; accepted: a name that differs from every "
                      "stake's and pin's by more than capitals",
                      base::in_quotes(name), base::in_quotes(other)));
}

layout::Pin pin_from(Table& table, std::vector<std::string>& taken) {
  layout::Pin pin;
  table
      .ask("name", pin.name,
           [&](const toml::node& value) {
             std::string name = name_from(value);
             demand_new_name(name, taken);
             return name;
           })
      .needed("a name in quotes");
  table.point("at", pin.at).needed("two lengths, right and forward");
  table.read();
  taken.push_back(pin.name);
  return pin;
}

std::vector<base::Point> outline_from(const toml::node& value, Units units) {
  constexpr const char* accepted = "a list of three points or more, each two lengths";
  const toml::array& list = list_from(value, accepted);
  if (list.size() < kFewestOutlinePoints)
    throw base::InputError(fmt::format("read {} points; accepted: {}", list.size(), accepted));
  std::vector<base::Point> outline;
  for (const toml::node& item : list)
    base::read_at(fmt::format("point {}", outline.size() + 1),
                  [&] { outline.push_back(point_from(item, units)); });
  return outline;
}

layout::KeepClear keep_clear_from(Table& table, Units units) {
  layout::KeepClear outline;
  table.name("name", outline.name).needed("a name in quotes");
  table.word<bool>("keep", outline.keep_inside, {{"inside", true}, {"outside", false}});
  table
      .ask("of",
           [&](const toml::node& value) {
             outline.outline = outline_from(value, units);
             layout::demand_outline(outline);
           })
      .needed("a list of points, each two lengths");
  table.read();
  return outline;
}

void read_site(Table& table, Units units, layout::Plan& plan) {
  const std::vector<std::string> corners = layout::corner_labels(plan.polygon.sides);
  std::vector<std::string> taken = corners;
  taken.emplace_back(layout::kCenterLabel);
  table.point("center", plan.center);
  table.ask("facing", plan.facing_rad,
            [](const toml::node& value) { return number_in(value, kFacing) * base::kDegree_rad; });
  table.ask("hold", plan.hold, [&](const toml::node& value) { return hold_from(value, corners); });
  table.tables("pin", [&](Table& pin) { plan.pins.push_back(pin_from(pin, taken)); });
  table.tables("keep_clear",
               [&](Table& outline) { plan.keep_clear.push_back(keep_clear_from(outline, units)); });
  table.length("batter_setback", plan.batter_setback_m, kLengthFromZero);
  table.read();
}

// ---- [tolerance], [staking], [levels]

constexpr Range kConfidence = {0.5, 0.9999, true, true, "a number from 0.5 to 0.9999"};
constexpr Range kChance = {0.0, 1.0, false, false, "a number above 0 and below 1"};

// What a crew works to in each system: common practice, no source.
base::Tolerance usual_tolerance(Units units) {
  if (units == Units::feet_inches)
    return {0.0254 / 4.0, 0.0254 / 8.0, 0.0254 / 16.0, 0.95};  // 1/4, 1/8, 1/16 in
  return {0.006, 0.003, 0.0015, 0.95};
}

base::Staking usual_staking(Units units) {
  base::Staking result;
  result.spread_m = units == Units::feet_inches ? 0.0254 / 8.0 : 0.003;
  return result;
}

void read_tolerance(Table& table, base::Tolerance& into) {
  table.length("corner", into.corner_m, kLengthAboveZero);
  table.length("level", into.level_m, kLengthAboveZero);
  table.length("part", into.part_m, kLengthAboveZero);
  table.number("confidence", into.confidence, kConfidence);
  table.read();
}

void read_staking(Table& table, base::Staking& into) {
  table.length("spread", into.spread_m, kLengthAboveZero);
  table.number("misread", into.misread, kChance);
  table.number("misplaced", into.misplaced, kChance);
  table.read();
}

std::string bench_mark_from(const toml::node& value, const layout::Plan& plan) {
  std::string name = name_from(value);
  const std::string point = points_of(plan).but_for_capitals(name);
  if (!point.empty() && point != name)
    throw base::InputError(
        fmt::format("read {}; accepted: {}, or a name that differs from it by more than capitals",
                    base::in_quotes(name), base::in_quotes(point)));
  return name;
}

void read_levels(Table& table, const layout::Plan& plan, levels::Wanted& into) {
  table.ask("bench_mark", into.bench_mark,
            [&](const toml::node& value) { return bench_mark_from(value, plan); });
  table.length("height", into.bench_mark_height_m, kAnyLength);
  table.length("footings", into.footings_m, kAnyLength);
  table.read();
  for (const std::string& key : table.keys())
    if (into.bench_mark.empty())
      table.refuse_key(key, fmt::format("read {} without bench_mark; accepted: both", key));
}

// ---- [[instrument]]

constexpr Range kError = {0.0, 1.0, true, true, "a length from 0 to 1 m"};
constexpr Range kShare = {0.0, 0.1, true, true, "a number from 0 to 0.1"};
constexpr Range kExpansion = {-1e-3, 1e-3, true, true,
                              "an expansion from -0.001 to 0.001 per degree C"};
constexpr Range kSection = {0.0, 1e-3, false, true, "a cross-section above 0, up to 1000 mm2"};
constexpr Range kModulus = {0.0, 1e12, false, true, "a modulus above 0, up to 1000 GPa"};
constexpr Range kWeight = {0.0, 100.0, false, true, "a weight above 0, up to 100 N/m"};

// Marked and measured length further apart than this are not one tape's.
constexpr double kMostOff = 0.1;

// A standard deviation under a hundredth of a millimeter is a slip of the pen, and readings
// weighed so would drown all others.
constexpr double kLeastSpread_m = 1e-5;

// The same of an angle: no circle on a building site is better than a tenth of a second, and one
// worse than a degree is none.
constexpr double kLeastAngleSpread_rad = base::kDegree_rad / 36000.0;
constexpr double kLargestAngleSpread_rad = base::kDegree_rad;

/// The figures an instrument starts from: the built-in one's of that name, else the error figures
/// of the built-in one of that kind.
Instrument start_of(const std::string& name, Kind kind) {
  Instrument usual;
  for (const Instrument& known : readings::built_in_instruments()) {
    if (known.name == name) return known;
    if (known.name == readings::default_instrument(kind)) usual = known;
  }
  usual.name = name;
  usual.expansion_per_c.reset();
  usual.standard_pull_n.reset();
  return usual;
}

Instrument started(const toml::node& value, const std::string& name) {
  const Kind kind = word_from<Kind>(value, {{"tape", Kind::tape},
                                            {"laser", Kind::laser},
                                            {"level", Kind::level},
                                            {"circle", Kind::angle}});
  Instrument instrument = start_of(name, kind);
  if (instrument.kind != kind)
    throw base::InputError(
        fmt::format("{} is built in as another kind; accepted: its own kind, "
                    "or another name",
                    base::in_quotes(name)));
  return instrument;
}

double angle_error_from(const toml::node& value) {
  const double read_rad =
      base::angle_rad_from_text(text_or_number(value, "an angle such as \"0-00-20\""));
  if (read_rad > kLargestAngleSpread_rad) refuse(value, "an angle up to a degree");
  return read_rad;
}

/// A circle has no length to be off by, and nothing else has a circle.  A rod is not held over a
/// stake, and an error that is the same in every rod drops out.
void demand_keys_of(const Table& table, Kind kind) {
  for (const std::string& key : table.keys()) {
    const bool of_all = key == "name" || key == "kind";
    const bool of_level = key == "constant" || key == "per_length";
    const bool of_circle = key == "centering" || key == "angle";
    const auto refuse_own = [&](const char* accepted) {
      table.refuse_key(key, fmt::format("read {} of a {}; accepted: {}", key,
                                        readings::instrument_word_of(kind), accepted));
    };
    if (kind == Kind::level && !of_all && !of_level)
      table.refuse_key(key,
                       fmt::format("read {} for a level; accepted: constant and per_length", key));
    if (kind == Kind::angle && !of_all && !of_circle)
      refuse_own("angle and centering for a circle");
    if (kind != Kind::angle && key == "angle") refuse_own("angle for an instrument of kind circle");
  }
}

/// Figures that come to nothing make weights without bound.
void demand_spread(const Table& table, const Instrument& instrument) {
  if (instrument.kind == Kind::angle) {
    if (instrument.angle_rad < kLeastAngleSpread_rad)
      table.refuse_table(
          "read an angle that comes to nothing; accepted: at least a tenth of a "
          "second");
    return;
  }
  if (std::hypot(instrument.constant_m, std::sqrt(2.0) * instrument.centering_m) < kLeastSpread_m)
    table.refuse_table(
        "read a constant and a centering that come to nothing; accepted: together "
        "at least 0.01 mm");
}

/// A correction needs all of its figures; half of them is a slip of the pen.
void demand_whole_corrections(const Table& table, const Instrument& instrument) {
  for (const auto& [there, missing] : {std::pair{"nominal", "actual"},
                                       {"actual", "nominal"},
                                       {"section", "modulus"},
                                       {"modulus", "section"}})
    if (table.has(there) && !table.has(missing))
      table.refuse_table(
          fmt::format("read {} without {}; accepted: both or neither", there, missing));
  for (const char* key : {"section", "weight"})
    if (table.has(key) && !instrument.standard_pull_n)
      table.refuse_table(fmt::format("read {} without standard_pull; accepted: both", key));
  if (instrument.nominal_m &&
      std::abs(*instrument.actual_m / *instrument.nominal_m - 1.0) > kMostOff)
    table.refuse_table(
        "read nominal and actual more than a tenth apart; accepted: the marked "
        "length of the tape and what it measures");
}

void ask_corrections(Table& table, Instrument& into) {
  table.length("nominal", into.nominal_m, kLengthAboveZero);
  table.length("actual", into.actual_m, kLengthAboveZero);
  table.quantity("expansion", into.expansion_per_c, Quantity::expansion, kExpansion);
  table.quantity("standard_temperature", into.standard_temperature_c, Quantity::temperature,
                 kTemperature);
  table.quantity("standard_pull", into.standard_pull_n, Quantity::pull, kPull);
  table.quantity("section", into.section_m2, Quantity::section, kSection);
  table.quantity("modulus", into.modulus_pa, Quantity::modulus, kModulus);
  table.quantity("weight", into.weight_n_per_m, Quantity::weight, kWeight);
}

Instrument instrument_from(Table& table, const std::vector<std::string>& stated) {
  std::string name;
  Instrument into;
  table
      .ask("name", name,
           [&](const toml::node& value) {
             std::string read = name_from(value);
             if (std::find(stated.begin(), stated.end(), read) != stated.end())
               throw base::InputError(fmt::format("read {} a second time; accepted: each name once",
                                                  base::in_quotes(read)));
             return read;
           })
      .needed("a name in quotes");
  table.ask("kind", into, [&](const toml::node& value) { return started(value, name); })
      .needed("\"tape\", \"laser\", \"level\" or \"circle\"");
  table.length("constant", into.constant_m, kError);
  table.number("per_length", into.per_length, kShare);
  table.length("centering", into.centering_m, kError);
  table.number("scale", into.scale, kShare);
  table.length("zero", into.zero_m, kError);
  ask_corrections(table, into);
  table.ask("angle", into.angle_rad, angle_error_from);
  table.read();
  demand_keys_of(table, into.kind);
  demand_spread(table, into);
  demand_whole_corrections(table, into);
  return into;
}

/// Of two of one name the job's own is left.
void add(Instrument instrument, std::vector<Instrument>& all) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const Instrument& known) {
    return known.name == instrument.name;
  });
  if (same == all.end())
    all.push_back(std::move(instrument));
  else
    *same = std::move(instrument);
}

// ---- [roof] and [stock]

constexpr const char* kPitches = "a pitch such as \"8/12\", \"33.7deg\" or \"0.667\"";
constexpr const char* kStockLists = "a list of 1 to 20 lengths, as in [\"8ft\", \"12ft\"]";

/// No yard sells more lengths of one timber, and each costs time in the search.
constexpr std::size_t kMostStockLengths = 20;

void ask_roof(Table& table, roof::Spec& into) {
  table
      .ask("pitch", into.pitch,
           [](const toml::node& value) {
             return base::pitch_from_text(text_or_number(value, kPitches));
           })
      .needed(kPitches);
  table.length("overhang", into.overhang_m, kLengthFromZero);
  table.length("rafter", into.rafter_m, kLengthAboveZero);
  table.length("rafter_depth", into.rafter_depth_m, kLengthAboveZero);
  table.length("hip", into.hip_m, kLengthAboveZero);
  table.length("spacing", into.spacing_m, kLengthAboveZero);
  table.length("hub", into.hub_m, kLengthFromZero);
  table.length("fascia", into.fascia_m, kLengthFromZero);
  table.word<roof::Tail>("tail", into.tail,
                         {{"square", roof::Tail::square}, {"plumb", roof::Tail::plumb}});
  table.word<roof::Eave>("eave", into.eave,
                         {{"level", roof::Eave::level}, {"even", roof::Eave::even}});
  table.word<roof::ApexOver>("apex_over", into.apex_over,
                             {{"placed center", roof::ApexOver::placed_center},
                              {"pin", roof::ApexOver::pin},
                              {"even hips", roof::ApexOver::even_hips}});
  table.length("seat", into.seat_m, kLengthFromZero);
  table.length("shortest_jack", into.shortest_jack_m, kLengthFromZero);
  table.length("beam", into.beam_m, kLengthAboveZero);
  table.length("post", into.post_m, kLengthAboveZero);
  table.length("post_height", into.post_height_m, kLengthFromZero);
  table.length("course", into.course_m, kLengthAboveZero);
  table.length("base_play", into.base_play_m, kLengthFromZero);
}

void read_roof(Table& table, Job& job) {
  ask_roof(table, job.roof);
  table.read();
  job.has_roof = true;
  const layout::Polygon plate = layout::parallel(job.plan.polygon, job.plate_offset_m);
  const auto fault = roof::fault_of(job.roof, plate, job.units);
  if (!fault) return;
  if (!table.has(fault->key))
    table.refuse_table(fmt::format("{} is left out, which means {}; accepted: {}", fault->key,
                                   fault->read, fault->accepted));
  table.value(fault->key, [&](const toml::node& value) { refuse(value, fault->accepted); });
}

roof::Stock usual_stock(Units units) {
  if (units == Units::feet_inches) return {};
  // Common practice, no source: steps of 600 mm up to 6 m.
  return {{2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0}, 0.003};
}

void read_stock(Table& table, Units units, roof::Stock& into) {
  table.ask("lengths", into.lengths_m, [&](const toml::node& value) {
    const toml::array& list = list_from(value, kStockLists);
    if (list.empty() || list.size() > kMostStockLengths)
      throw base::InputError(
          fmt::format("read a list of {}; accepted: {}", list.size(), kStockLists));
    std::vector<double> lengths_m;
    for (const toml::node& one : list) lengths_m.push_back(length_in(one, units, kLengthAboveZero));
    return lengths_m;
  });
  table.length("kerf", into.kerf_m, kLengthFromZero);
  table.read();
}

// ---- [pour]

constexpr int kMostPiers = 1000;
constexpr Range kPoured{0.0, 10.0, false, true, "a length above 0, up to 10 m (32 ft)"};
constexpr Range kWaste{0.0, 1.0, true, true, "a share from 0 to 1, as in 0.10"};
// A bag that makes less is a slip of the pen, and their count must stay a number.
constexpr Range kBagYield{1e-4, 10.0, true, true,
                          "a volume from 0.1 L to 10 m3, such as 0.6 cu ft"};

/// Two sizes of one solid come together or not at all.
void demand_whole_solids(const Table& table) {
  const auto demand_beside = [&](const char* key, const char* needed, const char* accepted) {
    if (table.has(key) && !table.has(needed))
      table.refuse_key(key, fmt::format("read it without {}; accepted: {}", needed, accepted));
  };
  for (const auto& [one, other] : {std::pair{"pier_diameter", "pier_depth"},
                                   {"pad_width", "pad_thickness"},
                                   {"edge_width", "edge_depth"}}) {
    demand_beside(one, other, "both or neither");
    demand_beside(other, one, "both or neither");
  }
  demand_beside("pad_width", "pier_diameter", "with it");
  demand_beside("piers", "pier_diameter", "with it");
  demand_beside("edge_width", "slab_thickness", "with it");
  demand_beside("slab_line", "slab_thickness", "with it");
  if (!table.has("pier_diameter") && !table.has("slab_thickness"))
    table.refuse_table(
        "read nothing to pour; accepted: pier_diameter with pier_depth, "
        "slab_thickness, or both");
}

/// The sums refuse a slab without a line, and an edge wider than its slab.
void demand_sums(const Table& table, const layout::Plan& plan, const layout::Pour& pour) {
  for (const char* key : {"slab_line", "edge_width", "slab_thickness"}) {
    if (!table.has(key)) continue;
    table.value(key, [&](const toml::node&) { return layout::pour_volumes(plan, pour); });
    return;
  }
}

void read_pour(Table& table, Job& job) {
  layout::Pour& into = job.pour.emplace();
  if (table.has("pier_diameter")) into.piers = job.plan.polygon.sides;
  table.whole("piers", into.piers, 1, kMostPiers);
  table.length("pier_diameter", into.pier_diameter_m, kPoured);
  table.length("pier_depth", into.pier_depth_m, kPoured);
  table.length("pad_width", into.pad_width_m, kPoured);
  table.length("pad_thickness", into.pad_thickness_m, kPoured);
  table.name("slab_line", into.slab_line);
  table.length("slab_thickness", into.slab_thickness_m, kPoured);
  table.length("edge_width", into.edge_width_m, kPoured);
  table.length("edge_depth", into.edge_depth_m, kPoured);
  table.number("waste", into.waste, kWaste);
  table.quantity("bag_yield", into.bag_yield_m3, Quantity::volume, kBagYield);
  table.read();
  demand_whole_solids(table);
  demand_sums(table, job.plan, into);
}

// ---- the whole file

void read_units(const toml::node& value, Table& table, Job& job) {
  job.units = word_from<Units>(
      value,
      {{"feet-inches", Units::feet_inches}, {"mm", Units::millimeters}, {"m", Units::meters}});
  table.use_units(job.units);
  job.tolerance = usual_tolerance(job.units);
  job.staking = usual_staking(job.units);
  job.stock = usual_stock(job.units);
}

Job job_from(Table& table) {
  Job job;
  job.title = "Untitled job";
  job.instruments = readings::built_in_instruments();
  std::vector<std::string> stated;  // instruments
  table.text("title", job.title, kLongestTitle);
  table.ask("units", [&](const toml::node& value) { read_units(value, table, job); })
      .needed("\"feet-inches\", \"mm\" or \"m\"");
  table.table("plan", [&](Table& plan) { read_plan(plan, job); })
      .needed("a table [plan] with sides and a size");
  table.table("site", [&](Table& site) { read_site(site, job.units, job.plan); });
  table.table("lines", [&](Table& lines) { read_lines(lines, job); });
  table.table("tolerance", [&](Table& tolerance) { read_tolerance(tolerance, job.tolerance); });
  table.table("staking", [&](Table& staking) { read_staking(staking, job.staking); });
  table.table("levels", [&](Table& levels) { read_levels(levels, job.plan, job.levels); });
  table.tables("instrument", [&](Table& instrument) {
    Instrument own = instrument_from(instrument, stated);
    stated.push_back(own.name);
    add(std::move(own), job.instruments);
  });
  table.table("roof", [&](Table& roof) { read_roof(roof, job); });
  table.table("stock", [&](Table& stock) { read_stock(stock, job.units, job.stock); });
  table.table("pour", [&](Table& pour) { read_pour(pour, job); });
  table.read();
  return job;
}

}  // namespace

Job job_from_text(std::string_view text, const std::string& name) {
  const std::string file = base::shown(name);
  const toml::table document = toml_from_text(text, file);
  Table top(document, file);
  return job_from(top);
}

Job read_job(const std::string& path) { return job_from_text(text_of_file(path), path); }

}  // namespace stakewright::job
