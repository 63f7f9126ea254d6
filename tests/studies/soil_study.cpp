// SPDX-License-Identifier: MIT
// The soil without a probe: how far the estimate is off, and how often the 80 percent band of a crossing
// still to come holds the day that came.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "advice/ensemble/quantiles.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/forecast_scores.hpp"
#include "core/random.hpp"
#include "soil/soil_temperature.hpp"
#include "studies/band_score.hpp"
#include "studies/season_dates.hpp"
#include "studies/studies.hpp"
#include "studies/workers.hpp"

namespace soilclock::studies {

namespace {

constexpr int first_season = 2013;  // four years of record before it
constexpr int trailing_days = 5;

struct Crossing {
  const char* name;
  double celsius;
  bool falling;
  SeasonKind season;
  unsigned search_month;  // not before its first day
  std::array<std::pair<unsigned, unsigned>, 4> issue_days;
};
constexpr std::array crossings{
    Crossing{"down to 66 F", 18.9, true, SeasonKind::fall, 8, {{{9, 1}, {9, 15}, {10, 1}, {10, 15}}}},
    Crossing{"up to 50 F", 10.0, false, SeasonKind::summer, 2, {{{2, 15}, {3, 1}, {3, 15}, {4, 1}}}},
    Crossing{"up to 55 F", 12.8, false, SeasonKind::summer, 2, {{{2, 15}, {3, 1}, {3, 15}, {4, 1}}}}};

struct Outcome {
  std::string station;
  std::size_t crossing;
  bool inside;
  double error_days;
  std::optional<double> width_days;
  double crps_days;
  std::optional<double> mean_date_days;  ///< the same of the mean date of earlier years
};

/// First day from `from` on at whose end the mean of five days has passed the mark; `soil_on` gives nothing
/// where unknown.
template <class SoilOn>
std::optional<Day> crossing_day(const Crossing& what, DayRange days, const SoilOn& soil_on) {
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    double sum = 0.0;
    for (int back = 0; back < trailing_days; ++back) {
      const std::optional<double> soil = soil_on(day - Days{back});
      if (!soil) return std::nullopt;
      sum += *soil;
    }
    const double mean = sum / trailing_days;
    if (what.falling ? mean <= what.celsius : mean >= what.celsius) return day;
  }
  return std::nullopt;
}

/// Where a crossing is looked for in the season of a day.
DayRange searched_days(const Station& station, const Crossing& what, Day on) {
  const Season season = season_of(on, what.season, station.place.hemisphere());
  return {std::max(season.first + Days{trailing_days},
                   make_day(civil(on).year, what.search_month, 1) + Days{trailing_days}),
          season.end()};
}

/// The day that came; nothing where it is not known or the search begins beyond the mark.
std::optional<Day> day_that_came(const Station& station, const Crossing& what, Day on) {
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  if (measured == station.soil.end()) return std::nullopt;
  const DayRange searched = searched_days(station, what, on);
  const auto came = crossing_day(what, searched, [&](Day day) -> std::optional<double> {
    const auto value = measured->second.at(day);
    return value ? std::optional{value->celsius()} : std::nullopt;
  });
  return came && *came != searched.begin() ? came : std::nullopt;
}

/// How far the mean date of the years before is off, as forecast on a day; nothing without three of them.
std::optional<double> mean_date_error(const Station& station, const Crossing& what, Day on, int came) {
  constexpr int fewest = 3;
  double sum = 0.0;
  int years = 0;
  for (int year = civil(station.daily.air_min.first()).year; year < civil(on).year; ++year) {
    const Day then = make_day(year, civil(on).month, civil(on).day);
    const Season season = season_of(then, what.season, station.place.hemisphere());
    const auto day = day_that_came(station, what, then);
    if (!day) continue;
    sum += season.day_of_season(*day);
    ++years;
  }
  if (years < fewest) return std::nullopt;
  const int today = season_of(on, what.season, station.place.hemisphere()).day_of_season(on);
  return std::abs(std::max<double>(std::round(sum / years), today) - came);
}

std::optional<Outcome> outcome(const Station& station, std::size_t index, Day on,
                               const advice::Catalogue& catalogue) {
  const Crossing& what = crossings[index];
  const Season season = season_of(on, what.season, station.place.hemisphere());
  const DayRange searched = searched_days(station, what, on);
  const auto truth = day_that_came(station, what, on);
  if (!truth) return std::nullopt;
  const auto prepared = prepare_weather(request_of(station, {station.daily.air_min.first(), on}), catalogue);
  if (!prepared) return std::nullopt;
  const advice::SiteSoil soil = advice::site_soil(prepared->site, catalogue.soil);
  const auto ensemble = advice::run_season(prepared->site, soil, season, {}, catalogue, {});
  std::vector<std::optional<int>> days;
  for (const std::vector<Temperature>& member : ensemble.runs.soil) {
    const auto crossed = crossing_day(what, searched, [&](Day day) -> std::optional<double> {
      const auto i = season.day_of_season(day);
      return member[static_cast<std::size_t>(i)].celsius();
    });
    days.push_back(crossed ? std::optional{season.day_of_season(*crossed)} : std::nullopt);
  }
  const auto band = advice::day_band_of(days);
  if (!band.low || !band.middle) return std::nullopt;
  const int came = season.day_of_season(*truth);
  return Outcome{station.name,
                 index,
                 *band.low <= came && (!band.high || came <= *band.high),
                 static_cast<double>(*band.middle - came),
                 band.high ? std::optional{static_cast<double>(*band.high - *band.low)} : std::nullopt,
                 advice::crps(advice::DayEnsemble::even(days), came, season.length()),
                 mean_date_error(station, what, on, came)};
}

std::vector<Outcome> outcomes_of(const Station& station, const advice::Catalogue& catalogue) {
  std::vector<Outcome> all;
  const int last = civil(station.daily.air_min.last()).year;
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) {
    for (int year = first_season; year <= last; ++year) {
      for (const auto& [month, day] : crossings[crossing].issue_days) {
        if (auto one = outcome(station, crossing, make_day(year, month, day), catalogue)) all.push_back(*one);
      }
    }
  }
  return all;
}

