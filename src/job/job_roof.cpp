#include <fmt/format.h>

#include "job_parts.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::job {
namespace {

constexpr const char* kPitches = "a pitch such as \"8/12\", \"33.7deg\" or \"0.667\"";

constexpr const char* kStockLists = "a list of 1 to 20 lengths, as in [\"8ft\", \"12ft\"]";

/// No yard sells more lengths of one timber, and each costs time in the search.
constexpr std::size_t kMostStockLengths = 20;

void read_sizes(const Section& roof, base::Units units, roof::Spec& spec) {
  const auto above_zero = [units](const Value& v) { return length_in(v, units, kLengthAboveZero); };
  const auto from_zero = [units](const Value& v) { return length_in(v, units, kLengthFromZero); };
  roof.read("overhang", spec.overhang_m, from_zero);
  roof.read("rafter", spec.rafter_m, above_zero);
  roof.read("rafter_depth", spec.rafter_depth_m, above_zero);
  roof.read("hip", spec.hip_m, above_zero);
  roof.read("spacing", spec.spacing_m, above_zero);
  roof.read("hub", spec.hub_m, from_zero);
  roof.read("fascia", spec.fascia_m, from_zero);
  roof.read("seat", spec.seat_m, from_zero);
  roof.read("shortest_jack", spec.shortest_jack_m, from_zero);
  roof.read("beam", spec.beam_m, above_zero);
  roof.read("post", spec.post_m, above_zero);
  roof.read("post_height", spec.post_height_m, from_zero);
  roof.read("course", spec.course_m, above_zero);
  roof.read("base_play", spec.base_play_m, from_zero);
}

void read_words(const Section& roof, roof::Spec& spec) {
  roof.read("tail", spec.tail, [](const Value& value) {
    return word_from<roof::Tail>(value,
                                 {{"square", roof::Tail::square}, {"plumb", roof::Tail::plumb}});
  });
  roof.read("eave", spec.eave, [](const Value& value) {
    return word_from<roof::Eave>(value, {{"level", roof::Eave::level}, {"even", roof::Eave::even}});
  });
  roof.read("apex_over", spec.apex_over, [](const Value& value) {
    return word_from<roof::ApexOver>(value, {{"placed center", roof::ApexOver::placed_center},
                                             {"pin", roof::ApexOver::pin},
                                             {"even hips", roof::ApexOver::even_hips}});
  });
}

/// The fault stands at its key or, where that is left out, at the table.
[[noreturn]] void refuse(const Section& roof, const roof::SpecFault& fault) {
  if (const Entry* entry = roof.find(fault.key))
    roof.refuse(*entry,
                fmt::format("read {}; accepted: {}", words_of(entry->value), fault.accepted));
  throw base::InputError(fmt::format("{}: {} is left out, which means {}; accepted: {}",
                                     roof.place(), fault.key, fault.read, fault.accepted));
}

}  // namespace

roof::Spec read_roof(const Section& roof, base::Units units, const layout::Polygon& plate) {
  roof::Spec spec;
  spec.pitch = roof.read(roof.demand("pitch", kPitches), [](const Value& value) {
    return base::pitch_from_text(text_or_number(value, kPitches));
  });
  read_sizes(roof, units, spec);
  read_words(roof, spec);
  if (const auto fault = roof::fault_of(spec, plate, units)) refuse(roof, *fault);
  return spec;
}

roof::Stock usual_stock(base::Units units) {
  if (units == base::Units::feet_inches) return {};
  // Common practice, no source: steps of 600 mm up to 6 m.
  return {{2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0}, 0.003};
}

roof::Stock read_stock(const Section& stock, base::Units units) {
  roof::Stock result = usual_stock(units);
  stock.read("lengths", result.lengths_m, [units](const Value& value) {
    const List& list = list_from(value, kStockLists);
    if (list.empty() || list.size() > kMostStockLengths)
      throw base::InputError(
          fmt::format("read a list of {}; accepted: {}", list.size(), kStockLists));
    std::vector<double> lengths_m;
    for (const Value& one : list) lengths_m.push_back(length_in(one, units, kLengthAboveZero));
    return lengths_m;
  });
  stock.read("kerf", result.kerf_m,
             [units](const Value& v) { return length_in(v, units, kLengthFromZero); });
  return result;
}

}  // namespace stakewright::job
