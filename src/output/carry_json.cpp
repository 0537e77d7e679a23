// The roof as planned and as found as JSON.  Keys, units and meaning: docs/results.md.
#include <string>
#include <vector>

#include "carry_json.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/results/carry.hpp"

namespace stakewright::output {
namespace {

const char* word_of(roof::Fit fit) {
  switch (fit) {
    case roof::Fit::try_pattern:
      return "try pattern";
    case roof::Fit::own:
      return "own";
    case roof::Fit::pattern:
      break;
  }
  return "pattern";
}

/// `found`, `difference` and `uncertainty` are there only with readings, and `cut` with them.
void add_figure(Json& to, const roof::Figure& figure) {
  to["planned"] = number(figure.planned);
  if (figure.found) to["found"] = number(*figure.found);
  if (figure.difference) to["difference"] = number(*figure.difference);
  if (figure.uncertainty) to["uncertainty"] = number(*figure.uncertainty);
}

Json figure_json(const roof::Figure& figure) {
  Json json = Json::object();
  add_figure(json, figure);
  return json;
}

Json parts_json(const std::vector<roof::Part>& parts) {
  Json list = Json::array();
  for (const auto& part : parts) {
    Json entry = {{"part", roof::name_of(part.kind)}, {"at", roof::text_from_place(part.at)}};
    add_figure(entry, part.line);
    entry["shortening"] = number(part.shortening_m);
    entry["tail"] = number(part.tail_m);
    entry["overall"] = number(part.overall_m);
    entry["heel"] = number(part.heel_m);
    entry["notch"] = number(part.notch_m);
    entry["drop"] = number(part.drop_m);
    entry["from_corner"] = number(part.from_corner_m);
    if (part.line.found) entry["cut"] = word_of(part.fit);
    list.push_back(entry);
  }
  return list;
}

Json cuts_json(const std::vector<roof::Cut>& cuts) {
  Json list = Json::array();
  for (const auto& cut : cuts) {
    Json entry = {{"part", roof::name_of(cut.part)},
                  {"at", roof::text_from_place(cut.at)},
                  {"name", roof::name_of(cut.name)}};
    add_figure(entry, cut.angle);
    entry["lever"] = number(cut.lever_m);
    if (cut.angle.found) entry["cut"] = word_of(cut.fit);
    entry["setting"] = {{"square", number(cut.setting.square)},
                        {"miter", number(cut.setting.miter_rad)},
                        {"bevel", number(cut.setting.bevel_rad)},
                        {"past_tilt", cut.setting.past_tilt},
                        {"set_back", number(cut.setting.set_back_m)}};
    list.push_back(entry);
  }
  return list;
}

Json eaves_json(const std::vector<roof::EaveSide>& eaves) {
  Json list = Json::array();
  for (const auto& eave : eaves) {
    list.push_back({{"at", roof::text_from_place(eave.at)},
                    {"overhang", figure_json(eave.overhang)},
                    {"drop", figure_json(eave.drop)}});
  }
  return list;
}

Json courses_json(const std::vector<roof::Course>& courses) {
  Json list = Json::array();
  for (const auto& course : courses) {
    list.push_back({{"up", number(course.up_m)},
                    {"lower", number(course.lower_m)},
                    {"upper", number(course.upper_m)}});
  }
  return list;
}

Json sheets_json(const std::vector<roof::Sheet>& sheets) {
  Json list = Json::array();
  for (const auto& sheet : sheets) {
    Json entry = {
        {"at", roof::text_from_place(sheet.at)},       {"base", figure_json(sheet.base)},
        {"height", figure_json(sheet.height)},         {"left_edge", figure_json(sheet.left_edge)},
        {"right_edge", figure_json(sheet.right_edge)}, {"area", number(sheet.area_m2)},
        {"courses", courses_json(sheet.courses)},      {"unborne", number(sheet.unborne_m)}};
    if (sheet.base.found) entry["cut"] = word_of(sheet.fit);
    list.push_back(entry);
  }
  return list;
}

Json joints_json(const std::vector<roof::Joint>& joints) {
  Json list = Json::array();
  for (const auto& joint : joints) {
    list.push_back({{"at", roof::text_from_place(joint.at)},
                    {"what", roof::name_of(joint.what)},
                    {"gap", number(joint.gap_m)},
                    {"uncertainty", number(joint.uncertainty_m)},
                    {"closes", joint.closes}});
  }
  return list;
}

}  // namespace

std::string carry_json(const job::Job& job, const results::CarryResult& result,
                       const wording::Voice& voice) {
  const roof::Carry& carry = result.carry();
  Json json = opened("carry", job.title);
  if (!result.cases.empty()) {
    json["shown"] = word_of(result.cases[result.shown].way);
    json["what_if"] = ways_json(job, result);
  }
  json["apex"] = {{"x", number(carry.apex.at.x_m)},
                  {"y", number(carry.apex.at.y_m)},
                  {"height", number(carry.apex.height_m)}};
  json["parts"] = parts_json(carry.parts);
  json["cuts"] = cuts_json(carry.cuts);
  json["eaves"] = eaves_json(carry.eaves);
  json["sheets"] = sheets_json(carry.sheets);
  if (!carry.joints.empty()) json["joints"] = joints_json(carry.joints);
  json["corner_need"] = need_json(result.need);
  if (result.shift) json["sensitivity"] = shift_json(*result.shift);
  if (result.cut_sheet) json["cut_sheet"] = cut_sheet_json(*result.cut_sheet);
  json["remarks"] = told_json(result.remarks, voice);
  return text_of_json(json);
}

}  // namespace stakewright::output
