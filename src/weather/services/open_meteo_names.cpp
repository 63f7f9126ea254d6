// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace soilclock::weather {

namespace {

struct Variable {
  std::string_view name;
  Quantity quantity;
};

// The longer name stands before the shorter one it starts with, those not used among them.
constexpr std::array daily_variables{
    Variable{"temperature_2m_max", Quantity::air_max}, Variable{"temperature_2m_min", Quantity::air_min},
    Variable{"temperature_2m_mean", Quantity::air_mean}, Variable{"precipitation_sum", Quantity::rain}};
constexpr std::array hourly_variables{Variable{"temperature_2m", Quantity::air},
                                      Variable{"precipitation_probability", Quantity::not_used},
                                      Variable{"precipitation_type", Quantity::not_used},
                                      Variable{"precipitation", Quantity::rain},
                                      Variable{"relative_humidity_2m", Quantity::humidity},
                                      Variable{"relativehumidity_2m", Quantity::humidity},
                                      Variable{"wind_speed_10m", Quantity::wind},
                                      Variable{"windspeed_10m", Quantity::wind}};

/// Endings that say something about the variable and name no model.
bool names_no_model(std::string_view ending) {
  return ending.starts_with("previous_day") || ending == "spread" || ending == "anomaly" ||
         ending == "mean" || ending == "max" || ending == "min";
}

/// "_member07_gfs" to 7 and "_gfs"; false when a number does not follow.
bool take_member(std::string_view& ending, int& member) {
  constexpr std::string_view word = "_member";
  if (!ending.starts_with(word)) return true;
  std::string_view rest = ending.substr(word.size());
  std::size_t digits = 0;
  int number = 0;
  while (digits < rest.size() && digits < 4 && rest[digits] >= '0' && rest[digits] <= '9')
    number = number * 10 + (rest[digits++] - '0');
  if (digits == 0) return false;
  member = number;
  ending = rest.substr(digits);
  return true;
}

template <std::size_t count>
AnswerName split(std::string_view name, const std::array<Variable, count>& variables) {
  AnswerName result{Quantity::not_used, std::string{name}, {}};
  for (const Variable& variable : variables) {
    if (!name.starts_with(variable.name)) continue;
    std::string_view ending = name.substr(variable.name.size());
    int member = 0;
    if (!take_member(ending, member) || (!ending.empty() && ending.front() != '_')) return result;
    if (!ending.empty()) ending.remove_prefix(1);
    if (variable.quantity == Quantity::not_used || names_no_model(ending)) return result;
    return {variable.quantity, std::string{variable.name}, {std::string{ending}, member}};
  }
  return result;
}

}  // namespace

std::string described(const RunName& run) {
  std::string text = run.model.empty() ? "" : " of model " + run.model;
  if (run.member > 0) text += fmt::format(" of member {}", run.member);
  return text;
}

std::vector<AnswerName> split_names(std::string_view section, const std::vector<std::string>& names) {
  std::vector<AnswerName> result;
  result.reserve(names.size());
  for (const std::string& name : names)
    result.push_back(section == "daily" ? split(name, daily_variables) : split(name, hourly_variables));
  const bool plain = std::any_of(result.begin(), result.end(), [](const AnswerName& name) {
    return is_temperature(name.quantity) && name.run.model.empty();
  });
  for (std::size_t i = 0; plain && i < names.size(); ++i) {
    if (!result[i].run.model.empty()) result[i] = {Quantity::not_used, names[i], {}};
  }
  return result;
}

}  // namespace soilclock::weather
