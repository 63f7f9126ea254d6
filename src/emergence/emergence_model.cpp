// SPDX-License-Identifier: MIT
#include "emergence/emergence_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace soilclock::emergence {

namespace {

const std::vector<FormInfo>& all_forms() {
  static const std::vector<FormInfo> forms{
      {.form = Form::gated_clock,
       .parameters = {{"crossing_temperature", "C"},
                      {"crossing_width", "C"},
                      {"release_days", "d"},
                      {"lag_days", "d"},
                      {"autumn_share", "1"},
                      {"rest_middle_day", "d"},
                      {"rest_scale_days", "d"},
                      {"cold_stop", "C"},
                      {"cold_full", "C"},
                      {"dry_speed", "1"},
                      {"full_water", "mm"},
                      {"irrigated_speed", "1"},
                      {"unknown_rain_speed", "1"},
                      {"weakest_cold_gate", "1"},
                      {"winter_crossing_shift", "C"},
                      {"winter_dry_speed", "1"}},
       .dates = {}},
      {.form = Form::release_by_cooling,
       .parameters = {{"ceiling_all", "C"},
                      {"ceiling_half", "C"},
                      {"ceiling_none", "C"},
                      {"cold_none", "C"},
                      {"cold_all", "C"},
                      {"ceiling_shift", "C"},
                      {"northern_shift", "C"},
                      {"northern_none_latitude", "degrees north"},
                      {"northern_full_latitude", "degrees north"},
                      {"base_temperature", "C"},
                      {"half_up", "C d"},
                      {"steepness", "1"},
                      {"dry_speed", "1"},
                      {"full_water", "mm"},
                      {"unknown_rain_speed", "1"},
                      {"autumn_share", "1"},
                      {"winter_soil", "C"}},
       .dates = {"release_from", "winter_from", "winter_to"}},
      {.form = Form::cooling_curve,
       .parameters = {{"x50", "C d"}, {"exponent", "1"}, {"onset_low", "C d"}, {"onset_high", "C d"}},
       .dates = {},
       .scale = true},
      {.form = Form::calendar,
       .parameters = {{"autumn_share", "1"},
                      {"center", "d"},
                      {"scale", "d"},
                      {"ramp_start", "d"},
                      {"ramp_end", "d"},
                      {"shift", "d"}},
       .dates = {}},
      {.form = Form::thermal_curve, .parameters = {}, .dates = {}, .scale = true},
      {.form = Form::hydrothermal_time,
       .parameters = {{"base_temperature", "C"},
                      {"base_water_potential", "MPa"},
                      {"water_potential_rise", "MPa/C"},
                      {"warm_from", "C"},
                      {"a", "1"},
                      {"b", "1/(C d)"},
                      {"unknown_water_speed", "1"}},
       .dates = {},
       .scale = true},
      {.form = Form::onset_lag,
       .parameters = {{"onset_sum", "C d"},
                      {"base_temperature", "C"},
                      {"gate_temperature", "C"},
                      {"follows_onset_sum", "C d"}},
       .dates = {},
       .scale = true,
       .follows = true},
      {.form = Form::onset_threshold,
       .parameters = {{"onset_sum", "C d"}, {"gate_temperature", "C"}},
       .dates = {},
       .scale = true},
      {.form = Form::offset_rule,
       .parameters = {{"offset_days", "d"}, {"gate_temperature", "C"}, {"high_temperature", "C"}},
       .dates = {},
       .follows = true},
      {.form = Form::base_only, .parameters = {{"base_temperature", "C"}}, .dates = {}},
  };
  return forms;
}

std::optional<double> input_of(const CheckPoint& point, std::string_view name) {
  const auto found = point.input.find(std::string{name});
  return found == point.input.end() ? std::nullopt : std::optional{found->second};
}

std::optional<double> gated_clock_value(const EmergenceModel& m, const CheckPoint& point) {
  const auto rising = [](double x) { return 1.0 / (1.0 + std::exp(-x)); };
  const auto celsius = input_of(point, "temperature");
  if (point.quantity == "cold gate" && celsius) {
    const double stop = m.parameter("cold_stop");
    return std::clamp((*celsius - stop) / (m.parameter("cold_full") - stop), 0.0, 1.0);
  }
  if (point.quantity == "daily rate" && celsius) {
    return rising((m.parameter("crossing_temperature") - *celsius) / m.parameter("crossing_width")) /
           m.parameter("release_days");
  }
  if (const auto day = input_of(point, "season day"); point.quantity == "rest gate" && day) {
    return rising((*day - m.parameter("rest_middle_day")) / m.parameter("rest_scale_days"));
  }
  return std::nullopt;
}

std::optional<double> release_value(const EmergenceModel& m, const CheckPoint& point) {
  if (const auto celsius = input_of(point, "temperature"); point.quantity == "ceiling" && celsius) {
    const ReleaseCeiling ceiling{m.parameter("cold_none"), m.parameter("cold_all"),
                                 m.parameter("ceiling_all"), m.parameter("ceiling_half"),
                                 m.parameter("ceiling_none")};
    return releasable_share(ceiling, *celsius, m.parameter("ceiling_shift"));
  }
  if (const auto sum = input_of(point, "sum"); point.quantity == "percent of a released part" && sum) {
    return 100.0 * Curve{LogLogistic{m.parameter("half_up"), m.parameter("steepness")}}.value(*sum);
  }
  return std::nullopt;
}

std::optional<double> curve_value(const EmergenceModel& m, const CheckPoint& point) {
  const auto curve = response_curve(m, central_parameters(m));
  if (!curve) return std::nullopt;
  const std::string_view x_name = m.form == Form::calendar ? "day of year" : "sum";
  if (const auto x = input_of(point, x_name); point.quantity == "percent" && x)
    return 100.0 * curve->value(*x);
  if (const auto percent = input_of(point, "percent"); point.quantity == x_name && percent) {
    return curve->inverse(*percent / 100.0);
  }
  return std::nullopt;
}

std::optional<double> hydrothermal_value(const EmergenceModel& m, const CheckPoint& point) {
  if (const auto celsius = input_of(point, "temperature"); point.quantity == "driest soil" && celsius) {
    return driest_for(hydrothermal_parameters(central_parameters(m)), Temperature::from_celsius(*celsius))
        .mpa();
  }
  return curve_value(m, point);
}

std::optional<double> onset_value(const EmergenceModel& m, const CheckPoint& point) {
  if (point.quantity == "onset sum, Fahrenheit") {
    return DegreeDays::from_celsius_days(m.parameter("onset_sum")).fahrenheit_days();
  }
  const auto celsius = input_of(point, "temperature");
  if (m.form != Form::onset_lag || point.quantity != "onset days" || !celsius) return std::nullopt;
  return m.parameter("onset_sum") / (*celsius - m.parameter("base_temperature"));
}

std::optional<double> offset_value(const EmergenceModel& m, const CheckPoint& point) {
  if (const auto day = input_of(point, "leader day"); point.quantity == "day" && day) {
    return *day + m.parameter("offset_days");
  }
  if (point.quantity == "gate, Fahrenheit") {
    return Temperature::from_celsius(m.parameter("gate_temperature")).fahrenheit();
  }
  return std::nullopt;
}

}  // namespace

