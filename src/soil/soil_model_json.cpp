// SPDX-License-Identifier: MIT
// Reads one file of models/soil.
#include "core/json_reader.hpp"
#include "soil/soil_model.hpp"

namespace soilclock::soil {

namespace {

struct FormName {
  SoilForm form;
  const char* name;
  std::map<std::string, std::string> units;  // of every parameter the form has
};

const std::vector<FormName>& forms() {
  static const std::map<std::string, std::string> memory{
      {"fast_memory", "d"}, {"constant", "C"}, {"warm_slope", "1"}, {"cold_slope", "1"}};
  static const std::vector<FormName> result = [] {
    std::map<std::string, std::string> two = memory;
    two.insert({{"slow_memory", "d"}, {"slow_slope", "1"}, {"radiation_slope", "C per MJ m-2 d-1"}});
    return std::vector<FormName>{{SoilForm::two_memories, "two-memories", two},
                                 {SoilForm::one_memory, "one-memory", memory},
                                 {SoilForm::canopy_recursion,
                                  "canopy-recursion",
                                  {{"cold_surface", "1"},
                                   {"open_surface", "1"},
                                   {"canopy_surface", "1"},
                                   {"leaf_extinction", "1"},
                                   {"reference_leaf_area", "m2 m-2"},
                                   {"rate", "d-1"},
                                   {"depth_extinction", "per 20 mm"},
                                   {"green_extinction", "1"},
                                   {"green_area_index", "m2 m-2"},
                                   {"leaf_per_green", "1"}}}};
  }();
  return result;
}

const FormName& form_of(const JsonObject& json) {
  std::vector<std::string> names;
  for (const FormName& form : forms()) names.emplace_back(form.name);
  const std::string chosen = json.choice("form", names);
  std::size_t index = 0;
  while (names[index] != chosen) ++index;
  return forms()[index];
}

SoilParameter measured_value(const JsonObject& json, const std::string& unit) {
  SoilParameter result{json.number("value"), json.text("unit"), json.optional_number("spread", 0.0, 1e6)};
  if (result.unit != unit) json.refuse("unit", "this unit is not the one the form uses", unit);
  json.finish();
  return result;
}

std::map<std::string, SoilParameter> parameters_of(const JsonObject& json, const FormName& form) {
  std::map<std::string, SoilParameter> result;
  for (const auto& [name, unit] : form.units) result[name] = measured_value(json.object(name), unit);
  json.finish();
  for (const char* positive : {"fast_memory", "slow_memory"}) {
    if (result.contains(positive) && !(result[positive].value > 0.0)) {
      json.refuse(positive, "a memory must be longer than nothing", "days above 0");
    }
  }
  return result;
}

std::optional<Remark> remark_of(const JsonObject& json, const char* key) {
  const auto inner = json.optional_object(key);
  if (!inner) return std::nullopt;
  Remark remark{inner->text("code"), inner->text("text")};
  inner->finish();
  return remark;
}

SoilValidity validity_of(const JsonObject& json) {
  SoilValidity result;
  const JsonObject latitude = json.object("latitude");
  result.latitude_from_deg = latitude.number("from", -90.0, 90.0);
  result.latitude_to_deg = latitude.number("to", result.latitude_from_deg, 90.0);
  latitude.finish();
  const JsonObject longitude = json.object("longitude");
  result.longitude_from_deg = longitude.number("from", -180.0, 180.0);
  result.longitude_to_deg = longitude.number("to", result.longitude_from_deg, 180.0);
  longitude.finish();
  result.note = json.text("note");
  result.inside = remark_of(json, "inside_remark");
  result.elsewhere = remark_of(json, "elsewhere_remark");
  if (result.elsewhere)
    result.elsewhere_variance_factor = json.number("elsewhere_variance_factor", 1.0, 100.0);
  json.finish();
  return result;
}

SoilErrorModel error_of(const JsonObject& json) {
  const auto part = [&json](const char* key, const char* unit, double least, double most) {
    const JsonObject inner = json.object(key);
    const double value = measured_value(inner, unit).value;
    if (value < least || value > most) inner.refuse("value", "this number is out of range");
    return value;
  };
  SoilErrorModel result;
  result.constant_variance = part("constant_variance", "K2", 0.0, 100.0);
  result.slow_variance = part("slow_variance", "K2", 0.0, 100.0);
  result.slow_days = part("slow_days", "d", 1.0, 1e4);
  result.fast_variance = part("fast_variance", "K2", 0.0, 100.0);
  result.fast_lag1 = part("fast_lag1", "1", 0.0, 0.999);
  result.season_amplitude = part("season_amplitude", "1", 0.0, 0.9);
  result.season_peak_day_of_year = part("season_peak", "day of year", 0.0, 366.0);
  result.reading_variance = part("reading_variance", "K2", 1e-4, 100.0);
  json.finish();
  return result;
}

SoilCheckPoint check_point_of(const JsonObject& json, SoilForm form) {
  SoilCheckPoint point;
  const JsonObject input = json.object("input");
  const std::vector<std::string> names =
      form == SoilForm::canopy_recursion ? std::vector<std::string>{"air_c", "soil_before_c", "depth_cm"}
      : form == SoilForm::one_memory
          ? std::vector<std::string>{"fast_memory_c"}
          : std::vector<std::string>{"fast_memory_c", "slow_memory_c", "radiation_mj_m2"};
  for (const std::string& name : names) point.input[name] = input.number(name);
  input.finish();
  point.expected_c = json.number("expected_c");
  point.tolerance_c = json.number("tolerance_c", 0.0, 5.0);
  point.origin = json.text("origin");
  json.finish();
  return point;
}

Basis basis_of(const JsonObject& json) {
  const std::string word = json.choice("basis", {"published", "derived", "common practice", "memory"});
  if (word == "published") return Basis::published;
  if (word == "derived") return Basis::derived;
  return word == "memory" ? Basis::memory : Basis::common_practice;
}

SoilModel model_of(const JsonObject& json) {
  SoilModel model;
  json.choice("format", {"soilclock-soil-model/1"});
  model.id = json.text("id");
  model.title = json.text("title");
  const FormName& form = form_of(json);
  model.form = form.form;
  model.family = json.text("family");
  if (form.form != SoilForm::canopy_recursion) {
    const JsonObject depth = json.object("depth");
    const double cm = measured_value(depth, "cm").value;
    if (cm < 2.5 || cm > 15.0) depth.refuse("value", "this depth is out of range", "2.5 to 15");
    model.depth = Depth::from_cm(cm);
    model.error = error_of(json.object("error"));
  }
  model.parameters = parameters_of(json.object("parameters"), form);
  model.validity = validity_of(json.object("validity"));
  model.sources = json.texts("sources");
  if (model.sources.empty())
    json.refuse("sources", "a model needs a source", "at least one id of sources.json");
  model.where = json.text("where");
  model.basis = basis_of(json);
  for (const JsonObject& point : json.objects("check_points")) {
    model.check_points.push_back(check_point_of(point, form.form));
  }
  model.notes = json.text("notes");
  json.finish();
  return model;
}

}  // namespace

Result<SoilModel> read_soil_model(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, model_of);
}

}  // namespace soilclock::soil
