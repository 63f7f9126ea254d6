// SPDX-License-Identifier: MIT
#include "treatment/spray_rules.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/units.hpp"

namespace soilclock::treatment {

namespace {

struct Fields {
  const JsonObject& top;
  double mph(std::string_view key) const {
    return read_parameter(top, key, "mph", {0, 40}).value * units::m_per_s_in_mph;
  }
  double hours(std::string_view key) const { return read_parameter(top, key, "h", {0, 24}).value; }
  TemperatureDelta kelvin(std::string_view key) const {
    return TemperatureDelta::from_kelvin(read_parameter(top, key, "K", {0, 30}).value);
  }
  Temperature fahrenheit(std::string_view key) const {
    return Temperature::from_fahrenheit(read_parameter(top, key, "F", {0, 120}).value);
  }
  Rain inches(std::string_view key) const {
    return Rain::from_inches(read_parameter(top, key, "in", {0, 10}).value);
  }
};

}  // namespace

Result<SprayRules> read_spray_rules(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-spray-day/1");
    const Fields fields{top};
    SprayRules rules;
    rules.wind_least_m_per_s = fields.mph("wind_least");
    rules.wind_most_m_per_s = fields.mph("wind_most");
    rules.inversion_before_sunset_h = fields.hours("inversion_before_sunset");
    rules.inversion_after_sunrise_h = fields.hours("inversion_after_sunrise");
    rules.inversion_broken_m_per_s = fields.mph("inversion_broken_by_wind");
    rules.delta_t_least = fields.kelvin("delta_t_least");
    rules.delta_t_most = fields.kelvin("delta_t_most");
    rules.delta_t_stop = fields.kelvin("delta_t_stop");
    rules.hot_caution = fields.fahrenheit("hot_caution");
    rules.hot_stop = fields.fahrenheit("hot_stop");
    rules.post_stop_maximum = fields.fahrenheit("post_stop_maximum");
    rules.post_good_maximum = fields.fahrenheit("post_good_maximum");
    rules.dormant_stop_maximum = fields.fahrenheit("dormant_stop_maximum");
    rules.dormant_good_maximum = fields.fahrenheit("dormant_good_maximum");
    rules.rain_free_h = fields.hours("rain_free");
    rules.watering_least = fields.inches("watering_least");
    rules.watering_within_days = read_whole(top, "watering_within", "d", {0, 14});
    rules.heavy_rain = fields.inches("heavy_rain");
    rules.rain_on_day = Rain::from_mm(read_parameter(top, "rain_on_day", "mm", {0, 100}).value);
    rules.trace = Rain::from_mm(read_parameter(top, "trace", "mm", {0, 10}).value);
    rules.reading_lasts_h = read_parameter(top, "reading_lasts", "h", {0.1, 24}).value;
    rules.damp_air_allowed_from = read_whole(top, "damp_air_allowed_from", "day of year", {1, 366});
    rules.damp_air_allowed_to = read_whole(top, "damp_air_allowed_to", "day of year", {1, 366});
    rules.saturating_rain = fields.inches("saturating_rain");
    rules.frost_ahead = fields.fahrenheit("frost_ahead");
    rules.run_least_h = fields.hours("run_least");
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::treatment