std::optional<MonthDay> MonthDay::parse(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  for (const std::size_t i : {0U, 1U, 3U, 4U}) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
  }
  const auto two = [&](std::size_t at) {
    return static_cast<unsigned>(text[at] - '0') * 10U + static_cast<unsigned>(text[at + 1] - '0');
  };
  const MonthDay result{two(0), two(3)};
  if (result.month < 1 || result.month > 12 || result.day < 1 || result.day > 28) return std::nullopt;
  return result;
}

std::string MonthDay::text() const { return fmt::format("{:02}-{:02}", month, day); }

Day MonthDay::in(const Season& season) const {
  const unsigned local = season.hemisphere == Hemisphere::north ? month : (month + 5) % 12 + 1;
  const int year = civil(season.first).year;
  const Day day_of_start_year = make_day(year, local, day);
  return day_of_start_year < season.first ? make_day(year + 1, local, day) : day_of_start_year;
}

std::string_view form_name(Form form) {
  static constexpr std::array<std::string_view, 10> names{
      "gated-clock",       "release-by-cooling", "cooling-curve",   "calendar",    "thermal-curve",
      "hydrothermal-time", "onset-lag",          "onset-threshold", "offset-rule", "base-only"};
  return names.at(static_cast<std::size_t>(form));
}

const FormInfo& form_info(Form form) { return all_forms().at(static_cast<std::size_t>(form)); }

