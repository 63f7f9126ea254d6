// SPDX-License-Identifier: MIT
// Reads one file of models/soil.
#include <algorithm>

#include "core/json_reader.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
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
                                   {"leaf_per_green", "1"},
                                   {"compared_days", "d"},
                                   {"compared_run_in", "d"},
                                   {"compared_limit", "C"}}}};
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

void read_parameters(const JsonObject& top, const FormName& form, SoilModel& model) {
  const JsonObject list = top.object("parameters");
  for (const auto& [name, unit] : form.units) {
    model.parameters.emplace(name, read_parameter(list, name, unit, {}, model.basis));
  }
  list.finish();
  for (const char* memory : {"fast_memory", "slow_memory"}) {
    if (model.parameters.contains(memory) && !(model.parameter(memory) > 0.0))
      list.refuse(memory, "a memory must be longer than nothing", "days above 0");
  }
}

Remark read_remark(const JsonObject& object) {
  Remark remark{read_words(object, "code"), read_words(object, "text")};
  object.finish();
  return remark;
}

void read_elsewhere(const JsonObject& top, SoilModel& model) {
  if (const auto item = top.optional_object("elsewhere")) {
    const double factor = read_parameter(*item, "variance_factor", "1", {1.0, 100.0}, model.basis).value;
    model.elsewhere = ServesElsewhere{read_remark(item->object("remark")), factor};
    item->finish();
  }
  if (model.elsewhere && model.validity.weight_zero_outside) {
    top.refuse("elsewhere", "a model without weight outside its boxes cannot serve elsewhere", {},
               "write the validity's outside as 'remark', or leave this out");
  }
}

SoilErrorModel read_error(const JsonObject& json, Basis of_file) {
  const auto part = [&](const char* key, const char* unit, double least, double most) {
    return read_parameter(json, key, unit, {least, most}, of_file).value;
  };
  SoilErrorModel result;
  result.constant_variance = part("constant_variance", "K2", 0.0, 100.0);
  result.annual_cosine_variance = part("annual_cosine_variance", "K2", 0.0, 100.0);
  result.annual_sine_variance = part("annual_sine_variance", "K2", 0.0, 100.0);
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

/// The temperature a check point asks for; nothing when its inputs are not those of the form.
std::optional<double> check_value(const SoilModel& model, const CheckPoint& point) {
  const std::vector<std::string> names =
      model.form == SoilForm::canopy_recursion
          ? std::vector<std::string>{"air_c", "soil_before_c", "depth_cm"}
      : model.form == SoilForm::one_memory
          ? std::vector<std::string>{"fast_memory_c"}
          : std::vector<std::string>{"fast_memory_c", "slow_memory_c", "radiation_mj_m2"};
  const bool fits = point.input.size() == names.size() &&
                    std::all_of(names.begin(), names.end(),
                                [&](const std::string& name) { return point.input.contains(name); });
  if (point.quantity != "soil temperature" || !fits) return std::nullopt;
  return value_at(model, point.input);
}

SoilModel read_model(const JsonObject& top, const std::string& file) {
  SoilModel model;
  read_model_head(top, file, "soilclock-soil-model/1", model);
  const FormName& form = form_of(top);
  model.form = form.form;
  model.family = read_words(top, "family");
  if (form.form != SoilForm::canopy_recursion) {
    model.depth = Depth::from_cm(read_parameter(top, "depth", "cm", {2.5, 15.0}, model.basis).value);
    model.error = read_error(top.object("error"), model.basis);
  }
  read_parameters(top, form, model);
  if (const auto remark = top.optional_object("remark")) model.remark = read_remark(*remark);
  read_elsewhere(top, model);
  top.finish();
  demand_check_points(top, model.check_points,
                      [&](const CheckPoint& point) { return check_value(model, point); });
  return model;
}

}  // namespace

Result<SoilModel> read_soil_model(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) { return read_model(top, file); });
}

}  // namespace soilclock::soil
