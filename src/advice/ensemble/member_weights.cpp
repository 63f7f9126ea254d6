// SPDX-License-Identifier: MIT
#include "advice/ensemble/member_weights.hpp"

#include <algorithm>
#include <cmath>

#include "emergence/member_run.hpp"

namespace soilclock::advice {

namespace {

using emergence::WeightRule;

double earned_share(const WeightRule& rule, const Season& season, const SiteClimate& climate,
                    double single_window) {
  switch (rule.kind) {
    case WeightRule::Kind::fixed:
      return rule.share;
    case WeightRule::Kind::rest:
      return 0.0;
    case WeightRule::Kind::warm_july: {
      const bool warm = !rule.july_least || climate.july_air >= *rule.july_least;
      const bool late =
          climate.cooling_units_day && *climate.cooling_units_day > emergence::season_day(rule.after, season);
      return warm && late ? rule.share * single_window : 0.0;
    }
    case WeightRule::Kind::near_date: {
      if (!climate.usual_crossing_day) return 0.0;
      const int apart = std::abs(*climate.usual_crossing_day - emergence::season_day(rule.centre, season));
      return rule.share * std::max(0.0, 1.0 - apart / rule.half_width_days) * single_window;
    }
  }
  return 0.0;
}

void scale_to_one(std::vector<WeightedModel>& members) {
  double sum = 0.0;
  for (const WeightedModel& member : members) sum += member.weight;
  for (WeightedModel& member : members) member.weight /= sum;
}

}  // namespace

std::optional<CoolingMark> cooling_mark(const emergence::Target& target, const Catalogue& catalogue) {
  for (const emergence::EnsembleMember& member : target.members) {
    const emergence::EmergenceModel& model = catalogue.emergence.at(member.model);
    if (member.weight.kind != WeightRule::Kind::warm_july || !model.scale) continue;
    return CoolingMark{DegreeDays::from_celsius_days(member.weight.units), model.scale->lower};
  }
  return std::nullopt;
}

std::vector<WeightedModel> member_weights(const emergence::Target& target, const Catalogue& catalogue,
                                          const Place& place, const Season& season,
                                          const SiteClimate* climate) {
  const double single_window =
      climate != nullptr && target.single_window ? single_window_share(*climate, *target.single_window) : 1.0;
  const SiteClimate nothing_known;
  std::vector<WeightedModel> members;
  double given = 0.0;
  int sharing_rest = 0;
  for (const emergence::EnsembleMember& member : target.members) {
    const emergence::EmergenceModel* model = &catalogue.emergence.at(member.model);
    if (model->validity.weight_zero_outside && !model->validity.contains(place)) continue;
    const double share =
        earned_share(member.weight, season, climate == nullptr ? nothing_known : *climate, single_window);
    const bool rest = member.weight.kind == WeightRule::Kind::rest;
    if (!rest && share <= 0.0) continue;
    members.push_back({model, rest ? -1.0 : share});
    given += share;
    sharing_rest += rest ? 1 : 0;
  }
  for (WeightedModel& member : members) {
    if (member.weight < 0.0) member.weight = std::max(0.0, 1.0 - given) / sharing_rest;
  }
  scale_to_one(members);
  return members;
}

std::vector<WeightedModel> with_weather_since(std::vector<WeightedModel> members, const Season& season,
                                              Day complete_since, std::vector<WeightedModel>& left_out) {
  std::vector<WeightedModel> kept;
  for (const WeightedModel& member : members) {
    // A model that looks at weather at all looks at trailing weeks.
    const bool calendar = member.model->form == emergence::Form::calendar;
    const Day needed = season.first + Days{member.model->weather_needed_from - 6};
    (calendar || complete_since <= needed ? kept : left_out).push_back(member);
  }
  // The calendar alone is no answer from weather; it only counts beside a model that has looked at some.
  const bool any_weather = std::any_of(kept.begin(), kept.end(), [](const WeightedModel& member) {
    return member.model->form != emergence::Form::calendar;
  });
  if (!any_weather) kept.clear();
  scale_to_one(kept);
  return kept;
}

}  // namespace soilclock::advice
