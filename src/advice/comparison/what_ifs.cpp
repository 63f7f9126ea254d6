// SPDX-License-Identifier: MIT
#include "advice/comparison/what_ifs.hpp"

#include <fmt/format.h>

#include "advice/answer/target_decision.hpp"
#include "advice/answer/windows.hpp"
#include "advice/hindcast/season_in_hindsight.hpp"
#include "advice/site/weather_change.hpp"
#include "core/unit_words.hpp"

namespace soilclock::advice {

namespace {

/// A case before it is run: its name and the site it is run for.
struct ChangedSite {
  std::string id;
  std::string title;
  SiteHistory history;
};

ChangedSite with_soil_moved(const SiteHistory& history, double by_k, bool us_units) {
  const TemperatureDelta shift = TemperatureDelta::from_kelvin(by_k);
  ChangedSite changed{fmt::format("soil{:+.0f}", by_k),
                      fmt::format("soil {} {}", difference_words(shift, us_units),
                                  by_k > 0.0 ? "warmer (open, full sun)" : "cooler (shade, north side)"),
                      history};
  changed.history.soil_offset = history.soil_offset + shift;
  return changed;
}

ChangedSite with_other_watering(const SiteHistory& history) {
  const bool irrigated = history.irrigation.irrigated;
  ChangedSite changed{irrigated ? "not-watered" : "watered", irrigated ? "turf not watered" : "turf watered",
                      history};
  changed.history.irrigation = emergence::Irrigation{!irrigated, 0.0};
  return changed;
}

ChangedSite with_missing_days(const SiteHistory& history, Day before, int days) {
  ChangedSite changed{"missing-week",
                      fmt::format("weather of {} to {} missing", short_date(before - Days{days}),
                                  short_date(before - Days{1})),
                      history};
  clear_days(changed.history.daily, before, days);
  return changed;
}

std::vector<ChangedSite> cases_of(const SiteHistory& history, Day asked_on, const ComparisonRules& rules) {
  std::vector<ChangedSite> cases;
  cases.push_back({"as-it-is", "the site as it is", history});
  for (const double shift : {rules.small_soil_shift.kelvin(), rules.large_soil_shift.kelvin()}) {
    cases.push_back(with_soil_moved(history, shift, history.us_units));
    cases.push_back(with_soil_moved(history, -shift, history.us_units));
  }
  cases.push_back(with_other_watering(history));
  // The last day is left: without it no answer could be given that morning.
  cases.push_back(with_missing_days(history, asked_on - Days{1}, rules.missing_days));
  return cases;
}

std::optional<WhatIf> asked(ChangedSite site, Day asked_on, const Season& season,
                            const WhatIfQuestion& question, const Catalogue& catalogue) {
  const std::array targets{question.target};
  const auto seen = season_known(without_readings(known_on(site.history, asked_on, 0, catalogue.futures)),
                                 season, targets, catalogue, question.draws);
  if (!seen || seen->ensemble.runs.targets.empty()) return std::nullopt;
  const TargetRun& run = seen->ensemble.runs.targets.front();
  const SiteLog nothing_noted;
  const std::optional<treatment::TurfAssessment> not_looked_at;
  TargetAnswer answer;
  const MiddleCurve middle{run};
  answer.milestones = milestones_of(run, middle, catalogue.practice.decision);
  const DecisionInputs inputs{&run,          &seen->ensemble.runs, &seen->ensemble.scenarios, &catalogue,
                              &seen->site,   &nothing_noted,       question.turf_facts,       &not_looked_at,
                              question.plan, question.resistant,   question.draws.seed,       {}};
  const Decision decision = decide_ahead(inputs, last_useful_week(answer, inputs));
  WhatIf result;
  result.id = std::move(site.id);
  result.title = std::move(site.title);
  result.first_up = date_reaching(run, middle, catalogue.practice.comparison.yardstick_percent / 100.0);
  result.half_up = date_reaching(run, middle, 0.5);
  result.best_week = decision.best_week;
  result.best_kind = decision.kind;
  result.best_control = decision.control;
  return result;
}

std::optional<int> days_between(const std::optional<Day>& from, const std::optional<Day>& to) {
  if (!from || !to) return std::nullopt;
  return static_cast<int>((*to - *from).count());
}

}  // namespace

std::optional<WhatIfTable> what_ifs(const SiteHistory& history, Day on, const WhatIfQuestion& question,
                                    const Catalogue& catalogue) {
  const ComparisonRules& rules = catalogue.practice.comparison;
  const SeasonKind kind = question.target->season;
  Season season = season_of(on, kind, history.place.hemisphere());
  if (rules.asked_on(kind).in(season) > on) season = season.previous();
  WhatIfTable table;
  table.asked_on = rules.asked_on(kind).in(season);
  for (ChangedSite& site : cases_of(history, table.asked_on, rules)) {
    auto one = asked(std::move(site), table.asked_on, season, question, catalogue);
    if (!one) return std::nullopt;
    const WhatIf& base = table.cases.empty() ? *one : table.cases.front();
    one->first_up_shift = days_between(base.first_up.middle, one->first_up.middle);
    one->half_up_shift = days_between(base.half_up.middle, one->half_up.middle);
    table.cases.push_back(std::move(*one));
  }
  return table;
}

}  // namespace soilclock::advice
