// The parts of the job file, each read in its own source.
#pragma once

#include "section.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/readings/setting_out.hpp"

namespace stakewright::job {

inline const Keys kSiteKeys = {"center", "facing", "hold", "pin", "keep_clear", "batter_setback"};
inline const Keys kLevelKeys = {"bench_mark", "height", "footings"};
inline const Keys kRoofKeys = {"pitch",       "overhang", "rafter",        "rafter_depth", "hip",
                               "spacing",     "hub",      "fascia",        "tail",         "eave",
                               "apex_over",   "seat",     "shortest_jack", "beam",         "post",
                               "post_height", "course",   "base_play"};
inline const Keys kStockKeys = {"lengths", "kerf"};
inline const Keys kPourKeys = {"piers",         "pier_diameter", "pier_depth",     "pad_width",
                               "pad_thickness", "slab_line",     "slab_thickness", "edge_width",
                               "edge_depth",    "waste",         "bag_yield"};

/// `[site]` into the plan, whose polygon is known already.
void read_site(const Section& site, base::Units units, layout::Plan& plan);

/// `[levels]`, beside the plan's own points.
levels::Wanted read_levels(const Section& section, base::Units units, const layout::Plan& plan);

/// The built-in instruments and those of `[[instrument]]`.
std::vector<readings::Instrument> read_instruments(const Section& top, base::Units units);

/// `[roof]`, over its plate line.
roof::Spec read_roof(const Section& roof, base::Units units, const layout::Polygon& plate);

/// What yards usually sell where these units are used.
roof::Stock usual_stock(base::Units units);
/// `[stock]`.
roof::Stock read_stock(const Section& stock, base::Units units);

/// `[pour]`, of a plan whose lines are known already.
layout::Pour read_pour(const Section& section, base::Units units, const layout::Plan& plan);

// Lengths most keys take.
inline constexpr Range kAnyLength = {-base::kLongestLength_m, base::kLongestLength_m, true, true,
                                     "a length"};
inline constexpr Range kLengthAboveZero = {0.0, base::kLongestLength_m, false, true,
                                           "a length above 0"};
inline constexpr Range kLengthFromZero = {0.0, base::kLongestLength_m, true, true,
                                          "a length of 0 or more"};

// What a tape is read in, and how it is pulled.
inline constexpr Range kTemperature = {readings::kColdestTape_c, readings::kWarmestTape_c, true,
                                       true, "a temperature from -40 to 60 C"};
inline constexpr Range kPull = {0.0, readings::kHardestPull_n, false, true,
                                "a pull above 0 and up to 2000 N"};

}  // namespace stakewright::job
