// A program of somebody else's, built against the installed library: it lays
// out a hexagon, takes perfect readings of it, and asks for the verdict.
#include <stakewright/check/check.hpp>
#include <stakewright/layout/plan.hpp>

int main() {
  namespace sw = stakewright;
  sw::check::Input input;
  input.plan.polygon = sw::layout::polygon_from(sw::layout::Size::across_flats, 5.0, 6);
  input.instruments = sw::readings::built_in_instruments();
  for (const auto& tape : sw::layout::check_tapes(input.plan)) {
    if (tape.skip == 0) continue;
    sw::readings::Reading reading;
    reading.from = tape.from;
    reading.to = tape.to;
    reading.value_m = tape.length_m;
    reading.instrument = "steel";
    input.readings.push_back(reading);
  }
  return sw::check::exit_status(sw::check::check(input).verdict);
}
