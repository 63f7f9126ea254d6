// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_milestones.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "advice/ensemble/target_plan.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

constexpr std::array milestone_percents{5, 25, 50, 80};

}  // namespace

MilestoneSubject::MilestoneSubject(const SiteHistory& history, const Catalogue& catalogue,
                                   const emergence::Target& target, HindcastRun run)
    : history_{history}, catalogue_{catalogue}, target_{target}, run_{run} {}

std::vector<HindcastSubject::Event> MilestoneSubject::events() const {
  std::vector<Event> events;
  events.reserve(milestone_percents.size());
  for (const int percent : milestone_percents) {
    events.push_back({fmt::format("{}-{}", target_.code, percent),
                      fmt::format("{} percent of the season's {} are up", percent, lowered(target_.title)),
                      false});
  }
  return events;
}

std::optional<TargetRun> MilestoneSubject::run(const SiteWeather& site, const Season& season) const {
  const SiteSoil soil = site_soil(site, catalogue_.soil);
  const StratifiedDraws draws{run_.seed, run_.members};
  const DayRange span{season.first - Days{emergence::lead_in_days}, season.end()};
  const Day since = complete_since(site);
  if (since >= site.outlook_start) return std::nullopt;
  const Scenarios scenarios{site, catalogue_.soil, soil, span, draws, run_.seed};
  const PlannedTarget plan = plan_target(catalogue_, target_, season, site, soil, scenarios);
  if (plan.refusal) return std::nullopt;
  const auto& rule = target_.single_window;
  if (rule && plan.climate && single_window_share(*plan.climate, *rule) <= 0.0) return std::nullopt;
  SeasonRuns runs =
      run_targets({plan.job}, season, scenarios, draws, catalogue_, site.place, site.irrigation);
  return std::move(runs.targets.front());
}

std::vector<std::optional<Outcome>> MilestoneSubject::outcome(const Season& season) const {
  std::vector<std::optional<Outcome>> dates(milestone_percents.size());
  if (history_.end < season.end()) return dates;
  const auto whole = run(known_on(history_, season.end(), 0), season);
  if (!whole) return dates;
  for (std::size_t i = 0; i < dates.size(); ++i) {
    std::vector<std::optional<int>> days;
    for (const TargetMember& member : whole->members) {
      days.push_back(member.curve.first_day_reaching(milestone_percents[i] / 100.0));
    }
    dates[i] = DayEnsemble::even(days).quantile(0.5);
  }
  return dates;
}

std::vector<IssuedForecast> MilestoneSubject::issued(const Season& season, Day issue_date) const {
  std::vector<IssuedForecast> result(milestone_percents.size());
  SiteWeather site = known_on(history_, issue_date, run_.known_ahead);
  if (!run_.with_readings) site = without_readings(std::move(site));
  const auto ahead = run(site, season);
  if (!ahead) return result;
  for (std::size_t i = 0; i < result.size(); ++i) {
    std::vector<std::optional<int>> days;
    for (const TargetMember& member : ahead->members) {
      days.push_back(member.curve.first_day_reaching(milestone_percents[i] / 100.0));
    }
    result[i].program = DayEnsemble::even(days);
  }
  return result;
}

std::vector<Remark> MilestoneSubject::remarks() const {
  return {{"no-counts",
           "No count of seedlings is at hand: what happened is the date the same models give once the whole "
           "season's "
           "weather is known. This tests what was said about the weather to come, not the models, whose own "
           "spread stays in "
           "the bands: they hold more than 80 percent."}};
}

}  // namespace soilclock::advice
