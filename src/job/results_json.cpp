// The results of `layout` and of the writing commands as JSON, and what all results share.
// Keys, units and meaning: docs/results.md.
#include "json.hpp"
#include "stakewright/job/results.hpp"
#include "stakewright/layout/polygon.hpp"

namespace stakewright::job {
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

Json tapes_json(const std::vector<layout::Tape>& tapes) {
  Json list = Json::array();
  for (const auto& tape : tapes) {
    list.push_back({{"from", tape.from},
                    {"to", tape.to},
                    {"skip", tape.skip},
                    {"length", number(tape.length_m)}});
  }
  return list;
}

Json swings_json(const std::vector<layout::Swing>& swings) {
  Json list = Json::array();
  for (const auto& swing : swings) {
    Json from = Json::array();
    for (const auto& hold : swing.from) {
      from.push_back({{"label", hold.label}, {"length", number(hold.length_m)}});
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

}  // namespace

std::string version() { return STAKEWRIGHT_VERSION; }

Json opened(const std::string& command, const std::string& title) {
  return {{"stakewright", version()}, {"command", command}, {"job", title}, {"units", "m"}};
}

std::string text_of_json(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string layout_json(const Job& job, const LayoutResult& result) {
  Json json = opened("layout", job.title);
  json["plan"] = plan_json(job.plan.polygon);
  json["stakes"] = stakes_json(result.stakes);
  json["tapes"] = tapes_json(result.tapes);
  json["given"] = result.order.given;
  if (const auto& sighted = result.order.sighted)
    json["sighted"] = {{"stake", sighted->stake},
                       {"from", sighted->from},
                       {"length", number(sighted->length_m)},
                       {"bearing", number(sighted->bearing_rad)}};
  json["swings"] = swings_json(result.order.swings);
  json["radial_from"] = {{"at", result.radial.at},
                         {"mark", result.radial.mark},
                         {"length", number(result.radial.mark_m)}};
  json["radial"] = radial_json(result.radial);
  json["lines"] = lines_json(result.lines);
  json["strings"] = strings_json(result.strings);
  json["clearances"] = clearances_json(result.clearances);
  json["remarks"] = result.order.remarks;
  return text_of_json(json);
}

std::string written_json(const std::string& command, const std::string& title,
                         const std::string& file) {
  Json json = opened(command, title);
  json["file"] = file;
  return text_of_json(json);
}

}  // namespace stakewright::job
