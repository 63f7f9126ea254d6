// SPDX-License-Identifier: MIT
#include "emergence/growth_model.hpp"

#include <optional>

namespace soilclock::emergence {

namespace {

/// Days a plant needs for so many phyllochrons at a constant temperature (the quantity "days" of a check
/// point).
std::optional<double> days_for(const GrowthModel& model, const CheckPoint& point) {
  const auto leaves = point.input.find("phyllochrons");
  const auto celsius = point.input.find("temperature");
  if (point.quantity != "days" || model.clock != GrowthModel::Clock::thermal_time) return std::nullopt;
  if (leaves == point.input.end() || celsius == point.input.end()) return std::nullopt;
  const double felt = model.upper ? std::min(celsius->second, model.upper->celsius()) : celsius->second;
  return leaves->second * model.phyllochron.value / (felt - model.base.celsius());
}

void read_stages(const JsonObject& object, GrowthModel& model, const std::string& unit) {
  const JsonObject item = object.object("stages");
  const std::string found = item.choice("unit", {"phyllochron", "d"});
  if (found != unit) item.refuse("unit", "the stages are not in the unit of the clock", "'" + unit + "'");
  double before = 0.0;
  for (std::size_t i = 0; i < model.limits.size(); ++i) {
    const std::string key = std::string{name(all_stages[i])} + "_below";
    model.limits[i] = item.number(key, before, 1000.0);
    if (model.limits[i] <= before) item.refuse(key, "stage limits must rise with age");
    before = model.limits[i];
  }
  model.juvenile_below = item.number("juvenile_below", 0.0, 1000.0);
  item.finish();
}

GrowthModel read_growth(const JsonObject& object, const std::string& file) {
  GrowthModel model;
  read_model_head(object, file, "soilclock-growth-model/1", model);
  model.targets = object.texts("targets");
  const bool thermal = object.choice("clock", {"thermal time", "days"}) == "thermal time";
  model.clock = thermal ? GrowthModel::Clock::thermal_time : GrowthModel::Clock::days;
  if (thermal) {
    model.phyllochron = read_drawn_parameter(object, "phyllochron", "C d", model.basis);
    if (!(model.phyllochron.value > 0.0)) {
      object.object("phyllochron").refuse("value", "a phyllochron must be above 0");
    }
    const auto celsius = [&](std::string_view key) {
      return Temperature::from_celsius(read_parameter(object, key, "C", {}, model.basis).value);
    };
    model.base = celsius("base");
    if (object.has("upper")) model.upper = celsius("upper");
  } else {
    model.phyllochron = read_drawn_parameter(object, "day_factor", "1", model.basis);
  }
  read_stages(object, model, thermal ? "phyllochron" : "d");
  object.finish();
  demand_check_points(object, model.check_points,
                      [&](const CheckPoint& point) { return days_for(model, point); });
  return model;
}

}  // namespace

Result<GrowthModel> read_growth_model(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request,
                   [&](const JsonObject& object) { return read_growth(object, file); });
}

}  // namespace soilclock::emergence
