// SPDX-License-Identifier: MIT
#include "pipeline_compare.hpp"

#include "advice/comparison/season_dates.hpp"
#include "advice/comparison/what_ifs.hpp"
#include "core/unit_words.hpp"

namespace soilclock {

namespace {

/// How far from its middle the yardstick's day may lie, as the morning of the what-ifs has it.
std::optional<Band<int>> yardstick_band(const advice::WhatIfTable& table) {
  const DateBand& day = table.cases.front().first_up;
  if (!day.low || !day.middle || !day.high) return std::nullopt;
  return Band<int>{static_cast<int>((*day.low - *day.middle).count()), 0,
                   static_cast<int>((*day.high - *day.middle).count())};
}

advice::TargetComparison compared(const advice::TargetAnswer& answer, const SiteRequest& request,
                                  const advice::SiteHistory& history, const advice::Catalogue& catalogue) {
  const advice::ComparisonRules& rules = catalogue.practice.comparison;
  const emergence::Target& target = catalogue.targets.at(answer.target);
  const Season season{target.season, history.place.hemisphere(), answer.season_start};
  advice::TargetComparison comparison;
  comparison.target = answer.target;
  comparison.title = answer.title;
  comparison.yardstick_percent = rules.yardstick_percent;
  comparison.seasons = advice::season_rows(answer);
  comparison.dates = advice::season_dates(comparison.seasons, answer.soil_rules);
  comparison.calls = advice::call_misses(comparison.seasons, answer.soil_rules, season, rules);
  comparison.what_ifs = advice::what_ifs(
      history, request.on,
      {&target, &request.turf, &request.plan, &request.resistant, {request.members, request.seed}},
      catalogue);
  if (comparison.what_ifs) comparison.yardstick_band = yardstick_band(*comparison.what_ifs);
  advice::word_finding(comparison, rules.calendar_day(target.season).in(season),
                       difference_words(rules.small_soil_shift, request.us_units));
  return comparison;
}

}  // namespace

advice::SiteComparison compare_site(SiteRequest request, const advice::Catalogue& catalogue) {
  request.past_seasons = true;
  request.season_tables = true;
  advice::SiteComparison result{answer_site(request, catalogue), {}, {}, {}};
  const auto prepared = prepare_weather(request, catalogue);
  if (!prepared || !prepared->place) return result;  // the problem is in the answer
  const advice::SiteHistory history = advice::history_of(prepared->site);
  for (const advice::TargetAnswer& target : result.answer.targets) {
    if (target.refusal || target.decision.action == advice::Action::no_single_week) {
      result.not_compared.push_back(
          {target.target, target.title, target.refusal ? describe(*target.refusal) + "." : target.call});
      continue;
    }
    result.targets.push_back(compared(target, request, history, catalogue));
  }
  result.lesson = advice::degree_day_lesson(history.daily, history.place, request.on,
                                            catalogue.practice.comparison.lesson_base, request.us_units);
  return result;
}

}  // namespace soilclock
