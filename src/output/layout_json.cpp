// The results of `layout` and of the writing commands as JSON, and what all results share.
// Keys, units and meaning: docs/results.md.
#include "json.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/polygon.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/results/version.hpp"

namespace stakewright::output {
namespace {

Json plan_json(const layout::Polygon& polygon) {
  return {{"sides", polygon.sides},
          {"side", number(layout::side_m(polygon))},
          {"corner_radius", number(polygon.corner_radius_m)},
          {"flat_radius", number(layout::flat_radius_m(polygon))},
          {"area", number(layout::area_m2(polygon))},
          {"perimeter", number(layout::perimeter_m(polygon))},
          {"interior_angle", number(layout::interior_angle_rad(polygon))}};
}

Json stakes_json(const std::vector<layout::Stake>& stakes) {
  Json list = Json::array();
  for (const auto& stake : stakes) {
    list.push_back(
        {{"label", stake.label}, {"x", number(stake.at.x_m)}, {"y", number(stake.at.y_m)}});
  }
  return list;
}

/// `entry` with what to read on the tape, when the layout is for one.
Json with_reading(Json entry, double length_m, const std::optional<results::WithTape>& with) {
  if (with) entry["read"] = number(readings::reading_for_m(length_m, with->tape, with->held));
  return entry;
}

Json with_json(const std::optional<results::WithTape>& with) {
  if (!with) return nullptr;
  const auto figure = [](const std::optional<double>& value) {
    return value ? number(*value) : Json(nullptr);
  };
  return {{"instrument", with->tape.name},
          {"temperature", figure(with->held.temperature_c)},
          {"pull", figure(with->held.pull_n)}};
}

Json tapes_json(const std::vector<layout::Tape>& tapes,
                const std::optional<results::WithTape>& with) {
  Json list = Json::array();
  for (const auto& tape : tapes) {
    list.push_back(with_reading({{"from", tape.from},
                                 {"to", tape.to},
                                 {"skip", tape.skip},
                                 {"length", number(tape.length_m)}},
                                tape.length_m, with));
  }
  return list;
}

Json swings_json(const std::vector<layout::Swing>& swings,
                 const std::optional<results::WithTape>& with) {
  Json list = Json::array();
  for (const auto& swing : swings) {
    Json from = Json::array();
    for (const auto& hold : swing.from) {
      from.push_back(with_reading({{"label", hold.label}, {"length", number(hold.length_m)}},
                                  hold.length_m, with));
    }
    list.push_back({{"stake", swing.stake},
                    {"from", from},
                    {"hand", swing.hand == layout::Hand::left ? "left" : "right"},
                    {"crossing", number(swing.crossing_rad)},
                    {"sd", number(swing.sd_m)}});
  }
  return list;
}

Json radial_json(const layout::Radial& radial) {
  Json list = Json::array();
  for (const auto& stake : radial.stakes) {
    list.push_back({{"stake", stake.stake},
                    {"angle", number(stake.angle_rad)},
                    {"length", number(stake.length_m)}});
  }
  return list;
}

Json lines_json(const std::vector<layout::LineFigures>& lines) {
  Json list = Json::array();
  for (const auto& line : lines) {
    list.push_back({{"name", line.name},
                    {"offset", number(line.offset_m)},
                    {"side", number(line.side_m)},
                    {"corner_radius", number(line.corner_radius_m)},
                    {"area", number(line.area_m2)},
                    {"corners", points(line.corners)}});
  }
  return list;
}

Json strings_json(const std::vector<layout::String>& strings) {
  Json list = Json::array();
  for (const auto& string : strings) {
    list.push_back({{"side", string.side},
                    {"nail_before", point(string.nail_before)},
                    {"nail_after", point(string.nail_after)},
                    {"setback", number(string.setback_m)},
                    {"length", number(string.length_m)}});
  }
  return list;
}

Json clearances_json(const std::vector<layout::Clearance>& clearances) {
  Json list = Json::array();
  for (const auto& clearance : clearances) {
    list.push_back({{"line", clearance.line},
                    {"outline", clearance.outline},
                    {"distance", number(clearance.distance_m)},
                    {"crosses", clearance.crosses},
                    {"beyond", number(clearance.beyond_m)},
                    {"crossings", points(clearance.crossings)}});
  }
  return list;
}

/// Each pin with the lines it stands within.
Json pins_json(const job::Job& job, const std::vector<layout::PinWithin>& pins_within) {
  Json list = Json::array();
  for (const layout::Pin& pin : job.plan.pins) {
    Json within = Json::array();
    for (const auto& found : pins_within)
      if (found.pin == pin.name)
        within.push_back({{"line", found.line}, {"depth", number(found.depth_m)}});
    list.push_back({{"name", pin.name},
                    {"x", number(pin.at.x_m)},
                    {"y", number(pin.at.y_m)},
                    {"within", within}});
  }
  return list;
}

/// A solid that is not poured is left out.
Json pour_json(const layout::Pour& pour, const layout::PourVolumes& volumes) {
  Json json = Json::object();
  if (pour.pier_diameter_m > 0.0)
    json["piers"] = {{"count", pour.piers},
                     {"diameter", number(pour.pier_diameter_m)},
                     {"depth", number(pour.pier_depth_m)},
                     {"volume", number(volumes.piers_m3)}};
  if (pour.pad_width_m > 0.0)
    json["pads"] = {{"count", pour.piers},
                    {"width", number(pour.pad_width_m)},
                    {"thickness", number(pour.pad_thickness_m)},
                    {"volume", number(volumes.pads_m3)}};
  if (pour.slab_thickness_m > 0.0)
    json["slab"] = {{"line", pour.slab_line},
                    {"area", number(volumes.slab_area_m2)},
                    {"thickness", number(pour.slab_thickness_m)},
                    {"volume", number(volumes.slab_m3)}};
  if (pour.edge_width_m > 0.0)
    json["edge"] = {{"width", number(pour.edge_width_m)},
                    {"depth", number(pour.edge_depth_m)},
                    {"volume", number(volumes.edge_m3)}};
  json["net"] = number(volumes.net_m3);
  json["waste_share"] = number(pour.waste);
  json["waste"] = number(volumes.waste_m3);
  json["order"] = number(volumes.order_m3);
  json["bags"] = volumes.bags ? Json(*volumes.bags) : Json(nullptr);
  return json;
}

}  // namespace

Json opened(const std::string& command, const std::string& title) {
  return {
      {"stakewright", results::version()}, {"command", command}, {"job", title}, {"units", "m"}};
}

std::string text_of_json(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string layout_json(const job::Job& job, const results::LayoutResult& result) {
  Json json = opened("layout", job.title);
  json["plan"] = plan_json(job.plan.polygon);
  json["stakes"] = stakes_json(result.stakes);
  json["tapes"] = tapes_json(result.tapes, result.with);
  json["with"] = with_json(result.with);
  json["given"] = result.order.given;
  if (const auto& sighted = result.order.sighted)
    json["sighted"] = {{"stake", sighted->stake},
                       {"from", sighted->from},
                       {"length", number(sighted->length_m)},
                       {"bearing", number(sighted->bearing_rad)}};
  json["swings"] = swings_json(result.order.swings, result.with);
  json["radial_from"] = {{"at", result.radial.at},
                         {"mark", result.radial.mark},
                         {"length", number(result.radial.mark_m)}};
  json["radial"] = radial_json(result.radial);
  json["lines"] = lines_json(result.lines);
  json["strings"] = strings_json(result.strings);
  json["clearances"] = clearances_json(result.clearances);
  json["pins"] = pins_json(job, result.pins_within);
  json["pour"] = result.pour ? pour_json(*job.pour, *result.pour) : Json(nullptr);
  json["remarks"] = result.order.remarks;
  return text_of_json(json);
}

std::string written_json(const std::string& command, const std::string& title,
                         const std::string& file) {
  Json json = opened(command, title);
  json["file"] = file;
  return text_of_json(json);
}

}  // namespace stakewright::output
