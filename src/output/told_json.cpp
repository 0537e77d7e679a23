// What is told to people, for programs: an id, its values, and the sentence.
#include "json.hpp"

namespace stakewright::output {
namespace {

Json value_json(const base::Value& value);

Json values_json(const base::Fact& fact) {
  Json values = Json::object();
  for (const base::Hole& hole : fact.holes) values[std::string(hole.name)] = value_json(hole.value);
  return values;
}

struct Writing {
  Json operator()(const base::Nothing& /*nothing*/) const { return nullptr; }
  Json operator()(const base::Name& name) const { return name.text; }
  Json operator()(const base::Quoted& quoted) const { return quoted.text; }
  Json operator()(const base::ReadingName& reading) const {
    if (reading.of < 2) return reading.points;
    return {{"points", reading.points}, {"number", reading.which + 1}, {"of", reading.of}};
  }
  Json operator()(const base::Length& length) const { return number(length.m); }
  Json operator()(const base::RoughLength& length) const { return number(length.m); }
  Json operator()(const base::Angle& angle) const { return number(angle.rad); }
  Json operator()(const base::RoughAngle& angle) const { return number(angle.rad); }
  Json operator()(const base::Directed& directed) const { return std::visit(*this, directed.size); }
  Json operator()(const base::Offset& offset) const {
    return {{"outward", number(offset.outward_m)}, {"sideways", number(offset.sideways_m)}};
  }
  Json operator()(const base::Chance& chance) const { return number(chance.value); }
  Json operator()(const base::Number& plain) const { return number(plain.value); }
  Json operator()(const base::Count& count) const { return count.value; }
  Json operator()(const base::Area& area) const { return number(area.m2); }
  Json operator()(const base::Volume& volume) const { return number(volume.m3); }
  Json operator()(const base::Fact& fact) const {
    return {{"id", std::string(fact.id.text())}, {"values", values_json(fact)}};
  }
  Json operator()(const base::List& list) const {
    Json items = Json::array();
    for (const base::Value& item : list.items) items.push_back(value_json(item));
    return items;
  }
};

Json value_json(const base::Value& value) {
  return std::visit(Writing{}, static_cast<const base::AnyValue&>(value));
}

}  // namespace

Json told_json(const base::Fact& fact, const wording::Voice& voice) {
  return {{"id", std::string(fact.id.text())},
          {"values", values_json(fact)},
          {"sentence", voice.text(fact)}};
}

Json told_json(const std::vector<base::Fact>& facts, const wording::Voice& voice) {
  Json list = Json::array();
  for (const base::Fact& fact : facts) list.push_back(told_json(fact, voice));
  return list;
}

}  // namespace stakewright::output
