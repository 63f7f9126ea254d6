// SPDX-License-Identifier: MIT
#include "weather/series/biases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/unit_words.hpp"

namespace soilclock::weather {

namespace {

using Extreme = DailySeries<Temperature> DailyWeather::*;

/// The level of each part: parts of one level are one reference. The user's own files are joined as they are
/// and share one; a source is a level of its own until its bias is taken out, then it has that of its
/// reference.
using Levels = std::vector<std::size_t>;

Levels levels_as_named(const std::vector<WeatherPart>& parts) {
  const std::size_t own_files = parts.size();
  Levels levels(parts.size(), own_files);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!parts[i].service.empty()) levels[i] = i;
  }
  return levels;
}

/// Past parts of one level: what a later part is compared with.
struct Reference {
  std::vector<const WeatherPart*> parts;
  std::size_t level;
  Day before;  ///< only days before it are compared

  /// The value of a day in the first part that knows it.
  std::optional<Temperature> at(Extreme extreme, Day day) const {
    if (day >= before) return std::nullopt;
    for (const WeatherPart* part : parts) {
      if (const auto value = (part->weather.*extreme).at(day)) return value;
    }
    return std::nullopt;
  }
};

/// What a part can be compared with, the best first: its own service's earlier parts, so that one source does
/// not come apart where its history ends, then each level in the order it is named.
std::vector<Reference> references(const std::vector<WeatherPart>& parts, const Levels& levels,
                                  std::size_t part, Day before) {
  std::vector<Reference> result;
  const auto add = [&](std::size_t level, const std::string& service) {
    Reference reference{{}, level, before};
    for (std::size_t i = 0; i < part; ++i) {
      if (parts[i].forecast || levels[i] != level || (!service.empty() && parts[i].service != service))
        continue;
      reference.parts.push_back(&parts[i]);
    }
    if (!reference.parts.empty()) result.push_back(std::move(reference));
  };
  for (std::size_t i = 0; i < part && !parts[part].service.empty(); ++i) {
    if (parts[i].service == parts[part].service) add(levels[i], parts[part].service);
  }
  for (std::size_t i = 0; i < part; ++i) add(levels[i], {});
  return result;
}

/// Differences of a part from the reference on the days that both know, latest day first.
std::vector<TemperatureDelta> differences(const WeatherPart& part, Extreme extreme,
                                          const Reference& reference) {
  std::vector<TemperatureDelta> result;
  const DailySeries<Temperature>& series = part.weather.*extreme;
  for (Day day = series.days().end(); day > series.days().begin();) {
    day -= Days{1};
    const auto own = series.at(day);
    const auto other = own ? reference.at(extreme, day) : std::nullopt;
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

/// Takes a bias out of every day. A day whose range is narrower than the two extremes are moved toward each
/// other would come out reversed: it keeps its range, and its mean is moved.
void take_out(const Bias& bias, DailyWeather& weather) {
  shift(weather.air_min, bias.minimum);
  shift(weather.air_max, bias.maximum);
  for (Day day = weather.air_min.days().begin(); day < weather.air_min.days().end(); day += Days{1}) {
    const auto low = weather.air_min.at(day);
    const auto high = weather.air_max.at(day);
    if (!low || !high || *low <= *high) continue;
    const Temperature middle = midpoint(*low, *high);
    const TemperatureDelta half_range = ((*high + bias.maximum) - (*low + bias.minimum)) / 2.0;
    weather.air_min.set(day, middle - half_range, weather.air_min.quality(day));
    weather.air_max.set(day, middle + half_range, weather.air_max.quality(day));
  }
}

/// A bias with the level it was measured against.
struct Comparison {
  Bias bias;
  std::size_t level = 0;
};

Comparison compared(const WeatherPart& part, const Reference& reference) {
  const auto low = differences(part, &DailyWeather::air_min, reference);
  const auto high = differences(part, &DailyWeather::air_max, reference);
  const auto common = static_cast<int>(std::min(low.size(), high.size()));
  Bias bias{part.name, common, {}, {}, part.remove_bias, false};
  if (common >= fewest_common_days) {
    bias.minimum = mean(low);
    bias.maximum = mean(high);
    bias.removed = part.remove_bias;
  }
  return {std::move(bias), reference.level};
}

/// Against the first level with enough common days; where none has, against the one with most of them.
Comparison compared_with_earlier(const std::vector<WeatherPart>& parts, const Levels& levels,
                                 std::size_t part, Day before) {
  Comparison best{{parts[part].name, 0, {}, {}, parts[part].remove_bias, false}, levels[part]};
  for (const Reference& reference : references(parts, levels, part, before)) {
    Comparison next = compared(parts[part], reference);
    if (next.bias.common_days >= fewest_common_days) return next;
    if (next.bias.common_days > best.bias.common_days) best = std::move(next);
  }
  return best;
}

std::string words(TemperatureDelta bias, bool us_units) {
  return difference_words(bias, us_units) + (bias.kelvin() < 0.0 ? " colder" : " warmer");
}

}  // namespace

std::vector<Bias> compare_sources(std::vector<WeatherPart>& parts, Day before) {
  std::vector<Bias> found;
  Levels levels = levels_as_named(parts);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].forecast || (parts[i].service.empty() && !parts[i].remove_bias)) continue;
    const auto [bias, level] = compared_with_earlier(parts, levels, i, before);
    const bool wished_in_vain = bias.asked && i > 0;
    if (bias.common_days == 0 && !wished_in_vain) continue;
    found.push_back(bias);
    if (!bias.removed) continue;
    // At once, so that the sources named after it are compared with what will be used of it.
    levels[i] = level;
    for (WeatherPart& part : parts) {
      if (part.name == bias.name) take_out(bias, part.weather);
    }
  }
  return found;
}

std::optional<Remark> remark_of(const Bias& bias, bool us_units) {
  if (bias.common_days < fewest_common_days) {
    if (!bias.asked) return std::nullopt;
    return Remark{
        "source-not-compared",
        fmt::format("{} shares {} with the weather named before it: too few to say how far they lie apart.",
                    bias.name,
                    bias.common_days == 0   ? "no day"
                    : bias.common_days == 1 ? "only one day"
                                            : fmt::format("only {} days", bias.common_days))};
  }
  const double larger = std::max(std::abs(bias.minimum.kelvin()), std::abs(bias.maximum.kelvin()));
  if (larger < worth_saying_k) return std::nullopt;
  return Remark{
      bias.removed ? "bias-removed" : "bias",
      fmt::format("Over {} common days {} is {} in the minimum and {} in the maximum than the weather "
                  "named before it; {}.",
                  bias.common_days, bias.name, words(bias.minimum, us_units), words(bias.maximum, us_units),
                  bias.removed ? "this is taken out" : "it is used as it is")};
}

}  // namespace soilclock::weather
