// SPDX-License-Identifier: MIT
#include "weather/unit_evidence.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/units.hpp"

namespace soilclock::weather {

namespace {

struct DayPair {
  Day day;
  double low;  // in the numbers of the file
  double high;
};

constexpr std::size_t window_days = 30;
/// Fewer days do not tell how much days differ.
constexpr std::size_t fewest_for_spread = 10;

double middle_of(const DayPair& pair) { return (pair.low + pair.high) / 2.0; }

double spread_about_trend(const DayPair* first, std::size_t count, double mean) {
  const double center = (static_cast<double>(count) - 1.0) / 2.0;
  double xx = 0.0;
  double xy = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const double x = static_cast<double>(i) - center;
    xx += x * x;
    xy += x * (middle_of(first[i]) - mean);
  }
  double squares = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const double rest = middle_of(first[i]) - mean - xy / xx * (static_cast<double>(i) - center);
    squares += rest * rest;
  }
  return std::sqrt(squares / (static_cast<double>(count) - 2.0));
}

UnitWindow window_of(const DayPair* first, std::size_t count) {
  UnitWindow window;
  for (std::size_t i = 0; i < count; ++i) {
    window.mean += middle_of(first[i]) / static_cast<double>(count);
    window.range += (first[i].high - first[i].low) / static_cast<double>(count);
  }
  window.month = civil(first[count / 2].day).month;
  if (count >= fewest_for_spread) window.spread = spread_about_trend(first, count, window.mean);
  return window;
}

UnitWindow from_fahrenheit(const UnitWindow& window) {
  return {(window.mean - units::freezing_fahrenheit) / units::fahrenheit_degrees_in_kelvin,
          window.range / units::fahrenheit_degrees_in_kelvin,
          window.spread / units::fahrenheit_degrees_in_kelvin, window.month};
}

/// Logarithm of a bell curve with heavier sides (Student's t), so that one odd trait does not decide alone.
double log_density(double value, double mean, double deviation, double freedom) {
  const double z = (value - mean) / deviation;
  return -(freedom + 1.0) / 2.0 * std::log1p(z * z / freedom) - std::log(deviation);
}

constexpr double season_freedom = 10.0;
constexpr double trait_freedom = 4.0;

/// The mean temperature of a month. `winter` is 1 in its coldest month and -1 in its warmest. Shape and width
/// follow the monthly means of the land by latitude (reanalysis of 1981 to 2010) and of the measured records.
double season_likelihood(double celsius, double winter, const std::optional<double>& latitude_deg) {
  if (!latitude_deg) {
    const double mean = 13.0 - 11.0 * winter;
    const double deviation = 6.5 + 2.0 * winter;
    // Deserts lie farther above the usual summer than cool coasts below it.
    return log_density(celsius, mean, celsius > mean ? std::max(6.5, deviation) : deviation, season_freedom);
  }
  const double away = std::min(std::abs(*latitude_deg), 65.0);
  const double annual = 27.0 - 0.00765 * away * away;
  return log_density(celsius, annual - 0.30 * away * winter, 6.5 + 1.5 * winter, season_freedom);
}

/// `window` in Celsius. Fahrenheit files come from the United States; Celsius ones from either hemisphere.
double likelihood(const UnitWindow& window, bool north_only, const std::optional<double>& latitude_deg) {
  const double phase = (static_cast<double>(window.month) - 1.0) / 6.0 * std::numbers::pi;
  const double winter = std::cos(phase);
  const double here = latitude_deg.value_or(0.0) < 0.0 ? -winter : winter;
  double season = season_likelihood(window.mean, here, latitude_deg);
  if (!latitude_deg && !north_only) {
    constexpr double south_share = 0.2;
    const double south = season_likelihood(window.mean, -winter, {});
    season = std::log((1.0 - south_share) * std::exp(season) + south_share * std::exp(south));
  }
  // Ranges of a day are about 11 C everywhere, a third more or less; days differ by about 5 C in the cold and
  // by 2 C in the heat.
  double all = season + log_density(std::log(std::max(window.range, 0.5)), 2.43, 0.36, trait_freedom);
  if (window.spread > 0.0) {
    const double usual = 1.57 - 0.037 * std::clamp(window.mean, 0.0, 30.0);
    all += log_density(std::log(std::max(window.spread, 0.3)), usual, 0.42, trait_freedom);
  }
  return all;
}

