// What the sources that write JSON share.  Private to them, as the JSON library is.
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::output {

using Json = nlohmann::ordered_json;

/// A finite number, never -0; null for what is not finite (JSON has no infinity).
inline Json number(double value) {
  return std::isfinite(value) ? Json(value + 0.0) : Json(nullptr);
}

inline Json point(base::Point at) { return {{"x", number(at.x_m)}, {"y", number(at.y_m)}}; }

inline Json points(const std::vector<base::Point>& list) {
  Json result = Json::array();
  for (const base::Point& at : list) result.push_back(point(at));
  return result;
}

/// `id`, `values` in meters and radians, and the `sentence` that the voice tells.
Json told_json(const base::Fact& fact, const wording::Voice& voice);
Json told_json(const std::vector<base::Fact>& facts, const wording::Voice& voice);

/// The keys every result opens with.
Json opened(const std::string& command, const std::string& title);

/// The text of a result, with its line end.  A byte that is not UTF-8 becomes U+FFFD.
std::string text_of_json(const Json& json);

}  // namespace stakewright::output
