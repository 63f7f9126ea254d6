// SPDX-License-Identifier: MIT
#include "report/advice_json.hpp"

#include "report/json_values.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::report {

namespace {

Json stages_json(const emergence::StageShares& stages) {
  return {{"leaves_1_3", rounded(stages.leaves_1_3, 3)},
          {"to_one_tiller", rounded(stages.to_one_tiller, 3)},
          {"two_tillers", rounded(stages.two_tillers, 3)},
          {"older", rounded(stages.older, 3)}};
}

/// One number of each kind's band.
Json by_kind(const treatment::WeekReach& week, double Band<double>::*part) {
  Json json = Json::object();
  for (const treatment::Kind kind : treatment::all_kinds) {
    json[std::string{treatment::name(kind)}] = rounded(week.of(kind).*part, 1);
  }
  return json;
}

/// Fit days are known for the coming week only.
Json weeks_json(const advice::ReachAnswer& reach, const std::optional<advice::SprayWeek>& spray) {
  Json weeks = Json::array();
  for (const treatment::WeekReach& week : reach.reach.weeks) {
    const bool coming = weeks.empty() && reach.starts_this_week && spray && spray->fit_days;
    weeks.push_back({{"week_of", iso(week.week_of)},
                     {"reach", by_kind(week, &Band<double>::middle)},
                     {"low", by_kind(week, &Band<double>::low)},
                     {"high", by_kind(week, &Band<double>::high)},
                     {"fit_days", coming ? Json(*spray->fit_days) : Json(nullptr)}});
  }
  return weeks;
}

Json points_or_null(const std::optional<double>& points) {
  return points ? rounded(*points, 1) : Json(nullptr);
}

Json best_json(const treatment::BestWeek& best) {
  return {{"week_of", iso(best.week_of)},
          {"kind", treatment::name(best.kind)},
          {"reach", rounded(best.points.middle, 1)},
          {"low", rounded(best.points.low, 1)},
          {"high", rounded(best.points.high, 1)},
          {"window_first", iso(best.window_first)},
          {"window_last", iso(best.window_last)},
          {"cost_of_waiting_one_week", points_or_null(best.cost_of_waiting[0])},
          {"cost_of_waiting_two_weeks", points_or_null(best.cost_of_waiting[1])},
          {"cost_of_waiting_three_weeks", points_or_null(best.cost_of_waiting[2])},
          {"limit_before", treatment::name(best.early)},
          {"limit_after", treatment::name(best.late)}};
}

/// Puts weeks, best and what the week calls for into a target's document.
void add_reach(Json& json, const advice::ReachAnswer& reach, const std::optional<advice::SprayWeek>& spray) {
  json["weeks"] = weeks_json(reach, spray);
  json["this_week"] = {{"kind", treatment::name(reach.this_week.kind)},
                       {"residual_would_add", rounded(reach.this_week.residual_would_add_points, 1)},
                       {"foliar_would_add", rounded(reach.this_week.foliar_would_add_points, 1)}};
  json["second_due"] = date(reach.second_due);
  if (reach.best) json["best"] = best_json(*reach.best);
  json["best_by_kind"] = Json::object();
  for (const treatment::Kind kind : treatment::all_kinds) {
    const auto& best = reach.reach.best_of(kind);
    json["best_by_kind"][std::string{treatment::name(kind)}] = best ? best_json(*best) : Json(nullptr);
  }
}

Json rule_json(const advice::SoilRuleReading& rule) {
  return {{"id", rule.id},
          {"title", rule.title},
          {"meaning", rule.meaning},
          {"first_run", date(rule.first_run)},
          {"holds_since", date(rule.last_run)},
          {"rain_7d_asked_mm", rule.rain_asked ? rounded(rule.rain_asked->mm(), 1) : Json(nullptr)},
          {"rain_7d_mm", rule.rain_now ? rounded(rule.rain_now->mm(), 1) : Json(nullptr)},
          {"reversals", rule.reversals}};
}

Json turf_json(const treatment::TurfReading& turf) {
  return {{"state", treatment::name(turf.state)}, {"seen_dormant", turf.seen_dormant}, {"ask", turf.ask}};
}

Json refused_target(const advice::TargetAnswer& target) {
  Json json = {{"target", target.target},
               {"season_start", iso(target.season_start)},
               {"emerged", nullptr},
               {"juvenile_share", nullptr},
               {"stages", nullptr},
               {"models", Json::array()},
               {"state", nullptr},
               {"milestones", Json::array()},
               {"main_wave_over", nullptr},
               {"windows", Json::array()},
               {"weeks", Json::array()},
               {"best", nullptr},
               {"reasons", {describe(*target.refusal)}}};
  return json;
}

Json milestones_json(const std::vector<advice::Milestone>& milestones) {
  Json json = Json::array();
  for (const advice::Milestone& milestone : milestones) {
    Json entry = {{"percent", milestone.percent}};
    entry.update(date_band(milestone.date));
    json.push_back(entry);
  }
  return json;
}

Json answered_target(const advice::TargetAnswer& target, const std::optional<advice::SprayWeek>& spray) {
  Json json = {{"target", target.target},
               {"season_start", iso(target.season_start)},
               {"emerged", percent_band(target.emerged_percent)},
               {"juvenile_share", percent_band(target.juvenile_percent)},
               {"stages", stages_json(target.stages)},
               {"models", Json::array()},
               {"state", advice::name(target.state)},
               {"milestones", Json::array()},
               {"main_wave_over", date_band(target.main_wave_over)},
               {"windows", Json::array()},
               {"weeks", Json::array()},
               {"best", nullptr},
               {"reasons", target.reasons}};
  for (const advice::ModelShare& model : target.models) {
    json["models"].push_back(
        {{"id", model.id}, {"weight", rounded(model.weight, 3)}, {"percent", rounded(model.percent, 1)}});
  }
  json["milestones"] = milestones_json(target.milestones);
  if (target.before_scouting) {
    json["before_scouting"] = {{"emerged", percent_band(target.before_scouting->emerged_percent)},
                               {"milestones", milestones_json(target.before_scouting->milestones)}};
  }
  for (const advice::Window& window : target.windows) {
    json["windows"].push_back({{"kind", treatment::name(window.kind)},
                               {"opens", date_band(window.opens)},
                               {"closes", date_band(window.closes)}});
  }
  if (target.reach) add_reach(json, *target.reach, spray);
  json["soil_rules"] = Json::array();
  for (const advice::SoilRuleReading& rule : target.soil_rules) json["soil_rules"].push_back(rule_json(rule));
  return json;
}

Json target_json(const advice::TargetAnswer& target, const std::optional<advice::SprayWeek>& spray) {
  Json json = target.refusal ? refused_target(target) : answered_target(target, spray);
  json["remarks"] = Json::array();
  for (const Remark& remark : target.remarks) json["remarks"].push_back(remark_json(remark));
  return json;
}

Json site_json(const advice::SiteAnswer& site) {
  Json json = {{"site", site.site},
               {"name", site.name},
               {"latitude", site.place.latitude_deg},
               {"longitude", site.place.longitude_deg},
               {"weather",
                {{"first", date(site.weather.first)},
                 {"last_measured", date(site.weather.last_measured)},
                 {"last_forecast", date(site.weather.last_forecast)},
                 {"missing_days", site.weather.missing_days},
                 {"filled_days", site.weather.filled_days},
                 {"sources", weather_sources_json(site.weather.origins)}}},
               {"soil",
                {{"depth_cm", rounded(site.soil.depth.cm(), 2)},
                 {"origin", site.soil.origin},
                 {"mean_7d_c", site.soil.mean_7d ? rounded(site.soil.mean_7d->celsius(), 1) : Json(nullptr)},
                 {"error_c", rounded(site.soil.error_c, 2)}}},
               {"first_of_all", site.first_of_all ? Json(*site.first_of_all) : Json(nullptr)},
               {"turf", site.turf ? turf_json(*site.turf) : Json(nullptr)},
               {"targets", Json::array()},
               {"remarks", Json::array()},
               {"problems", Json::array()}};
  for (const advice::TargetAnswer& target : site.targets)
    json["targets"].push_back(target_json(target, site.spray));
  for (const Remark& remark : site.remarks) json["remarks"].push_back(remark_json(remark));
  if (site.spray) {
    for (const Remark& remark : site.spray->remarks) json["remarks"].push_back(remark_json(remark));
  }
  for (const Problem& problem : site.problems) json["problems"].push_back(problem_json(problem));
  return json;
}

Json source_json(const Source& source) {
  return {{"id", source.id},       {"authors", source.authors},  {"year", source.year},
          {"title", source.title}, {"journal", source.journal},  {"pages", source.pages},
          {"doi", source.doi},     {"how_read", source.how_read}};
}

Json document(const std::vector<const advice::SiteAnswer*>& sites, const AnswerFrame& frame) {
  Json json = {{"format", "soilclock-advice"}, {"version", 1},
               {"on", iso(frame.on)},          {"sites", Json::array()},
               {"sources", Json::array()},     {"cautions", frame.cautions}};
  for (const advice::SiteAnswer* site : sites) json["sites"].push_back(site_json(*site));
  for (const Source& source : frame.sources) json["sources"].push_back(source_json(source));
  return json;
}

}  // namespace

std::string advice_json(const std::vector<advice::SiteAnswer>& sites, const AnswerFrame& frame) {
  std::vector<const advice::SiteAnswer*> all;
  all.reserve(sites.size());
  for (const advice::SiteAnswer& site : sites) all.push_back(&site);
  return dumped(document(all, frame), 2) + "\n";
}

std::string advice_json_line(const advice::SiteAnswer& site, const AnswerFrame& frame) {
  return dumped(document({&site}, frame), -1) + "\n";
}

}  // namespace soilclock::report