double for_celsius(const UnitWindow& window, const std::optional<double>& latitude_deg) {
  constexpr double hottest_month_c = 48.0;
  constexpr double certain = 20.0;
  if (window.mean > hottest_month_c) return -certain;
  const double ratio =
      likelihood(window, false, latitude_deg) - likelihood(from_fahrenheit(window), true, latitude_deg);
  return std::clamp(ratio, -certain, certain);
}

std::vector<DayPair> pairs_of(const DailyWeather& celsius, Unit label) {
  std::vector<DayPair> pairs;
  const DayRange days = celsius.air_min.days();
  pairs.reserve(static_cast<std::size_t>(std::max(0, days.size())));
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto low = celsius.air_min.at(day);
    const auto high = celsius.air_max.at(day);
    if (!low || !high) continue;
    pairs.push_back(label == Unit::celsius ? DayPair{day, low->celsius(), high->celsius()}
                                           : DayPair{day, low->fahrenheit(), high->fahrenheit()});
  }
  return pairs;
}

/// What daily temperatures show of their unit; nothing for a label other than Celsius or Fahrenheit and for a
/// series without days of both extremes.
std::optional<UnitQuestion> question_of(const DailyWeather& celsius, Unit label, UnitSource source) {
  if (label != Unit::celsius && label != Unit::fahrenheit) return std::nullopt;
  const std::vector<DayPair> pairs = pairs_of(celsius, label);
  if (pairs.empty()) return std::nullopt;
  UnitQuestion question{{}, static_cast<int>(pairs.size()), label, source, UnitFit::good};
  for (std::size_t begin = 0; begin < pairs.size(); begin += window_days) {
    const std::size_t count = std::min(window_days, pairs.size() - begin);
    // The rest at the end tells less than a whole window.
    if (begin > 0 && count < window_days / 2) break;
    question.windows.push_back(window_of(&pairs[begin], count));
  }
  return question;
}

/// Below the first limit the other unit is clearly better, below the second this one is not clearly better.
/// Few days tell little, so that only gross faults count. Derived from the same windows.
struct Limits {
  double refuse;
  double doubt;
  double guess;
};

Limits limits_for(int days, bool place_known) {
  if (days >= 20) return {-1.0, 1.0, 1.5};
  if (days >= static_cast<int>(fewest_for_spread)) return {-3.0, place_known ? 2.0 : 3.0, 3.0};
  return {-4.0, -0.5, 0.0};
}

/// Wider than the mean range of any month measured; minimum and maximum are then in different units.
constexpr double widest_range_k = 28.0;
constexpr std::size_t fewest_for_range = 5;

std::optional<double> usual_range_k(const DailyWeather& celsius) {
  std::vector<DayPair> pairs = pairs_of(celsius, Unit::celsius);
  if (pairs.size() < fewest_for_range) return std::nullopt;
  const auto middle = pairs.begin() + static_cast<std::ptrdiff_t>(pairs.size() / 2);
  std::nth_element(pairs.begin(), middle, pairs.end(),
                   [](const DayPair& a, const DayPair& b) { return a.high - a.low < b.high - b.low; });
  return middle->high - middle->low;
}

/// Soil near the surface follows the seasons, is often far hotter than usual under bare ground and never far
/// below freezing. Same height on both sides. Derived from the measured records, 5 cm.
double soil_likelihood(double celsius, double winter) {
  const double usual = 13.0 - 10.0 * winter;
  const double deviation = celsius > usual ? 9.0 : 4.0;
  return log_density(celsius, usual, deviation, season_freedom) + std::log(deviation);
}

double soil_season(const ProbeObservation& soil, bool north_only, const std::optional<Place>& place,
                   double celsius) {
  const double phase = (static_cast<double>(civil(soil.day).month) - 1.0) / 6.0 * std::numbers::pi;
  const double winter = std::cos(phase) * (place && place->latitude_deg < 0.0 ? -1.0 : 1.0);
  const double here = soil_likelihood(celsius, winter);
  constexpr double south_is_rare = 2.5;
  return place || north_only ? here : std::max(here, soil_likelihood(celsius, -winter) - south_is_rare);
}

}  // namespace

