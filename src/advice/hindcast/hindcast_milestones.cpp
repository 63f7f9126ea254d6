// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_milestones.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "advice/answer/windows.hpp"
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

std::vector<IssuedForecast> MilestoneSubject::forecasts(const std::optional<SeenSeason>& seen) const {
  std::vector<IssuedForecast> forecasts(milestone_percents.size());
  if (!seen || seen->ensemble.runs.targets.empty()) return forecasts;
  const TargetRun& run = seen->ensemble.runs.targets.front();
  const MiddleCurve middle{run};
  const auto in_season = [&](const std::optional<Day>& day) {
    return day ? Outcome{run.season.day_of_season(*day)} : Outcome{};
  };
  for (std::size_t i = 0; i < forecasts.size(); ++i) {
    const double share = milestone_percents[i] / 100.0;
    std::vector<std::optional<int>> days;
    for (const TargetMember& member : run.members) days.push_back(member.curve.first_day_reaching(share));
    const DateBand band = date_reaching(run, middle, share);
    forecasts[i].program = DayEnsemble::even(days);
    forecasts[i].band = {in_season(band.low), in_season(band.middle), in_season(band.high)};
  }
  return forecasts;
}

std::vector<std::optional<Outcome>> MilestoneSubject::outcome(const Season& season) const {
  const std::array targets{&target_};
  std::vector<std::optional<Outcome>> happened;
  for (const IssuedForecast& known :
       forecasts(in_hindsight(history_, season, targets, catalogue_, {run_.members, run_.seed}))) {
    happened.emplace_back();  // not known; "never" is something else
    if (known.band) happened.back().emplace(known.band->middle);
  }
  return happened;
}

std::vector<IssuedForecast> MilestoneSubject::issued(const Season& season, Day issue_date) const {
  const std::array targets{&target_};
  SiteWeather site = known_on(history_, issue_date, run_.known_ahead, catalogue_.futures);
  if (!run_.with_readings) site = with_readings_before(std::move(site), season.first);
  return forecasts(season_known(std::move(site), season, targets, catalogue_, {run_.members, run_.seed}));
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
