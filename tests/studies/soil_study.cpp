// SPDX-License-Identifier: MIT
// How often the 80 percent band of a crossing still to come holds the day that came, without readings of the
// soil and with one a week.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <random>

#include "advice/ensemble/quantiles.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/forecast_scores.hpp"
#include "studies/band_score.hpp"
#include "studies/season_dates.hpp"
#include "studies/soil_errors.hpp"
#include "studies/studies.hpp"
#include "studies/workers.hpp"

namespace soilclock::studies {

namespace {

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

/// What is read of the soil before the day of the question.
enum class Readings { none, one_a_week };
constexpr double hand_reading_sd = 1.0;  // C

struct Outcome {
  std::string station;
  std::size_t crossing;
  int year;
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

std::optional<Outcome> outcome(const Station& station, std::size_t index, Day on, Readings readings,
                               const advice::Catalogue& catalogue) {
  const Crossing& what = crossings[index];
  const Season season = season_of(on, what.season, station.place.hemisphere());
  const DayRange searched = searched_days(station, what, on);
  const auto truth = day_that_came(station, what, on);
  if (!truth) return std::nullopt;
  auto prepared = prepare_weather(request_of(station, {station.daily.air_min.first(), on}), catalogue);
  if (!prepared) return std::nullopt;
  if (readings == Readings::one_a_week)
    prepared->site.spots = weekly_spots(station, {hand_reading_sd, 0}, on, catalogue);
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
                 civil(on).year,
                 *band.low <= came && (!band.high || came <= *band.high),
                 static_cast<double>(*band.middle - came),
                 band.high ? std::optional{static_cast<double>(*band.high - *band.low)} : std::nullopt,
                 advice::crps(advice::DayEnsemble::even(days), came, season.length()),
                 mean_date_error(station, what, on, came)};
}

std::vector<Outcome> outcomes_of(const Station& station, Readings readings,
                                 const advice::Catalogue& catalogue) {
  std::vector<Outcome> all;
  const int last = civil(station.daily.air_min.last()).year;
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) {
    for (int year = first_judged_season; year <= last; ++year) {
      for (const auto& [month, day] : crossings[crossing].issue_days) {
        const Day on = make_day(year, month, day);
        if (auto one = outcome(station, crossing, on, readings, catalogue)) all.push_back(*one);
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

/// By year, then by station, whether the bands of one crossing held.
using Held = std::map<int, std::map<std::string, std::vector<bool>>>;

Held held_by_year(std::size_t crossing, const std::vector<Outcome>& all) {
  Held held;
  for (const Outcome& one : all) {
    if (one.crossing == crossing) held[one.year][one.station].push_back(one.inside);
  }
  return held;
}

/// Percent held at each station.
std::map<std::string, double> percent_held(const Held& held) {
  std::map<std::string, std::pair<int, int>> counts;
  for (const auto& [year, stations] : held) {
    for (const auto& [station, bands] : stations) {
      counts[station].first += static_cast<int>(std::count(bands.begin(), bands.end(), true));
      counts[station].second += static_cast<int>(bands.size());
    }
  }
  std::map<std::string, double> percents;
  for (const auto& [station, count] : counts) percents[station] = 100.0 * count.first / count.second;
  return percents;
}

int stations_within(const std::map<std::string, double>& percents) {
  return static_cast<int>(std::count_if(percents.begin(), percents.end(), [](const auto& one) {
    return one.second >= 65.0 && one.second <= 92.0;
  }));
}

/// How many stations would lie within if nothing of a band's fate stayed with its station: the seasons of
/// each year dealt anew to the stations that have one, the mean of many deals.
double stations_within_by_chance(const Held& held) {
  constexpr int deals = 400;
  std::mt19937 order{7};
  int within = 0;
  for (int deal = 0; deal < deals; ++deal) {
    Held dealt = held;
    for (auto& [year, stations] : dealt) {
      std::vector<std::vector<bool>> seasons;
      for (auto& [station, bands] : stations) seasons.push_back(bands);
      std::shuffle(seasons.begin(), seasons.end(), order);
      std::size_t next = 0;
      for (auto& [station, bands] : stations) bands = seasons[next++];
    }
    within += stations_within(percent_held(dealt));
  }
  return static_cast<double>(within) / deals;
}

/// The standard error of the mean error, years taken as independent and the stations of a year as one.
double standard_error_days(std::size_t crossing, const std::vector<Outcome>& all) {
  std::map<int, std::pair<double, int>> sums;
  for (const Outcome& one : all) {
    if (one.crossing != crossing) continue;
    sums[one.year].first += one.error_days;
    ++sums[one.year].second;
  }
  double mean = 0.0;
  for (const auto& [year, sum] : sums) mean += sum.first / sum.second / static_cast<double>(sums.size());
  double squares = 0.0;
  for (const auto& [year, sum] : sums) squares += std::pow(sum.first / sum.second - mean, 2);
  const auto years = static_cast<double>(sums.size());
  return std::sqrt(squares / (years - 1.0) / years);
}

void print_crossing(std::size_t crossing, const std::vector<Outcome>& all) {
  BandScore pooled;
  for (const Outcome& one : all) {
    if (one.crossing == crossing) pooled.add(one.inside, one.error_days, one.width_days);
  }
  const Held held = held_by_year(crossing, all);
  const auto percents = percent_held(held);
  const auto by_percent = [](const auto& a, const auto& b) { return a.second < b.second; };
  const auto [least, most] = std::minmax_element(percents.begin(), percents.end(), by_percent);
  fmt::print("| {} | {} | {:.1f} | {} of {} | {:.0f} | {:.0f} to {:.0f}% |\n", crossings[crossing].name,
             pooled.cells(), standard_error_days(crossing, all), stations_within(percents), percents.size(),
             stations_within_by_chance(held), least->second, most->second);
}

void print_crossings(const char* readings, const std::vector<Outcome>& all) {
  fmt::print(
      "\n| crossing at 2 in, {} | dates | inside the 80% band | band, days | mean error, days | mean "
      "absolute "
      "error, days | standard error of the mean error | stations at 65 to 92% | by chance | stations, least "
      "to "
      "most |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
      readings);
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) print_crossing(crossing, all);
}

}  // namespace

bool study_soil(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads) {
  const std::vector<const Station*> chosen = several_years(stations);
  const auto asked = [&](Readings readings) {
    return gathered(chosen, threads,
                    [&](const Station* station) { return outcomes_of(*station, readings, catalogue); });
  };
  const auto unread = asked(Readings::none);
  print_crossings("no readings", unread);
  print_crossings("a reading a week off by 1 C", asked(Readings::one_a_week));
  fmt::print(
      "\n| crossing at 2 in | dates | CRPS, days | of the mean date of earlier years | gain |\n| --- | --- | "
      "--- | --- | --- |\n");
  for (std::size_t crossing = 0; crossing < crossings.size(); ++crossing) print_gain(crossing, unread);
  print_soil_errors(chosen, catalogue, threads);
  return true;
}

}  // namespace soilclock::studies
