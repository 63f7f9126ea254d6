// SPDX-License-Identifier: MIT
#include "weather/biases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soilclock::weather {

namespace {

using Extreme = DailySeries<Temperature> DailyWeather::*;

/// The value of a day in the first of the past parts before `end` that knows it.
std::optional<Temperature> reference(const std::vector<WeatherPart>& parts, std::size_t end, Extreme extreme,
                                     Day day) {
  for (std::size_t i = 0; i < end; ++i) {
    if (parts[i].forecast) continue;
    if (const auto value = (parts[i].weather.*extreme).at(day)) return value;
  }
  return std::nullopt;
}

/// Differences of a part's past days from the parts before it, latest day first.
std::vector<TemperatureDelta> differences(const std::vector<WeatherPart>& parts, std::size_t part,
                                          Extreme extreme) {
  std::vector<TemperatureDelta> result;
  const DailySeries<Temperature>& series = parts[part].weather.*extreme;
  for (Day day = series.days().end(); day > series.days().begin();) {
    day -= Days{1};
    const auto own = series.at(day);
    const auto other = own ? reference(parts, part, extreme, day) : std::nullopt;
    if (other) result.push_back(*own - *other);
    if (result.size() == most_common_days) break;
  }
  return result;
}

TemperatureDelta mean(const std::vector<TemperatureDelta>& values) {
  TemperatureDelta sum;
  for (const TemperatureDelta value : values) sum = sum + value;
  return values.empty() ? sum : sum / static_cast<double>(values.size());
}

void shift(DailySeries<Temperature>& series, TemperatureDelta by) {
  for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
    if (const auto value = series.at(day)) series.set(day, *value - by, series.quality(day));
  }
}

std::string words(TemperatureDelta bias) {
  return fmt::format("{:.1f} C {}", std::abs(bias.kelvin()), bias.kelvin() < 0.0 ? "colder" : "warmer");
}

}  // namespace

std::vector<Bias> compare_sources(std::vector<WeatherPart>& parts) {
  std::vector<Bias> found;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].forecast || !(parts[i].from_service || parts[i].remove_bias)) continue;
    const auto low = differences(parts, i, &DailyWeather::air_min);
    const auto high = differences(parts, i, &DailyWeather::air_max);
    const auto common = std::min(low.size(), high.size());
    if (common == 0) continue;
    Bias bias{parts[i].name, static_cast<int>(common), {}, {}, parts[i].remove_bias, false};
    if (bias.common_days >= fewest_common_days) {
      bias.minimum = mean(low);
      bias.maximum = mean(high);
      bias.removed = parts[i].remove_bias;
    }
    found.push_back(bias);
  }
  for (const Bias& bias : found) {
    if (!bias.removed) continue;
    for (WeatherPart& part : parts) {
      if (part.name != bias.name) continue;
      shift(part.weather.air_min, bias.minimum);
      shift(part.weather.air_max, bias.maximum);
    }
  }
  return found;
}

std::optional<Remark> remark_of(const Bias& bias) {
  if (bias.common_days < fewest_common_days) {
    if (!bias.asked) return std::nullopt;
    return Remark{
        "source-not-compared",
        fmt::format("{} shares only {} {} with the weather named before it: too few to tell how far "
                    "they lie apart.",
                    bias.name, bias.common_days, bias.common_days == 1 ? "day" : "days")};
  }
  const double larger = std::max(std::abs(bias.minimum.kelvin()), std::abs(bias.maximum.kelvin()));
  if (larger < worth_saying_k && !bias.removed) return std::nullopt;
  return Remark{
      bias.removed ? "bias-removed" : "bias",
      fmt::format("Over {} common days {} is {} in the minimum and {} in the maximum than the weather "
                  "named before it; {}.",
                  bias.common_days, bias.name, words(bias.minimum), words(bias.maximum),
                  bias.removed ? "this is taken out" : "it is used as it is")};
}

}  // namespace soilclock::weather