/// By how much the score is lower than that of the mean date, where there is one.
void print_gain(std::size_t crossing, const std::vector<Outcome>& all) {
  double own = 0.0;
  double rival = 0.0;
  int dates = 0;
  for (const Outcome& one : all) {
    if (one.crossing != crossing || !one.mean_date_days) continue;
    own += one.crps_days;
    rival += *one.mean_date_days;
    ++dates;
  }
  fmt::print("| {} | {} | {:.1f} | {:.1f} | {:+.0f}% |\n", crossings[crossing].name, dates, own / dates,
             rival / dates, 100.0 * (1.0 - own / rival));
}

void print_crossing(std::size_t crossing, const std::vector<Outcome>& all) {
  BandScore pooled;
  std::map<std::string, BandScore> by_station;
  for (const Outcome& one : all) {
    if (one.crossing != crossing) continue;
    pooled.add(one.inside, one.error_days, one.width_days);
    by_station[one.station].add(one.inside, one.error_days, one.width_days);
  }
  int within = 0;
  double least = 100.0;
  double most = 0.0;
  for (const auto& [station, score] : by_station) {
    const double percent = score.percent_inside();
    within += percent >= 65.0 && percent <= 92.0 ? 1 : 0;
    least = std::min(least, percent);
    most = std::max(most, percent);
  }
  fmt::print("| {} | {} | {} of {} | {:.0f} to {:.0f}% |\n", crossings[crossing].name, pooled.cells(), within,
             by_station.size(), least, most);
}

/// Squares of what is off on days without a reading, with a reading a week that errs by so much.
struct Squares {
  double spring = 0.0, autumn = 0.0;
  int spring_days = 0, autumn_days = 0;

  void operator+=(const Squares& other) {
    spring += other.spring;
    autumn += other.autumn;
    spring_days += other.spring_days;
    autumn_days += other.autumn_days;
  }
  double spring_rmse() const { return std::sqrt(spring / spring_days); }
  double autumn_rmse() const { return std::sqrt(autumn / autumn_days); }
};

