// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_milestones.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

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

std::vector<std::vector<std::optional<int>>> MilestoneSubject::dates(
    const std::optional<SeenSeason>& seen) const {
  std::vector<std::vector<std::optional<int>>> dates;
  if (!seen || seen->ensemble.runs.targets.empty()) return dates;
  for (const int percent : milestone_percents) {
    dates.emplace_back();
    for (const TargetMember& member : seen->ensemble.runs.targets.front().members)
      dates.back().push_back(member.curve.first_day_reaching(percent / 100.0));
  }
  return dates;
}

std::vector<std::optional<Outcome>> MilestoneSubject::outcome(const Season& season) const {
  const std::array targets{&target_};
  std::vector<std::optional<Outcome>> happened(milestone_percents.size());
  const auto days = dates(in_hindsight(history_, season, targets, catalogue_, {run_.members, run_.seed}));
  for (std::size_t i = 0; i < days.size(); ++i) happened[i] = DayEnsemble::even(days[i]).quantile(0.5);
  return happened;
}

std::vector<IssuedForecast> MilestoneSubject::issued(const Season& season, Day issue_date) const {
  const std::array targets{&target_};
  std::vector<IssuedForecast> result(milestone_percents.size());
  SiteWeather site = known_on(history_, issue_date, run_.known_ahead, catalogue_.futures);
  if (!run_.with_readings) site = without_readings(std::move(site));
  const auto days =
      dates(season_known(std::move(site), season, targets, catalogue_, {run_.members, run_.seed}));
  for (std::size_t i = 0; i < days.size(); ++i) result[i].program = DayEnsemble::even(days[i]);
  return result;
}

std::vector<Remark> MilestoneSubject::remarks() const {
  return {
      {"no-counts",
       "Model dates, not counted plants: what happened is the date the same models give once the whole "
       "season's "
       "weather is known. This tests what was forecast about the weather to come, not the models, whose own "
       "spread stays in "
       "the bands: they hold more than 80 percent."}};
}

}  // namespace soilclock::advice
