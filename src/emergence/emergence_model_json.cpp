// SPDX-License-Identifier: MIT
// From the text of a model file to an EmergenceModel; the fields are described in models/README.md.
#include <fmt/format.h>

#include <algorithm>

#include "emergence/emergence_model.hpp"
#include "emergence/model_fields.hpp"

namespace soilclock::emergence {

namespace {

constexpr int form_count = 10;

Form read_form(const JsonObject& object) {
  std::vector<std::string> words;
  words.reserve(form_count);
  for (int i = 0; i < form_count; ++i) words.emplace_back(form_name(static_cast<Form>(i)));
  const std::string word = object.choice("form", words);
  return static_cast<Form>(std::find(words.begin(), words.end(), word) - words.begin());
}

/// The parameters a model of this form needs, in the units of a thermal sum.
std::vector<ParameterInfo> wanted_parameters(const EmergenceModel& model) {
  if (model.form != Form::thermal_curve) return form_info(model.form).parameters;
  std::vector<ParameterInfo> wanted;
  for (const CurveFormInfo& info : curve_forms()) {
    if (info.name == model.curve_form) wanted = info.parameters;
  }
  for (ParameterInfo& parameter : wanted) {
    if (parameter.unit == "x") parameter.unit = "C d";
    if (parameter.unit == "1/x") parameter.unit = "1/(C d)";
  }
  return wanted;
}

void read_parameters(const JsonObject& object, EmergenceModel& model) {
  const JsonObject list = object.object("parameters");
  for (const ParameterInfo& wanted : wanted_parameters(model)) {
    model.parameters.emplace(wanted.name, read_drawn_parameter(list, wanted.name, wanted.unit, model.basis));
  }
  list.finish();
  for (const auto& [name, parameter] : model.parameters) {
    const std::string& other = parameter.spread.opposite_to;
    if (other.empty()) continue;
    const auto found = model.parameters.find(other);
    if (found == model.parameters.end() || !found->second.spread.opposite_to.empty() || other == name) {
      list.object(name).object("spread").refuse("opposite_to",
                                                "this is not another parameter drawn by itself");
    }
  }
}

void read_dates(const JsonObject& object, EmergenceModel& model) {
  const FormInfo& info = form_info(model.form);
  if (info.dates.empty()) return;
  const JsonObject list = object.object("dates");
  for (const std::string& name : info.dates) model.dates.emplace(name, read_month_day(list, name));
  list.finish();
}

Driver read_driver(const JsonObject& object, Basis of_file) {
  const JsonObject item = object.object("driver");
  Driver driver;
  driver.variable = item.choice("variable", {"soil temperature", "air temperature", "calendar"});
  if (driver.variable == "soil temperature")
    driver.depth = Depth::from_cm(read_parameter(item, "depth", "cm", {}, of_file).value);
  driver.statistic = item.choice("statistic", {"daily mean", "trailing 7-day mean", "day"});
  item.finish();
  return driver;
}

Follows read_follows(const JsonObject& object, Basis of_file) {
  const JsonObject item = object.object("follows");
  Follows follows{read_words(item, "model"), std::nullopt};
  follows.scale = read_scale(item, "scale", of_file);
  item.finish();
  return follows;
}

void demand_hydrothermal_sense(const JsonObject& list, const EmergenceModel& model) {
  for (const std::string name : {"a", "b"}) {
    if (!(model.parameter(name) > 0.0)) list.refuse(name, "this must be above 0");
  }
  if (model.parameter("base_water_potential") >= 0.0)
    list.refuse("base_water_potential", "this must be below 0");
  if (model.parameter("water_potential_rise") < 0.0)
    list.refuse("water_potential_rise", "this must not be below 0");
  if (const double speed = model.parameter("unknown_water_speed"); speed < 0.0 || speed > 1.0)
    list.refuse("unknown_water_speed", "a speed must be 0 to 1");
}

/// Numbers that are each fine but make no sense together.
void demand_sense(const JsonObject& object, const EmergenceModel& model) {
  const JsonObject list = object.object("parameters");
  if (model.form == Form::hydrothermal_time) demand_hydrothermal_sense(list, model);
  if (const auto curve = response_curve(model, central_parameters(model))) {
    if (const auto problem = problem_of(curve->form())) {
      list.refuse(problem->substr(0, problem->find(' ')), *problem);
    }
  }
  if (model.scale && model.parameters.contains("base_temperature") &&
      model.scale->lower.celsius() != model.parameter("base_temperature")) {
    object.object("scale").refuse(
        "lower", "the scale has another base than the model",
        fmt::format("{} C, as base_temperature", model.parameter("base_temperature")));
  }
  if (model.form == Form::cooling_curve && model.scale->method != "cooling") {
    object.object("scale").refuse("method", "this form sums coolness", "cooling");
  }
  const auto demand_rising = [&](const std::vector<std::string>& names) {
    for (std::size_t i = 1; i < names.size(); ++i) {
      if (!(model.parameter(names[i - 1]) < model.parameter(names[i]))) {
        list.refuse(names[i], "this must be above " + names[i - 1]);
      }
    }
  };
  if (model.form == Form::gated_clock) demand_rising({"cold_stop", "cold_full"});
  if (model.form == Form::release_by_cooling) {
    demand_rising({"cold_none", "cold_all", "ceiling_all", "ceiling_half", "ceiling_none"});
    demand_rising({"northern_none_latitude", "northern_full_latitude"});
  }
}

EmergenceModel read_model(const JsonObject& object, const std::string& file) {
  EmergenceModel model;
  read_model_head(object, file, "soilclock-emergence-model/1", model);
  model.target = read_eppo_code(object, "target");
  model.form = read_form(object);
  const FormInfo& info = form_info(model.form);
  if (model.form == Form::thermal_curve) {
    std::vector<std::string> words;
    for (const CurveFormInfo& form : curve_forms()) words.emplace_back(form.name);
    model.curve_form = object.choice("curve", words);
  }
  read_parameters(object, model);
  read_dates(object, model);
  if (info.scale) {
    model.scale = read_scale(object, "scale", model.basis);
  } else {
    model.driver = read_driver(object, model.basis);
  }
  if (info.follows) model.follows = read_follows(object, model.basis);
  const JsonObject needed = object.object("weather_needed_from");
  model.weather_needed_from = needed.integer("season_day", 0, 365);
  model.weather_needed_why = read_words(needed, "why");
  needed.finish();
  object.finish();
  demand_sense(object, model);
  demand_check_points(object, model.check_points,
                      [&](const CheckPoint& point) { return check_value(model, point); });
  return model;
}

}  // namespace

Result<EmergenceModel> read_emergence_model(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request,
                   [&](const JsonObject& object) { return read_model(object, file); });
}

}  // namespace soilclock::emergence
