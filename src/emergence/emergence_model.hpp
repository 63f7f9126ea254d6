// SPDX-License-Identifier: MIT
// One emergence model as read from its file: numbers with unit and spread, the scale they belong to, where
// they hold, where they come from, and points that must come out. The engine that runs a model over a season
// reads only this.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/degree_days.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/problem.hpp"
#include "core/season.hpp"
#include "emergence/curves.hpp"
#include "emergence/hydrothermal_time.hpp"

namespace soilclock::emergence {

/// A day of the northern year; in the south it means the day half a year later (15 February = 15 August).
struct MonthDay {
  unsigned month = 1;  ///< 1..12
  unsigned day = 1;    ///< 1..28
  friend bool operator==(const MonthDay&, const MonthDay&) = default;
  /// "MM-DD", days up to 28 so that the half-year shift always gives a day.
  static std::optional<MonthDay> parse(std::string_view text);
  std::string text() const;
  /// The day it falls on within a season.
  Day in(const Season& season) const;
};

/// What drives a model that keeps no thermal sum.
struct Driver {
  std::string variable;        ///< "soil temperature", "air temperature", "calendar"
  std::optional<Depth> depth;  ///< for soil
  std::string statistic;       ///< "daily mean", "trailing 7-day mean", "day"
};

/// What a form of model computes; see form_info for the parameters each needs.
enum class Form {
  gated_clock,  ///< daily rate that runs while soil is cool and moist enough; autumn part and remainder
  release_by_cooling,  ///< cooling releases the pool, thermal time and water bring it up
  cooling_curve,       ///< log-logistic of cooling degree-days
  calendar,            ///< two cohorts by date
  thermal_curve,       ///< any curve form of a thermal sum
  hydrothermal_time,   ///< Gompertz curve of the thermal sum of days with moist soil
  onset_lag,           ///< thermal time to the first seedling, then the curve of another model
  onset_threshold,     ///< only the date of the first seedling
  offset_rule,         ///< another model's dates, later by so many days, behind a soil gate
  base_only            ///< base temperature and water limit, no curve published
};
std::string_view form_name(Form form);

/// What a file of a form must hold: nothing more, nothing less. The names (units in the files):
/// gated-clock: crossing_temperature, crossing_width, release_days, lag_days, autumn_share, rest_middle_day,
///   rest_scale_days, cold_stop, cold_full, dry_speed, full_water, irrigated_speed,
///   unknown_rain_speed, weakest_cold_gate, winter_crossing_shift, winter_dry_speed
/// release-by-cooling: ceiling_all, ceiling_half, ceiling_none, cold_none, cold_all, ceiling_shift,
/// northern_shift,
///   northern_none_latitude, northern_full_latitude, base_temperature, half_up, steepness, dry_speed,
///   full_water, unknown_rain_speed, autumn_share, winter_soil; dates release_from, winter_from, winter_to
/// cooling-curve: x50, exponent, onset_low, onset_high
/// calendar: autumn_share, center, scale, ramp_start, ramp_end, shift
/// thermal-curve: those of its curve form
/// hydrothermal-time: base_temperature, base_water_potential, water_potential_rise, warm_from, a, b,
///   unknown_water_speed
/// onset-lag: onset_sum, base_temperature, gate_temperature, follows_onset_sum
/// onset-threshold: onset_sum, gate_temperature
/// offset-rule: offset_days, gate_temperature, high_temperature
/// base-only: base_temperature
struct FormInfo {
  Form form;
  std::vector<ParameterInfo> parameters;  ///< for thermal_curve those of the curve form instead
  std::vector<std::string> dates;         ///< month-days by name
  bool scale = false;                     ///< has a thermal sum
  bool follows = false;                   ///< builds on another model
};
const FormInfo& form_info(Form form);

/// The model another one builds on, with the scale its sums were understood in (must equal that model's own).
struct Follows {
  std::string model;
  std::optional<ThermalScale> scale;
};

struct EmergenceModel : ModelHead {
  std::string target;  ///< EPPO code
  Form form = Form::base_only;
  std::map<std::string, Parameter, std::less<>> parameters;
  std::map<std::string, MonthDay, std::less<>> dates;
  std::string curve_form;             ///< for thermal_curve: a name of curve_forms()
  std::optional<ThermalScale> scale;  ///< for forms with a sum
  std::optional<Driver> driver;       ///< for forms without
  std::optional<Follows> follows;
  int weather_needed_from = 0;  ///< first season day whose weather the model uses
  std::string weather_needed_why;

  /// Central value; the loader has made sure that every parameter of the form is there (an internal error
  /// otherwise: throws std::out_of_range).
  double parameter(std::string_view name) const;
  const MonthDay& date(std::string_view name) const;
};

/// One drawn value for every parameter, by name.
using ParameterValues = std::map<std::string, double, std::less<>>;
/// The central values.
ParameterValues central_parameters(const EmergenceModel& model);
/// A draw: `uniform(i)` gives the number in (0, 1) of the i-th parameter in the order of the map.
ParameterValues drawn_parameters(const EmergenceModel& model,
                                 const std::function<double(std::size_t)>& uniform);

/// The curve of a model whose form has one (cooling_curve, calendar, thermal_curve, hydrothermal_time), with
/// the given values.
std::optional<Curve> response_curve(const EmergenceModel& model, const ParameterValues& values);

/// What hydrothermal time asks for, from the values of a model of that form.
HydrothermalParameters hydrothermal_parameters(const ParameterValues& values);

/// What a check point asks for, computed from the central values; nothing when the quantity or an input is
/// not known to the form.
std::optional<double> check_value(const EmergenceModel& model, const CheckPoint& point);

/// Reads one model file strictly: unknown or missing field, parameter, unit or source refuses it, and so does
/// a missed check point. Sources and followed models are checked by the catalogue.
Result<EmergenceModel> read_emergence_model(std::string_view text, const std::string& file);

}  // namespace soilclock::emergence
