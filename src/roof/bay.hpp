// One bay of the roof: the hip and post of a corner and everything over the side that
// follows it, as parts and cuts.
#pragma once

#include <string>
#include <vector>

#include "exact.hpp"
#include "faces.hpp"
#include "plate.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// Names of a bay: its corner "B" and its side "B-C".
struct BayNames {
  std::string corner;
  std::string side;
};

struct BayPart {
  Part part;  ///< without its line
  Linear line;
};

struct BayCut {
  Cut cut;  ///< without its angle
  Linear angle;
  double lever_m = 0.0;  ///< over which an error of the angle opens into a gap
};

struct BayEave {
  std::string at;
  Linear overhang;
  Linear drop;
};

struct Bay {
  BayNames names;
  BayFigures exact;
  std::vector<BayPart> parts;
  std::vector<BayCut> cuts;
  std::vector<BayEave> eaves;
};

/// What a bay is made on: the roof, and the bay's geometry in plain numbers.
struct Bench {
  const Roof& roof;
  const Surroundings<double> around;
  Bay bay;

  void add(Part part, const Linear& line);
  void cut(PartKind kind, const std::string& at, const std::string& name, const Linear& angle,
           const Setting& setting, double lever_m);
};

/// A part of a kind at a place, nothing known of it yet.
Part named(PartKind kind, const std::string& at);

void add_hip(Bench& bench);
void add_common(Bench& bench);
void add_jacks(Bench& bench);
void add_blocking(Bench& bench);
void add_fascia(Bench& bench);
void add_beam_and_post(Bench& bench);
void add_hub_corner(Bench& bench);

/// The bay of the window's second corner (the hip) and of the side to the third.
/// Parts and cuts come in the same order for every window.
Bay bay(const Roof& roof, const Window<double>& window, const BayNames& names);

/// The bays of all corners.
std::vector<Bay> bays(const Roof& roof, const Plate& plate);

}  // namespace stakewright::roof
