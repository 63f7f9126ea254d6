// SPDX-License-Identifier: MIT
#include "emergence/member_run.hpp"

#include <algorithm>
#include <cmath>

#include "emergence/gated_clock.hpp"
#include "emergence/release_by_cooling.hpp"
#include "emergence/sum_curve.hpp"

namespace soilclock::emergence {

namespace {

/// Reads the drawn values of a model by name; the loader has made sure that they are all there.
class Values {
 public:
  explicit Values(const ParameterValues& values) : values_{values} {}
  double number(std::string_view name) const { return values_.find(name)->second; }
  Temperature celsius(std::string_view name) const { return Temperature::from_celsius(number(name)); }
  TemperatureDelta kelvin(std::string_view name) const { return TemperatureDelta::from_kelvin(number(name)); }
  DegreeDays sum(std::string_view name) const { return DegreeDays::from_celsius_days(number(name)); }
  Rain mm(std::string_view name) const { return Rain::from_mm(number(name)); }

 private:
  const ParameterValues& values_;
};

int scale_start(const ThermalScale& scale, const Season& season) {
  const auto date = MonthDay::parse(scale.start);
  return date ? season_day(*date, season) : 0;
}

std::span<const Temperature> scale_driver(const ThermalScale& scale, const SeasonDrivers& drivers) {
  if (scale.driver == ThermalDriver::air) return drivers.air_mean;
  const bool shallow = scale.depth && scale.depth->cm() < 4.0;
  return shallow ? drivers.soil_shallow : drivers.soil;
}

GatedClockParameters gated_clock_parameters(const Values& v) {
  return {.crossing = v.celsius("crossing_temperature"),
          .width = v.kelvin("crossing_width"),
          .release_scale_days = v.number("release_days"),
          .lag_days = v.number("lag_days"),
          .autumn_share = v.number("autumn_share"),
          .rest_middle_day = v.number("rest_middle_day"),
          .rest_scale_days = v.number("rest_scale_days"),
          .cold_stop = v.celsius("cold_stop"),
          .cold_full = v.celsius("cold_full"),
          .dry_speed = v.number("dry_speed"),
          .full_water = v.mm("full_water"),
          .irrigated_speed = v.number("irrigated_speed"),
          .unknown_rain_speed = v.number("unknown_rain_speed"),
          .weakest_cold_gate = v.number("weakest_cold_gate"),
          .winter_crossing_shift = v.kelvin("winter_crossing_shift"),
          .winter_dry_speed = v.number("winter_dry_speed")};
}

ReleaseParameters release_parameters(const EmergenceModel& model, const Values& v,
                                     const SeasonDrivers& drivers, const Place& place) {
  const double none = v.number("northern_none_latitude");
  const double northern = std::clamp(
      (std::abs(place.latitude_deg) - none) / (v.number("northern_full_latitude") - none), 0.0, 1.0);
  const auto day = [&](std::string_view name) { return season_day(model.date(name), drivers.season); };
  return {.ceiling = {.cold_none = v.number("cold_none"),
                      .cold_all = v.number("cold_all"),
                      .all = v.number("ceiling_all"),
                      .half = v.number("ceiling_half"),
                      .none = v.number("ceiling_none")},
          .ceiling_shift_c = v.number("ceiling_shift") + northern * v.number("northern_shift"),
          .release_from_day = day("release_from"),
          .base = v.celsius("base_temperature"),
          .half_up = v.sum("half_up"),
          .steepness = static_cast<int>(std::lround(v.number("steepness"))),
          .dry_speed = v.number("dry_speed"),
          .full_water = v.mm("full_water"),
          .unknown_rain_speed = v.number("unknown_rain_speed"),
          .autumn_share = v.number("autumn_share"),
          .winter_from_day = day("winter_from"),
          .winter_to_day = day("winter_to"),
          .winter_soil = v.celsius("winter_soil")};
}

EmergenceCurve run_onset_lag(const DrawnModel& drawn, const DrawnModel& followed,
                             const SeasonDrivers& drivers) {
  const Values v{drawn.values};
  const ThermalScale& scale = *drawn.model->scale;
  const auto sum = gated_warmth_sum(scale_driver(scale, drivers), v.celsius("base_temperature"),
                                    v.celsius("gate_temperature"), scale_start(scale, drivers.season));
  const auto onset = day_reaching(sum, v.sum("onset_sum"));
  return run_curve_from_onset(model_sum(*followed.model, drivers),
                              *response_curve(*followed.model, followed.values), onset,
                              v.sum("follows_onset_sum"));
}

/// The formula gives a little at a sum of 0; nothing counts as up before the first day that adds to it.
EmergenceCurve run_hydrothermal_time(const DrawnModel& drawn, const SeasonDrivers& drivers) {
  const ThermalScale& scale = *drawn.model->scale;
  const auto sum =
      hydrothermal_sum(scale_driver(scale, drivers), drivers.surface_water,
                       hydrothermal_parameters(drawn.values), scale_start(scale, drivers.season));
  const auto first = std::upper_bound(sum.begin(), sum.end(), DegreeDays{});
  const bool never = first == sum.end();
  return run_curve_from_onset(sum, *response_curve(*drawn.model, drawn.values),
                              never ? std::nullopt : std::optional{static_cast<int>(first - sum.begin())},
                              never ? DegreeDays{} : *first);
}

EmergenceCurve run_form(const DrawnModel& drawn, const DrawnModel* followed, const SeasonDrivers& drivers,
                        const Place& place) {
  const EmergenceModel& model = *drawn.model;
  const Values v{drawn.values};
  switch (model.form) {
    case Form::gated_clock:
      return run_gated_clock(drivers, gated_clock_parameters(v));
    case Form::release_by_cooling:
      return run_release_by_cooling(drivers, release_parameters(model, v, drivers, place));
    case Form::cooling_curve:
    case Form::thermal_curve:
      return run_curve(model_sum(model, drivers), *response_curve(model, drawn.values));
    case Form::hydrothermal_time:
      return run_hydrothermal_time(drawn, drivers);
    case Form::calendar:
      return run_calendar(drivers.season, drivers.season_days(), *response_curve(model, drawn.values),
                          v.number("shift"));
    case Form::onset_lag:
      return run_onset_lag(drawn, *followed, drivers);
    case Form::offset_rule: {
      const EmergenceCurve leader = run_form(*followed, nullptr, drivers, place);
      const int from = followed->model->scale ? scale_start(*followed->model->scale, drivers.season) : 0;
      return run_offset_rule(leader, static_cast<int>(std::lround(v.number("offset_days"))), drivers.soil,
                             v.celsius("gate_temperature"), from);
    }
    case Form::onset_threshold:
    case Form::base_only:
      break;
  }
  EmergenceCurve nothing;
  nothing.up.resize(static_cast<std::size_t>(drivers.season_days()));
  return nothing;
}

}  // namespace

int season_day(const MonthDay& date, const Season& season) { return season.day_of_season(date.in(season)); }

std::vector<DegreeDays> model_sum(const EmergenceModel& model, const SeasonDrivers& drivers) {
  const ThermalScale& scale = *model.scale;
  const int from = scale_start(scale, drivers.season);
  const auto daily = scale_driver(scale, drivers);
  return model.form == Form::cooling_curve ? cooling_sum(daily, scale.lower, from)
                                           : warmth_sum(daily, scale.lower, from);
}

EmergenceCurve run_member(const DrawnModel& drawn, const DrawnModel* followed, const SeasonDrivers& drivers,
                          const Place& place) {
  EmergenceCurve curve = run_form(drawn, followed, drivers, place);
  if (!curve.main_wave_over) {  // forms that do not separate the wave from the remainder
    const auto share = drawn.values.find("autumn_share");
    const double wave = share == drawn.values.end() ? 1.0 : share->second;
    curve.main_wave_over = curve.first_day_reaching(drivers.rules.main_wave_over * wave);
  }
  return curve;
}

}  // namespace soilclock::emergence
