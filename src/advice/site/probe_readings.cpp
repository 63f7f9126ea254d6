// SPDX-License-Identifier: MIT
#include "advice/site/probe_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"

namespace soilclock::advice {

namespace {

/// Readings of one day and depth.
struct Sitting {
  Day day{};
  Depth depth = Depth::from_cm(5.0);
  std::vector<LoggedReading> readings;
};

/// The range of air a reading is corrected with, and whose it is where it is not the day's own.
struct AirRange {
  TemperatureDelta range;
  std::string whose;
};

std::optional<TemperatureDelta> range_of(const weather::DailyWeather& daily, Day day) {
  const auto low = daily.air_min.at(day);
  const auto high = daily.air_max.at(day);
  return low && high ? std::optional{*high - *low} : std::nullopt;
}

std::string degrees(TemperatureDelta range, bool us) {
  return us ? fmt::format("{} F", number_text(range.fahrenheit_degrees(), 0))
            : fmt::format("{} C", number_text(range.kelvin(), 0));
}

AirRange air_range(const weather::DailyWeather& daily, Day day, const soil::ProbeRules& rules, bool us) {
  if (const auto own = range_of(daily, day)) {
    const bool forecast =
        daily.air_min.quality(day) == Quality::forecast || daily.air_max.quality(day) == Quality::forecast;
    return {*own, forecast ? " with the air range of the forecast" : ""};
  }
  if (const auto before = range_of(daily, day - Days{1}))
    return {*before, " with the air range of the day before"};
  return {rules.usual_air_range,
          fmt::format(" with a usual air range of {}", degrees(rules.usual_air_range, us))};
}

std::vector<Sitting> sittings(std::vector<LoggedReading> readings, double same_depth_cm) {
  std::stable_sort(readings.begin(), readings.end(), [](const LoggedReading& a, const LoggedReading& b) {
    return std::tuple{a.day, a.depth, a.minute_of_day} < std::tuple{b.day, b.depth, b.minute_of_day};
  });
  std::vector<Sitting> result;
  for (const LoggedReading& reading : readings) {
    const bool same = !result.empty() && result.back().day == reading.day &&
                      reading.depth.cm() - result.back().depth.cm() < same_depth_cm;
    if (!same) result.push_back({reading.day, reading.depth, {}});
    result.back().readings.push_back(reading);
  }
  return result;
}

/// What a sitting comes to.
struct SittingMean {
  soil::SpotMean spot;
  Temperature read;             ///< mean of the readings
  TemperatureDelta correction;  ///< from that to the mean of the day
  std::string whose_range;
  bool any_hour = false;
};

SittingMean mean_of(const Sitting& sitting, const SiteWeather& site, const soil::ProbeRules& rules, bool us) {
  const AirRange air = air_range(site.daily, sitting.day, rules, us);
  const soil::DailyWave wave = soil::daily_wave(rules, sitting.depth);
  const auto count = static_cast<double>(sitting.readings.size());
  SittingMean result;
  result.whose_range = air.whose;
  double sum_c = 0.0;
  double variance =
      0.0;  // of the hours: shared by the readings, so that it does not shrink with their number
  for (const LoggedReading& reading : sitting.readings) {
    sum_c += reading.temperature.celsius() / count;
    if (reading.minute_of_day) {
      result.any_hour = true;
      const double hour = (*reading.minute_of_day - reading.minutes_ahead) / 60.0;
      result.correction = result.correction + soil::mean_minus_reading(wave, hour, air.range) / count;
      variance += soil::variance_left_k2(rules, sitting.depth) / count;
    } else {
      variance += soil::unknown_hour_variance_k2(wave, air.range) / count;
    }
  }
  variance += soil::spot_variance_k2(rules, static_cast<int>(sitting.readings.size()));
  const Day last_air = site.outlook_start - Days{1};
  if (sitting.day > last_air)
    variance += rules.change_variance_k2_per_day * static_cast<double>((sitting.day - last_air).count());
  result.read = Temperature::from_celsius(sum_c);
  result.spot = {sitting.day, sitting.depth, result.read + result.correction, variance};
  return result;
}

std::string clock_words(int minute_of_day) {
  return fmt::format("{:02}:{:02}", minute_of_day / 60, minute_of_day % 60);
}

std::string hour_words(double hour, bool us) {
  const int whole = static_cast<int>(std::lround(hour)) % 24;
  if (!us) return fmt::format("{:02}:00", whole);
  return fmt::format("{} {}", whole % 12 == 0 ? 12 : whole % 12, whole < 12 ? "a.m." : "p.m.");
}

/// When the readings of a sitting were taken: " on 12 Oct at 06:10", " between 06:10 and 06:40".
std::string when_words(const Sitting& sitting, Day on) {
  std::string text = sitting.day == on ? "" : fmt::format(" on {}", short_date(sitting.day));
  const auto first = sitting.readings.front().minute_of_day;
  const auto last = sitting.readings.back().minute_of_day;
  if (!first || !last) return text;
  if (*first == *last) return text + fmt::format(" at {}", clock_words(*first));
  return text + fmt::format(" between {} and {}", clock_words(*first), clock_words(*last));
}

Remark remark_used(const Sitting& sitting, const SittingMean& mean, Day on, const soil::ProbeRules& rules,
                   bool us) {
  const std::size_t count = sitting.readings.size();
  std::string text = temperature_words(mean.read, us);
  if (count > 1) text += fmt::format(" (mean of {} readings)", count);
  text += when_words(sitting, on) + fmt::format(", {}, ", depth_words(sitting.depth, us));
  if (!mean.any_hour) {
    text += "taken as the mean of the day because no hour was noted (--time).";
    return {"reading-used", text};
  }
  text +=
      fmt::format("taken as a day mean of {}{}.", temperature_words(mean.spot.mean, us), mean.whose_range);
  if (!sitting.readings.front().minute_of_day) text += " Readings without an hour count as they are.";
  if (std::abs(mean.correction.kelvin()) > rules.worth_explaining.kelvin()) {
    const double hour = soil::daily_wave(rules, sitting.depth).mean_hour;
    text += fmt::format(
        " At this depth a reading near {} standard time (an hour later on daylight saving time) needs no "
        "correction.",
        hour_words(hour, us));
  }
  return {"reading-used", text};
}

/// A day with a daily mean of a probe is not moved by a single reading.
bool has_daily_mean(const weather::DailyWeather& daily, Day day) {
  return std::any_of(daily.soil.begin(), daily.soil.end(),
                     [&](const auto& entry) { return entry.second.at(day).has_value(); });
}

}  // namespace

ProbeEvidence take_readings(const std::vector<weather::ProbeObservation>& of_files,
                            const std::vector<LoggedReading>& logged, const SiteWeather& site,
                            const soil::ProbeRules& rules, bool us_units) {
  ProbeEvidence taken;
  std::vector<LoggedReading> readings;
  for (const weather::ProbeObservation& spot : of_files) {
    if (spot.day <= site.on)
      readings.push_back({spot.day, spot.minute_of_day, 0, spot.depth, spot.temperature});
  }
  for (const LoggedReading& reading : logged) {
    if (reading.day > site.on) continue;
    if (reading.day < site.on || reading.minute_of_day) {
      readings.push_back(reading);
      continue;
    }
    taken.remarks.push_back(
        {"reading-needs-hour",
         fmt::format("{}, {}, noted for {} is not used: a reading of the day of the answer needs its hour "
                     "(--time).",
                     temperature_words(reading.temperature, us_units), depth_words(reading.depth, us_units),
                     short_date(reading.day))});
  }
  const std::vector<Sitting> all = sittings(std::move(readings), rules.same_depth_cm);
  for (const Sitting& sitting : all) {
    const SittingMean mean = mean_of(sitting, site, rules, us_units);
    taken.spots.push_back(mean.spot);
    if (sitting.day == all.back().day && site.on - sitting.day <= Days{rules.shown_for_days} &&
        !has_daily_mean(site.daily, sitting.day)) {
      taken.remarks.push_back(remark_used(sitting, mean, site.on, rules, us_units));
    }
  }
  return taken;
}

std::string hours_without_correction(const soil::ProbeRules& rules) {
  constexpr bool us = true;
  const auto at = [](const soil::WaveAnchor& anchor) {
    return hour_words(anchor.mean_hour, us) + " at " + depth_words(anchor.depth, us);
  };
  return at(rules.shallow) + " and " + at(rules.deep) + " (standard time)";
}

}  // namespace soilclock::advice
