// SPDX-License-Identifier: MIT
#include "advice/ensemble/member_weights.hpp"

#include <algorithm>
#include <cmath>

#include "emergence/member_run.hpp"

namespace soilclock::advice {

namespace {

using emergence::WeightRule;

double warm_july(const WeightRule& rule, const SiteClimate& climate) {
  return std::clamp((climate.july_air - rule.july_none).kelvin() / (rule.july_full - rule.july_none).kelvin(),
                    0.0, 1.0);
}

double earned_share(const WeightRule& rule, const Season& season, const SiteClimate& climate,
                    double single_window) {
  switch (rule.kind) {
    case WeightRule::Kind::fixed:
      return rule.share;
    case WeightRule::Kind::rest:
      return 0.0;
    case WeightRule::Kind::warm_july:
      return rule.share * warm_july(rule, climate) * climate.late_cooling * single_window;
    case WeightRule::Kind::near_date: {
      if (!climate.usual_crossing_day) return 0.0;
      const int apart = std::abs(*climate.usual_crossing_day - emergence::season_day(rule.center, season));
      return rule.share * std::max(0.0, 1.0 - apart / rule.half_width_days) * single_window;
    }
  }
  return 0.0;
}

/// Why a rule that depends on the place gave nothing, as a clause.
std::string why_no_share(const WeightRule& rule, const SiteClimate& climate, double single_window) {
  if (single_window <= 0.0) return "no single wave can be named here";
  switch (rule.kind) {
    case WeightRule::Kind::warm_july:
      return warm_july(rule, climate) <= 0.0 ? "midsummer is cooler here than where it was made"
                                             : "the cooling it counts comes too early here, or never";
    case WeightRule::Kind::near_date:
      return climate.usual_crossing_day ? "the soil cools at another time here than where it was made"
                                        : "the soil has no usual day of cooling here";
    case WeightRule::Kind::fixed:
    case WeightRule::Kind::rest:
      break;
  }
  return "its file gives it no weight";
}

void scale_to_one(std::vector<WeightedModel>& members) {
  double sum = 0.0;
  for (const WeightedModel& member : members) sum += member.weight;
  for (WeightedModel& member : members) member.weight /= sum;
}

}  // namespace

std::optional<CoolingMark> cooling_mark(const emergence::Target& target, const Catalogue& catalogue,
                                        const Season& season) {
  for (const emergence::EnsembleMember& member : target.members) {
    const emergence::EmergenceModel& model = catalogue.emergence.at(member.model);
    if (member.weight.kind != WeightRule::Kind::warm_july || !model.scale) continue;
    return CoolingMark{DegreeDays::from_celsius_days(member.weight.units), model.scale->lower,
                       emergence::season_day(member.weight.units_none, season),
                       emergence::season_day(member.weight.units_full, season)};
  }
  return std::nullopt;
}

std::vector<WeightedModel> member_weights(const emergence::Target& target, const Catalogue& catalogue,
                                          const Place& place, const Season& season,
                                          const SiteClimate* climate, std::vector<UnusedModel>& unused) {
  const double single_window =
      climate != nullptr && target.single_window ? single_window_share(*climate, *target.single_window) : 1.0;
  const SiteClimate nothing_known;
  std::vector<WeightedModel> members;
  double given = 0.0;
  double sharing_rest = 0.0;
  for (const emergence::EnsembleMember& member : target.members) {
    const emergence::EmergenceModel* model = &catalogue.emergence.at(member.model);
    const double here = model->validity.weight_zero_outside ? model->validity.share_at(place) : 1.0;
    if (here <= 0.0) {
      unused.push_back({model, "the site lies outside the area it was made for"});
      continue;
    }
    const SiteClimate& known = climate == nullptr ? nothing_known : *climate;
    const double share = here * earned_share(member.weight, season, known, single_window);
    const bool rest = member.weight.kind == WeightRule::Kind::rest;
    if (!rest && share <= 0.0) {
      unused.push_back({model, why_no_share(member.weight, known, single_window)});
      continue;
    }
    members.push_back({model, rest ? -here : share});
    given += share;
    sharing_rest += rest ? here : 0.0;
  }
  for (WeightedModel& member : members) {
    if (member.weight < 0.0) member.weight *= -std::max(0.0, 1.0 - given) / std::max(1.0, sharing_rest);
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
