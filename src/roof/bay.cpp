#include "bay.hpp"

#include <utility>

namespace stakewright::roof {

void Bench::add(Part part, const Linear& line) { bay.parts.push_back({std::move(part), line}); }

void Bench::cut(PartKind kind, const std::string& at, const std::string& name, const Linear& angle,
                const Setting& setting, double lever_m) {
  Cut one;
  one.part = kind;
  one.at = at;
  one.name = name;
  one.setting = setting;
  bay.cuts.push_back({std::move(one), angle, lever_m});
}

Part named(PartKind kind, const std::string& at) {
  Part part;
  part.kind = kind;
  part.at = at;
  return part;
}

Bay bay(const Roof& roof, const Window<double>& window, const BayNames& names) {
  Bench bench{roof, surroundings(window), {names, exact_figures(roof, window), {}, {}, {}}};
  add_hip(bench);
  add_common(bench);
  add_jacks(bench);
  add_blocking(bench);
  add_fascia(bench);
  add_beam_and_post(bench);
  add_hub_corner(bench);
  bench.bay.eaves.push_back({names.side, bench.bay.exact.overhang, bench.bay.exact.drop});
  return std::move(bench.bay);
}

std::vector<Bay> bays(const Roof& roof, const Plate& plate) {
  const auto labels = layout::corner_labels(static_cast<int>(plate.corners.size()));
  std::vector<Bay> result;
  for (std::size_t i = 0; i < labels.size(); ++i)
    result.push_back(
        bay(roof, plate.window(i), {labels[i], labels[i] + "-" + labels[(i + 1) % labels.size()]}));
  return result;
}

}  // namespace stakewright::roof
