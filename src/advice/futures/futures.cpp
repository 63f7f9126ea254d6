// SPDX-License-Identifier: MIT
#include "advice/futures/futures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "advice/futures/air_normals.hpp"
#include "core/number_text.hpp"
#include "core/random.hpp"

namespace soilclock::advice {

namespace {

/// The record `years` years earlier, laid over the days to come; nothing when a temperature is lacking.
std::optional<Future> past_season(const weather::DailyWeather& weather, Day outlook_start, Day horizon,
                                  int years) {
  Future future;
  future.label = fmt::format("{}", civil(years_before(outlook_start, years)).year);
  for (Day day = outlook_start; day < horizon; day += Days{1}) {
    const Day then = years_before(day, years);
    const auto low = weather.air_min.at(then);
    const auto high = weather.air_max.at(then);
    if (then >= outlook_start || !low || !high) return std::nullopt;
    future.air_min.push_back(*low);
    future.air_max.push_back(*high);
    future.rain.push_back(weather.rain.at(then).value_or(Rain::unknown()));
  }
  return future;
}

/// Draws rain from the site's own days of the same time of year, in blocks, so that dry and wet spells stay
/// spells.
class RainBlocks {
 public:
  RainBlocks(const weather::DailyWeather& weather, Day outlook_start, const FutureRules& rules)
      : block_days_{static_cast<std::size_t>(rules.rain_block_days)},
        half_windows_{rules.rain_near_days, rules.rain_far_days, whole_year} {
    for (Day day = weather.rain.days().begin(); day < std::min(outlook_start, weather.rain.days().end());
         day += Days{1}) {
      if (const auto rain = weather.rain.at(day)) {
        days_.push_back({day_of_year(day), *rain});
      }
    }
  }

  void fill(std::vector<Rain>& rain, Day first, const RandomField& random, std::uint64_t stream) const {
    for (std::size_t i = 0; i < rain.size(); i += block_days_) {
      const std::size_t from =
          start_near(day_of_year(first + Days{static_cast<int>(i)}), random.uniform(stream, i));
      for (std::size_t j = i; j < std::min(rain.size(), i + block_days_); ++j) {
        if (!days_.empty()) rain[j] = days_[std::min(from + (j - i), days_.size() - 1)].rain;
      }
    }
  }

 private:
  static constexpr int whole_year = 183;  // either way

  struct RainyDay {
    int day_of_year;
    Rain rain;
  };

  /// A recorded day within the nearest of three windows around the day of the year that holds any.
  std::size_t start_near(int day_of_year, double pick) const {
    for (const int half_window : half_windows_) {
      std::vector<std::size_t> near;
      for (std::size_t i = 0; i < days_.size(); ++i) {
        const int apart = std::abs(days_[i].day_of_year - day_of_year);
        if (std::min(apart, 365 - apart) <= half_window) near.push_back(i);
      }
      if (!near.empty()) return near[static_cast<std::size_t>(pick * static_cast<double>(near.size()))];
    }
    return 0;
  }