double EmergenceModel::parameter(std::string_view name) const {
  const auto found = parameters.find(name);
  if (found == parameters.end())
    throw std::out_of_range{"model " + id + " has no parameter " + std::string{name}};
  return found->second.value;
}

const MonthDay& EmergenceModel::date(std::string_view name) const {
  const auto found = dates.find(name);
  if (found == dates.end()) throw std::out_of_range{"model " + id + " has no date " + std::string{name}};
  return found->second;
}

ParameterValues central_parameters(const EmergenceModel& model) {
  ParameterValues values;
  for (const auto& [name, parameter] : model.parameters) values.emplace(name, parameter.value);
  return values;
}

ParameterValues drawn_parameters(const EmergenceModel& model,
                                 const std::function<double(std::size_t)>& uniform) {
  const auto number_of = [&](const std::string& name) {
    const auto found = model.parameters.find(name);
    if (found == model.parameters.end()) throw std::out_of_range{"no parameter " + name};
    return uniform(static_cast<std::size_t>(std::distance(model.parameters.begin(), found)));
  };
  ParameterValues values;
  std::size_t at = 0;
  for (const auto& [name, parameter] : model.parameters) {
    const std::string& other = parameter.spread.opposite_to;
    values.emplace_hint(values.end(), name,
                        parameter.drawn(other.empty() ? uniform(at) : 1.0 - number_of(other)));
    ++at;
  }
  return values;
}

std::optional<Curve> response_curve(const EmergenceModel& model, const ParameterValues& values) {
  const auto value = [&](std::string_view name) { return values.find(name)->second; };
  switch (model.form) {
    case Form::cooling_curve:
      return Curve{LogLogistic{value("x50"), value("exponent")}};
    case Form::calendar:
      return Curve{TwoCohorts{value("autumn_share"), value("center"), value("scale"), value("ramp_start"),
                              value("ramp_end")}};
    case Form::thermal_curve: {
      const auto form = make_curve_form(model.curve_form, value);
      return form ? std::optional{Curve{*form}} : std::nullopt;
    }
    case Form::hydrothermal_time:
      // exp(-a exp(-b x)), written from its steepest point.
      return Curve{Gompertz{value("b"), std::log(value("a")) / value("b")}};
    default:
      return std::nullopt;
  }
}

HydrothermalParameters hydrothermal_parameters(const ParameterValues& values) {
  const auto value = [&](std::string_view name) { return values.find(name)->second; };
  return {.base = Temperature::from_celsius(value("base_temperature")),
          .base_potential = WaterPotential::from_mpa(value("base_water_potential")),
          .rise_mpa_per_kelvin = value("water_potential_rise"),
          .warm_from = Temperature::from_celsius(value("warm_from")),
          .unknown_water_speed = value("unknown_water_speed")};
}

std::optional<double> check_value(const EmergenceModel& model, const CheckPoint& point) {
  switch (model.form) {
    case Form::gated_clock:
      return gated_clock_value(model, point);
    case Form::release_by_cooling:
      return release_value(model, point);
    case Form::cooling_curve:
    case Form::calendar:
    case Form::thermal_curve:
      return curve_value(model, point);
    case Form::hydrothermal_time:
      return hydrothermal_value(model, point);
    case Form::onset_lag:
    case Form::onset_threshold:
      return onset_value(model, point);
    case Form::offset_rule:
      return offset_value(model, point);
    case Form::base_only:
      break;
  }
  return std::nullopt;
}

}  // namespace soilclock::emergence