void add_day(Squares& squares, Day day, TemperatureDelta off) {
  const double square = off.kelvin() * off.kelvin();
  const unsigned month = civil(day).month;
  if (month >= 3 && month <= 5) squares.spring += square, ++squares.spring_days;
  if (month >= 9 && month <= 11) squares.autumn += square, ++squares.autumn_days;
}

Squares weekly_readings(const Station& station, double reading_sd, const advice::Catalogue& catalogue) {
  Squares squares;
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  if (measured == station.soil.end()) return squares;
  const RandomField field{7};
  soil::SoilSite site{station.place, Depth::from_cm(5.0), {}, {}, {}};
  const DailySeries<Temperature> air = weather::air_mean(station.daily);
  const double assumed_k2 = catalogue.soil.choose(station.place).shallow_error.reading_variance;
  for (Day day = make_day(2012, 1, 4); day < air.days().end(); day += Days{7}) {
    const auto value = measured->second.at(day);
    if (!value) continue;
    const double error =
        reading_sd * field.normal(1, static_cast<std::uint64_t>(day.time_since_epoch().count()));
    site.spots.push_back({day, site.depth, *value + TemperatureDelta::from_kelvin(error), assumed_k2});
  }
  const soil::SoilTemperature soil = soil::soil_temperature(catalogue.soil, site, air);
  for (int year = first_season; year <= civil(air.last()).year; ++year) {
    const DayRange days{make_day(year, 1, 1), make_day(year + 1, 1, 1)};
    const auto best = soil::corrected(soil, Hemisphere::north, days, soil::MovedBy::readings_so_far);
    for (Day day = days.begin(); day < days.end(); day += Days{1}) {
      const auto truth = measured->second.at(day);
      const auto said = best.at(day);
      const bool read = (day - make_day(2012, 1, 4)).count() % 7 == 0;
      if (!truth || !said || read) continue;
      add_day(squares, day, *said - *truth);
    }
  }
  return squares;
}

void print_weekly_readings(const std::vector<const Station*>& stations, const advice::Catalogue& catalogue,
                           unsigned threads) {
  fmt::print("\n| error of a reading a week, C | spring RMSE, C | autumn RMSE, C |\n| --- | --- | --- |\n");
  for (const double sd : {0.0, 0.2, 0.5, 1.0}) {
    Squares sum;
    for (const Squares& part : worked_off(stations, threads, [&](const Station* station) {
           return weekly_readings(*station, sd, catalogue);
         })) {
      sum += part;
    }
    fmt::print("| {} | {:.2f} | {:.2f} |\n", sd, sum.spring_rmse(), sum.autumn_rmse());
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
  for (int year = first_season; year <= civil(air.last()).year; ++year) {
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
  fmt::print("\n| readings | spring RMSE, C | autumn RMSE, C |\n| --- | --- | --- |\n");
  fmt::print("| none | {:.2f} | {:.2f} |\n", sum.without.spring_rmse(), sum.without.autumn_rmse());
  fmt::print("| every day of the year before | {:.2f} | {:.2f} |\n", sum.with.spring_rmse(),
             sum.with.autumn_rmse());
}

}  // namespace

bool study_soil(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads) {
  const std::vector<const Station*> chosen = several_years(stations);
  const auto all =
      gathered(chosen, threads, [&](const Station* station) { return outcomes_of(*station, catalogue); });
  fmt::print(
      "| crossing at 2 in | dates | inside the 80% band | band, days | mean error, days | mean absolute "
      "error, days | "
      "stations at 65 to 92% | stations, least to most |\n| --- | --- | --- | --- | --- | --- | --- | --- "
      "|\n");
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) print_crossing(crossing, all);
  fmt::print(
      "\n| crossing at 2 in | dates | CRPS, days | of the mean date of earlier years | gain |\n| --- | --- | "
      "--- | --- | --- |\n");
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) print_gain(crossing, all);
  print_weekly_readings(chosen, catalogue, threads);
  print_year_after(chosen, catalogue, threads);
  return true;
}

}  // namespace soilclock::studies