  std::size_t block_days_;
  std::array<int, 3> half_windows_;
  std::vector<RainyDay> days_;
};

/// How far the season to come lies from the normals: their own error, and a year that is warmer or colder,
/// earlier or later than usual.
AnnualWave drawn_departure(const AirNormals& normals, const UsualAir& usual, const RandomField& random,
                           std::uint64_t stream) {
  AnnualWave departure;
  std::uint64_t draw = 0;
  for (const AnnualWave& part : normals.error_parts) {
    const double size = random.normal(stream, draw++);
    for (std::size_t i = 0; i < part.terms.size(); ++i) departure.terms[i] += size * part.terms[i];
  }
  departure.terms[0] += usual.year_level_kelvin * random.normal(stream, draw++);
  for (const std::size_t first_wave : {1U, 2U})
    departure.terms[first_wave] += usual.year_shape_kelvin * random.normal(stream, draw++);
  return departure;
}

Future normal_future(const AirNormals& normals, const RainBlocks& rain, DayRange ahead, double last_anomaly,
                     const FutureRules& rules, const RandomField& random, int number) {
  const auto stream = 3 * static_cast<std::uint64_t>(number);
  const auto days = static_cast<std::size_t>(std::max(0, ahead.size()));
  Future future;
  future.label = fmt::format("normals {}", number + 1);
  future.rain.assign(days, Rain::unknown());
  rain.fill(future.rain, ahead.begin(), random, stream + 1);
  const AnnualWave departure = drawn_departure(normals, rules.usual_air, random, stream + 2);
  // The last known day stands where it stands, whatever the normals are drawn to be.
  double anomaly = last_anomaly - departure.at(day_of_year(ahead.begin()));
  const double fresh = normals.noise_sd_c * std::sqrt(1.0 - normals.noise_memory * normals.noise_memory);
  for (std::size_t i = 0; i < days; ++i) {
    const int doy = day_of_year(ahead.begin() + Days{static_cast<int>(i)});
    anomaly = normals.noise_memory * anomaly + fresh * random.normal(stream, i);
    const double mean = normals.mean_c.at(doy) + departure.at(doy) + anomaly;
    const double half = std::max(rules.half_range_least_kelvin, normals.half_range_c.at(doy));
    future.air_min.push_back(Temperature::from_celsius(mean - half));
    future.air_max.push_back(Temperature::from_celsius(mean + half));
  }
  return future;
}

/// How far the last known day before the outlook start was from normal; 0 when unknown.
double anomaly_before(const weather::DailyWeather& weather, const AirNormals& normals, Day outlook_start) {
  const auto low = weather.air_min.at(outlook_start - Days{1});
  const auto high = weather.air_max.at(outlook_start - Days{1});
  if (!low || !high) return 0.0;
  return midpoint(*low, *high).celsius() - normals.mean_c.at(day_of_year(outlook_start - Days{1}));
}

/// Why the days to come are not drawn from the record's own past seasons.
std::string few_seasons_words(int held, int needed) {
  const std::string seasons =
      held == 0 ? "no whole past season"
                : fmt::format("{} whole past season{}", count_words(held), held == 1 ? "" : "s");
  return fmt::format(
      "The record holds {}; {} are needed to draw the days to come from it. Its usual year plus random "
      "weather stands in, so dates ahead are wide; past years from `soilclock fetch` narrow them.",
      seasons, count_words(needed));
}

}  // namespace

Futures possible_futures(const weather::DailyWeather& weather, const Place& place, Day outlook_start,
                         Day horizon, const FutureRules& rules, std::uint64_t seed) {
  Futures futures;
  const Day first = weather.air_min.empty() ? outlook_start : weather.air_min.first();
  const int record_years = civil(outlook_start).year - civil(first).year + 1;
  for (int years = 1; years <= record_years && futures.past_seasons < rules.past_seasons_most; ++years) {
    if (auto future = past_season(weather, outlook_start, horizon, years)) {
      futures.all.push_back(std::move(*future));
      ++futures.past_seasons;
    }
  }
  if (futures.past_seasons >= rules.past_seasons_least) return futures;

  futures.remarks.push_back(
      {"few-past-seasons", few_seasons_words(futures.past_seasons, rules.past_seasons_least)});
  futures.all.clear();
  futures.past_seasons = 0;
  weather::DailyWeather known = weather;
  known.air_min = weather.air_min.slice({first, outlook_start});
  known.air_max = weather.air_max.slice({first, outlook_start});
  const AirNormals normals = fit_air_normals(known, place, rules);
  const RainBlocks rain{weather, outlook_start, rules};
  const double last_anomaly = anomaly_before(weather, normals, outlook_start);
  const RandomField random{seed};
  for (int number = 0; number < rules.made_up; ++number) {
    futures.all.push_back(
        normal_future(normals, rain, {outlook_start, horizon}, last_anomaly, rules, random, number));
  }
  return futures;
}

}  // namespace soilclock::advice
