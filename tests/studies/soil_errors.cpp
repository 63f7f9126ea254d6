// SPDX-License-Identifier: MIT
#include "studies/soil_errors.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/random.hpp"
#include "soil/soil_temperature.hpp"
#include "studies/studies.hpp"
#include "studies/workers.hpp"

namespace soilclock::studies {

namespace {

const Day first_reading = make_day(2012, 1, 4);
constexpr int reading_every_days = 7;

/// Squares of what is off.
struct Squares {
  double spring = 0.0, fall = 0.0;
  int spring_days = 0, fall_days = 0;

  void operator+=(const Squares& other) {
    spring += other.spring;
    fall += other.fall;
    spring_days += other.spring_days;
    fall_days += other.fall_days;
  }
  double spring_rmse() const { return std::sqrt(spring / spring_days); }
  double fall_rmse() const { return std::sqrt(fall / fall_days); }
};

void add_day(Squares& squares, Day day, TemperatureDelta off) {
  const double square = off.kelvin() * off.kelvin();
  const unsigned month = civil(day).month;
  if (month >= 3 && month <= 5) squares.spring += square, ++squares.spring_days;
  if (month >= 9 && month <= 11) squares.fall += square, ++squares.fall_days;
}

/// With a reading a week that errs by so much: all days, and those without a reading alone.
struct WeeklyRead {
  Squares all;
  Squares between;
};

WeeklyRead weekly_readings(const Station& station, ReadingNoise noise, const advice::Catalogue& catalogue) {
  WeeklyRead squares;
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  if (measured == station.soil.end()) return squares;
  const DailySeries<Temperature> air = weather::air_mean(station.daily);
  soil::SoilSite site{station.place, Depth::from_cm(5.0), {}, {}, {}};
  site.spots = weekly_spots(station, noise, air.days().end(), catalogue);
  const soil::SoilTemperature soil = soil::soil_temperature(catalogue.soil, site, air);
  for (int year = first_judged_season; year <= civil(air.last()).year; ++year) {
    const DayRange days{make_day(year, 1, 1), make_day(year + 1, 1, 1)};
    const auto best = soil::corrected(soil, Hemisphere::north, days, soil::MovedBy::readings_so_far);
    for (Day day = days.begin(); day < days.end(); day += Days{1}) {
      const auto truth = measured->second.at(day);
      const auto said = best.at(day);
      if (!truth || !said) continue;
      add_day(squares.all, day, *said - *truth);
      const bool read = (day - first_reading).count() % reading_every_days == 0;
      if (!read) add_day(squares.between, day, *said - *truth);
    }
  }
  return squares;
}

void print_weekly_readings(const std::vector<const Station*>& stations, const advice::Catalogue& catalogue,
                           unsigned threads) {
  fmt::print(
      "\n| error of a reading a week, C | spring RMSE, C | fall RMSE, C | between readings: spring | fall "
      "|\n| --- | --- | --- | --- | --- |\n");
  constexpr unsigned draws = 4;
  for (const double sd : {0.0, 0.2, 0.5, 1.0}) {
    WeeklyRead sum;
    for (unsigned draw = 0; draw < draws; ++draw) {
      for (const WeeklyRead& part : worked_off(stations, threads, [&](const Station* station) {
             return weekly_readings(*station, {sd, draw}, catalogue);
           })) {
        sum.all += part.all;
        sum.between += part.between;
      }
    }
    fmt::print("| {} | {:.2f} | {:.2f} | {:.2f} | {:.2f} |\n", sd, sum.all.spring_rmse(), sum.all.fall_rmse(),
               sum.between.spring_rmse(), sum.between.fall_rmse());
  }
}

/// Squares of what is off in a year without readings after one with a daily mean every day; and without any.
struct YearAfter {
  Squares with;
  Squares without;
};

YearAfter year_after_readings(const Station& station, const advice::Catalogue& catalogue) {
  YearAfter squares;
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  if (measured == station.soil.end()) return squares;
  const DailySeries<Temperature> air = weather::air_mean(station.daily);
  for (int year = first_judged_season; year <= civil(air.last()).year; ++year) {
    const DayRange read{make_day(year - 1, 1, 1), make_day(year, 1, 1)};
    const DayRange judged{read.end(), make_day(year + 1, 1, 1)};
    soil::SoilSite site{station.place, Depth::from_cm(5.0), {}, {}, {}};
    site.measured.emplace(site.depth, measured->second.slice(read));
    const soil::SoilTemperature soil = soil::soil_temperature(catalogue.soil, site, air);
    const auto best = soil::corrected(soil, Hemisphere::north, judged);
    for (Day day = judged.begin(); day < judged.end(); day += Days{1}) {
      const auto truth = measured->second.at(day);
      const auto said = best.at(day);
      const auto plain = soil.estimate.at(day);
      if (!truth || !said || !plain) continue;
      add_day(squares.with, day, *said - *truth);
      add_day(squares.without, day, *plain - *truth);
    }
  }
  return squares;
}

void print_year_after(const std::vector<const Station*>& stations, const advice::Catalogue& catalogue,
                      unsigned threads) {
  YearAfter sum;
  for (const YearAfter& part : worked_off(stations, threads, [&](const Station* station) {
         return year_after_readings(*station, catalogue);
       })) {
    sum.with += part.with;
    sum.without += part.without;
  }
  fmt::print("\n| readings | spring RMSE, C | fall RMSE, C |\n| --- | --- | --- |\n");
  fmt::print("| none | {:.2f} | {:.2f} |\n", sum.without.spring_rmse(), sum.without.fall_rmse());
  fmt::print("| every day of the year before | {:.2f} | {:.2f} |\n", sum.with.spring_rmse(),
             sum.with.fall_rmse());
}

}  // namespace

std::vector<soil::SpotMean> weekly_spots(const Station& station, ReadingNoise noise, Day until,
                                         const advice::Catalogue& catalogue) {
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  if (measured == station.soil.end()) return {};
  const RandomField field{7};
  std::uint64_t stream = noise.draw;
  for (const char letter : station.name) stream = 31 * stream + static_cast<unsigned char>(letter);
  const double assumed_k2 = catalogue.soil.choose(station.place).shallow_error.reading_variance;
  std::vector<soil::SpotMean> spots;
  for (Day day = first_reading; day < until; day += Days{reading_every_days}) {
    const auto value = measured->second.at(day);
    if (!value) continue;
    const double error =
        noise.sd_k * field.normal(stream, static_cast<std::uint64_t>(day.time_since_epoch().count()));
    spots.push_back({day, measured->first, *value + TemperatureDelta::from_kelvin(error), assumed_k2});
  }
  return spots;
}

void print_soil_errors(const std::vector<const Station*>& stations, const advice::Catalogue& catalogue,
                       unsigned threads) {
  print_weekly_readings(stations, catalogue, threads);
  print_year_after(stations, catalogue, threads);
}

}  // namespace soilclock::studies
