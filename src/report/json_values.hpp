// SPDX-License-Identifier: MIT
// How values are written in every JSON document of the program. The only header of this floor that names the
// JSON library.
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "core/band.hpp"
#include "core/problem.hpp"
#include "core/remark.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::report {

using Json = nlohmann::ordered_json;

/// A number rounded to so many decimals; null when it is not a number, which JSON cannot say.
inline Json rounded(double value, int decimals) {
  if (!std::isfinite(value)) return nullptr;
  const double scale = std::pow(10.0, decimals);
  const double result = std::round(value * scale) / scale;
  return result == 0.0 ? 0.0 : result;  // no minus zero
}

inline Json date(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }

inline Json date_band(const DateBand& band) {
  return {{"date", date(band.middle)}, {"early", date(band.low)}, {"late", date(band.high)}};
}

inline Json percent_band(const Band<double>& band) {
  return {
      {"percent", rounded(band.middle, 1)}, {"low", rounded(band.low, 1)}, {"high", rounded(band.high, 1)}};
}

inline Json kind_json(const std::optional<treatment::Kind>& kind) {
  return kind ? Json(treatment::name(*kind)) : Json(nullptr);
}

inline Json remark_json(const Remark& remark) { return {{"code", remark.code}, {"text", remark.text}}; }

inline Json problem_json(const Problem& problem) {
  Json json = {{"text", describe(problem)}};
  if (!problem.where.file.empty()) json["file"] = problem.where.file;
  if (problem.where.line) json["line"] = *problem.where.line;
  if (problem.where.column) json["column"] = *problem.where.column;
  if (!problem.where.json_pointer.empty()) json["place"] = problem.where.json_pointer;
  return json;
}

/// Text with broken bytes replaced instead of an exception: what users name files and sites is not ours to
/// refuse here.
inline std::string dumped(const Json& json, int indent) {
  return json.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace soilclock::report
