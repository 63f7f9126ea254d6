// SPDX-License-Identifier: MIT
#include "treatment/spray_day.hpp"

#include <algorithm>
#include <iterator>

#include "treatment/spray_gates.hpp"

namespace soilclock::treatment {

namespace {

/// What a week could not be judged by.
struct Losses {
  bool hours = false;
  bool wind = false;
  bool humidity = false;
  bool rain = false;
  bool values = false;
};

void merge(std::vector<SprayFinding>& into, const std::vector<SprayFinding>& more) {
  for (const SprayFinding& finding : more) {
    const bool there = std::any_of(into.begin(), into.end(),
                                   [&](const SprayFinding& known) { return known.gate == finding.gate; });
    if (!there) into.push_back(finding);
  }
}

void take_runs(DayFitness& fitness, const std::vector<HourRun>& runs, const SprayRules& rules) {
  const HourRun* longest = nullptr;
  for (const HourRun& run : runs) {
    if (run.length() < rules.run_least_h) continue;
    fitness.usable_hours += run.length();
    if (longest == nullptr || run.length() > longest->length()) longest = &run;
  }
  fitness.fit = longest != nullptr;
  if (longest != nullptr) {
    fitness.best_from_h = longest->from;
    fitness.best_to_h = longest->to;
  }
}

/// Mean wind of the runs that are long enough, else of all daylight whose wind is known.
std::optional<double> mean_wind(const std::vector<WindPart>& winds, const std::vector<HourRun>& runs,
                                const SprayRules& rules) {
  const auto mean_within = [&](const std::vector<HourRun>& within) -> std::optional<double> {
    double hours = 0.0;
    double sum = 0.0;
    for (const WindPart& wind : winds) {
      for (const HourRun& run : within) {
        const double shared = std::min(run.to, wind.part.to) - std::max(run.from, wind.part.from);
        if (shared <= 0.0) continue;
        hours += shared;
        sum += shared * wind.m_per_s;
      }
    }
    return hours > 0.0 ? std::optional{sum / hours} : std::nullopt;
  };
  std::vector<HourRun> usable;
  std::copy_if(runs.begin(), runs.end(), std::back_inserter(usable),
               [&](const HourRun& run) { return run.length() >= rules.run_least_h; });
  const auto in_usable = mean_within(usable);
  return in_usable ? in_usable : mean_within({{0.0, 24.0}});
}

DayFitness judge_day(Day day, SprayJob job, std::span<const weather::HourlyObservation> hours,
                     const weather::DailyWeather& daily, const SpraySite& site, const SprayRules& rules,
                     Losses& losses) {
  DayFitness fitness;
  fitness.day = day;
  const HoursVerdict verdict = usable_hours(day, job, hours, site, rules);
  fitness.from_hours = verdict.known;
  // Days filled from other years or by normals are no weather to spray by, and a day of unknown rain may be a
  // wet one.
  const Quality quality = daily.air_max.quality(day);
  const bool real = quality == Quality::measured || quality == Quality::forecast;
  fitness.known = verdict.known || (real && daily.rain.at(day));
  if (!fitness.known) {
    losses.values = true;
    return fitness;
  }
  losses.hours = losses.hours || !verdict.known;
  losses.wind = losses.wind || (verdict.known && !verdict.wind_known);
  losses.humidity = losses.humidity || (verdict.known && !verdict.humidity_known);
  losses.rain = losses.rain || (verdict.known ? !verdict.rain_known : !daily.rain.at(day));
  fitness.findings = day_findings(day, job, daily, site, rules, verdict.known && verdict.rain_known);
  const bool stopped = std::any_of(fitness.findings.begin(), fitness.findings.end(),
                                   [](const SprayFinding& finding) { return finding.stops; });
  merge(fitness.findings, verdict.findings);
  if (stopped) {
    fitness.wind_m_s = mean_wind(verdict.wind, {}, rules);
    return fitness;
  }
  fitness.wind_m_s = mean_wind(verdict.wind, verdict.runs, rules);
  take_runs(fitness, verdict.known ? verdict.runs : std::vector{plain_daytime(day, site, rules)}, rules);
  return fitness;
}

std::vector<Remark> remarks_of(const Losses& losses) {
  std::vector<Remark> remarks;
  if (losses.hours) {
    remarks.push_back(
        {"spray-day-without-hours",
         "Some days are judged from daily values only: wind, humidity and the hours of rain are not known"});
  }
  if (losses.wind)
    remarks.push_back({"spray-day-without-wind", "Hourly values without wind: measure it at the place"});
  if (losses.humidity) {
    remarks.push_back(
        {"spray-day-without-humidity", "Hourly values without humidity: drying of drops not judged"});
  }
  if (losses.rain) remarks.push_back({"spray-day-without-rain", "Rain is not known for some days"});
  if (losses.values)
    remarks.push_back({"spray-day-without-weather", "Some days have no weather to judge by"});
  return remarks;
}

}  // namespace

WeekFitness judge_days(Day first, int count, SprayJob job, std::span<const weather::HourlyObservation> hours,
                       const weather::DailyWeather& daily, const SpraySite& site, const SprayRules& rules) {
  WeekFitness week;
  Losses losses;
  for (int i = 0; i < count; ++i) {
    week.days.push_back(judge_day(first + Days{i}, job, hours, daily, site, rules, losses));
    const DayFitness& day = week.days.back();
    week.usable_hours += day.usable_hours;
    if (day.known) week.fit_days = week.fit_days.value_or(0) + (day.fit ? 1 : 0);
  }
  week.remarks = remarks_of(losses);
  return week;
}

}  // namespace soilclock::treatment
