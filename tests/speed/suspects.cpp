// How long the suspects, the next tape and the tape plan take.

#include <benchmark/benchmark.h>

#include "stakewright/suspects/tapes.hpp"
#include "suspects/scene.hpp"

namespace stakewright {
namespace {

constexpr std::size_t kMostReadings = 300;

adjustment::Network everything_taped(std::size_t n, bool slip, bool stake) {
  std::mt19937_64 random(7);
  adjustment::Network network = scene::polygon(n);
  std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, random);
  if (stake) places[3] = 1.01 * places[3];
  std::vector<scene::Pair> pairs =
      scene::both(scene::both(scene::sides(n), scene::diagonals(n)), scene::radii(n));
  pairs.resize(std::min(pairs.size(), kMostReadings));
  scene::read_all(network, places, pairs, random);
  if (slip) scene::add_slip(network, 9, 12.0 * scene::kInch_m);
  scene::write_in_feet_inches(network);
  return network;
}

/// Corners, a slip or not, a stake set wrong or not.
void weigh(benchmark::State& state) {
  const adjustment::Network network = everything_taped(static_cast<std::size_t>(state.range(0)),
                                                       state.range(1) != 0, state.range(2) != 0);
  for (auto _ : state) benchmark::DoNotOptimize(suspects::weigh(network, scene::setting()));
  state.counters["readings"] = static_cast<double>(network.observations.size());
}
BENCHMARK(weigh)
    ->Unit(benchmark::kMillisecond)
    ->Args({8, 0, 0})
    ->Args({8, 1, 0})
    ->Args({8, 1, 1})
    ->Args({24, 0, 0})
    ->Args({24, 1, 1});

void next_tapes(benchmark::State& state) {
  adjustment::Network network = scene::polygon(static_cast<std::size_t>(state.range(0)));
  std::mt19937_64 random(7);
  scene::read_all(network, scene::staked(network, scene::kSpread_m, random),
                  scene::diagonals(network.corner_count), random);
  scene::add_slip(network, 2, 0.4 * scene::kInch_m);
  scene::write_in_feet_inches(network);
  const suspects::Suspects found = suspects::weigh(network, scene::setting());
  for (auto _ : state)
    benchmark::DoNotOptimize(suspects::next_tapes(network, found, scene::setting()));
}
BENCHMARK(next_tapes)->Unit(benchmark::kMillisecond)->Arg(8)->Arg(24);

void tape_plan(benchmark::State& state) {
  layout::Plan plan;
  plan.polygon = {static_cast<int>(state.range(0)), scene::kRadius_m};
  suspects::TapePlanRequest request;
  request.instrument = scene::polygon(3).instruments.front();
  request.slip_m = scene::kInch_m;
  for (auto _ : state) benchmark::DoNotOptimize(suspects::tape_plan(plan, request));
}
BENCHMARK(tape_plan)->Unit(benchmark::kMillisecond)->Arg(8)->Arg(12)->Arg(24);

}  // namespace
}  // namespace stakewright
