// SPDX-License-Identifier: MIT
// What a course can rely on whose record is short: the date of half up as foreseen from the weather of the
// year before, against the date with the weather and soil that came.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <map>

#include "studies/band_score.hpp"
#include "studies/season_dates.hpp"
#include "studies/studies.hpp"
#include "studies/workers.hpp"

namespace soilclock::studies {

namespace {

struct IssueDay {
  const char* target;
  int month;
  int day;
};
constexpr std::array issue_days{IssueDay{"DIGIS", 4, 1}, IssueDay{"DIGIS", 4, 15}, IssueDay{"POAAN", 9, 1},
                                IssueDay{"POAAN", 9, 15}};
constexpr std::array record_years{1, 2, 8};
constexpr int first_season = 2011;  // those without a year of record before them give no answer

/// One forecast date against what came, days; an end of the band that never comes lies after every date.
struct Outcome {
  std::size_t issue_day;
  std::size_t record;
  double error;
  bool inside;
  std::optional<double> width;
};

std::vector<Outcome> outcomes_of(const Station& station, const advice::Catalogue& catalogue) {
  std::vector<Outcome> outcomes;
  const int last = civil(station.daily.air_min.last()).year;
  for (int year = first_season; year < last; ++year) {
    std::map<std::string, std::optional<Day>> truths;
    for (std::size_t i = 0; i < issue_days.size(); ++i) {
      const IssueDay& issue = issue_days[i];
      const Day on = make_day(year, issue.month, issue.day);
      if (!truths.contains(issue.target))
        truths[issue.target] = true_half_up(station, issue.target, on, catalogue);
      const auto truth = truths[issue.target];
      if (!truth) continue;
      for (std::size_t r = 0; r < record_years.size(); ++r) {
        const Day from = std::max(years_before(on, record_years[r]), station.daily.air_min.first());
        const auto answer = ask(station, issue.target, {from, on}, catalogue);
        const auto band = answer ? milestone(*answer, 50) : std::nullopt;
        if (!band || !band->middle || !band->low) continue;
        const auto days = [&](Day day) { return static_cast<double>((day - *truth).count()); };
        const bool inside = *band->low <= *truth && (!band->high || *truth <= *band->high);
        const auto width = band->high ? std::optional{static_cast<double>((*band->high - *band->low).count())}
                                      : std::nullopt;
        outcomes.push_back({i, r, days(*band->middle), inside, width});
      }
    }
  }
  return outcomes;
}

void print_dates(const char* records, const std::vector<Outcome>& all) {
  fmt::print(
      "\n| target, {} | on | years of record, at most | dates | inside the 80% band | band, days | mean "
      "error, "
      "days | mean absolute error, days |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n",
      records);
  for (std::size_t i = 0; i < issue_days.size(); ++i) {
    for (std::size_t r = 0; r < record_years.size(); ++r) {
      BandScore score;
      for (const Outcome& one : all) {
        if (one.issue_day == i && one.record == r) score.add(one.inside, one.error, one.width);
      }
      if (score.count() == 0) continue;
      fmt::print("| {} | {}/{} | {} | {} |\n", issue_days[i].target, issue_days[i].month, issue_days[i].day,
                 record_years[r], score.cells());
    }
  }
}

}  // namespace

bool study_dates(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads) {
  const auto outcomes = [&](const std::vector<const Station*>& chosen) {
    return gathered(chosen, threads,
                    [&](const Station* station) { return outcomes_of(*station, catalogue); });
  };
  print_dates("stations", outcomes(several_years(stations)));
  const std::vector<Station> cities = read_cities();
  std::vector<const Station*> chosen;
  for (const Station& city : cities) chosen.push_back(&city);
  if (!chosen.empty()) print_dates("two cities", outcomes(chosen));
  return true;
}

}  // namespace soilclock::studies
