#include "job_parts.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::job {

roof::Spec read_roof(const Section& roof, base::Units units) {
  const auto above_zero = [units](const Value& v) { return length_in(v, units, kLengthAboveZero); };
  const auto from_zero = [units](const Value& v) { return length_in(v, units, kLengthFromZero); };
  constexpr const char* pitches = "a pitch such as \"8/12\", \"33.7deg\" or \"0.667\"";
  roof::Spec spec;
  spec.pitch = roof.read(roof.demand("pitch", pitches), [](const Value& value) {
    return base::pitch_from_text(text_or_number(value, pitches));
  });
  roof.read("overhang", spec.overhang_m, from_zero);
  roof.read("rafter", spec.rafter_m, above_zero);
  roof.read("rafter_depth", spec.rafter_depth_m, above_zero);
  roof.read("hip", spec.hip_m, above_zero);
  roof.read("spacing", spec.spacing_m, above_zero);
  roof.read("hub", spec.hub_m, from_zero);
  roof.read("fascia", spec.fascia_m, from_zero);
  roof.read("tail", spec.tail, [](const Value& value) {
    return word_from<roof::Tail>(value,
                                 {{"square", roof::Tail::square}, {"plumb", roof::Tail::plumb}});
  });
  roof.read("eave", spec.eave, [](const Value& value) {
    return word_from<roof::Eave>(value, {{"level", roof::Eave::level}, {"even", roof::Eave::even}});
  });
  roof.read("apex_over", spec.apex_over, [](const Value& value) {
    return word_from<roof::ApexOver>(value, {{"placed centre", roof::ApexOver::placed_centre},
                                             {"pin", roof::ApexOver::pin},
                                             {"even hips", roof::ApexOver::even_hips}});
  });
  return spec;
}

}  // namespace stakewright::job