UnitFit unit_fit(const UnitQuestion& question, const std::optional<Place>& place) {
  const auto latitude = place ? std::optional{place->latitude_deg} : std::nullopt;
  // The logarithm of the ratio of the likelihoods of a month of numbers, positive for Celsius.
  double sum = 0.0;
  for (const UnitWindow& window : question.windows) sum += for_celsius(window, latitude);
  const double celsius = sum / static_cast<double>(question.windows.size());
  const double for_label = question.label == Unit::celsius ? celsius : -celsius;
  const Limits limits = limits_for(question.days, place.has_value());
  if (for_label < (question.source == UnitSource::guessed ? limits.guess : limits.refuse))
    return UnitFit::bad;
  return for_label < limits.doubt ? UnitFit::doubtful : UnitFit::good;
}

bool read_alike(const std::vector<UnitQuestion>& questions, const std::optional<Place>& one,
                const std::optional<Place>& other) {
  if (one.has_value() != other.has_value()) return false;
  // Soil is judged by the season alone.
  if (one && (one->latitude_deg < 0.0) != (other->latitude_deg < 0.0)) return false;
  return std::all_of(questions.begin(), questions.end(),
                     [&](const UnitQuestion& question) { return unit_fit(question, other) == question.fit; });
}

Checked check_unit(const DailyWeather& celsius, Unit label, UnitSource source,
                   const std::optional<Place>& place, ReadingNotes& notes) {
  if (const auto range = usual_range_k(celsius); range && *range > widest_range_k) {
    return fail(
        notes.problem(fmt::format("minimum and maximum lie {:.0f} C apart on an ordinary day: they are "
                                  "not both in the units they are labeled with",
                                  *range),
                      {}, {}, {}, "minimum and maximum of one day in one unit",
                      "correct the headings, or say the unit of both with --units-in"));
  }
  std::optional<UnitQuestion> question = question_of(celsius, label, source);
  if (!question) return {};
  question->fit = unit_fit(*question, place);
  const UnitFit fit = question->fit;
  notes.asked(std::move(*question));
  if (fit == UnitFit::good) return {};
  const bool is_celsius = label == Unit::celsius;
  const char* named = is_celsius ? "Celsius" : "Fahrenheit";
  const char* other = is_celsius ? "Fahrenheit" : "Celsius";
  const std::string judged = place ? "the season, the latitude and the way the days differ"
                                   : "the season and the way the days differ";
  if (fit == UnitFit::bad) {
    return fail(notes.problem(
        source == UnitSource::guessed
            ? fmt::format("no heading names the unit of the temperatures, and by {} the numbers may be "
                          "{} or {}",
                          judged, named, other)
            : fmt::format("the temperatures are labeled {}, but by {} {} is suspected", named, judged, other),
        {}, {}, {}, fmt::format("temperatures that fit {}", named),
        "say the unit with --units-in C or --units-in F"));
  }
  notes.doubt(
      fmt::format("the temperatures are labeled {}, but by {} they fit {} about as well; say "
                  "--units-in {} if the unit is right",
                  named, judged, other, is_celsius ? "C" : "F"));
  return {};
}

Checked check_soil_unit(const std::vector<ProbeObservation>& soil, Unit label,
                        const std::optional<Place>& place, ReadingNotes& notes) {
  if ((label != Unit::celsius && label != Unit::fahrenheit) || soil.empty()) return {};
  double sum = 0.0;
  for (const ProbeObservation& one : soil) {
    const double number = label == Unit::celsius ? one.temperature.celsius() : one.temperature.fahrenheit();
    const double other = Temperature::from_fahrenheit(number).celsius();
    sum += std::clamp(soil_season(one, false, place, number) - soil_season(one, true, place, other), -20.0,
                      20.0);
  }
  // Puts the records in either unit equally far from zero.
  constexpr double balance = 1.3;
  const double celsius = sum / static_cast<double>(soil.size()) - balance;
  const bool is_celsius = label == Unit::celsius;
  const double for_label = is_celsius ? celsius : -celsius;
  constexpr double clear = 1.0;
  if (for_label >= clear) return {};
  const char* named = is_celsius ? "Celsius" : "Fahrenheit";
  const char* other = is_celsius ? "Fahrenheit" : "Celsius";
  if (for_label < -clear) {
    return fail(notes.problem(
        fmt::format("the soil temperatures are labeled {}, but for the season {} is suspected", named, other),
        {}, {}, {}, "soil temperatures that fit the season",
        "say the unit with --units-in C or --units-in F"));
  }
  notes.doubt(
      fmt::format("the soil temperatures are labeled {}, but for the season they fit {} about as "
                  "well; say --units-in {} if the unit is right",
                  named, other, is_celsius ? "C" : "F"));
  return {};
}

}  // namespace soilclock::weather
