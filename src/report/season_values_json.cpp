// SPDX-License-Identifier: MIT
#include "report/season_values_json.hpp"

namespace soilclock::report {

Json models_json(const advice::TargetAnswer& target) {
  Json models = Json::array();
  for (const advice::ModelShare& model : target.models) {
    models.push_back({{"id", model.id},
                      {"title", model.title},
                      {"weight", rounded(model.weight, 3)},
                      {"percent", rounded(model.percent, 1)},
                      {"sources", model.sources},
                      {"why", model.why_no_weight.empty() ? Json(nullptr) : Json(model.why_no_weight)}});
  }
  return models;
}

Json season_summary_json(const advice::SeasonSummary& season) {
  Json weekly = Json::array();
  for (const advice::CurvePoint& point : season.weekly)
    weekly.push_back({{"date", iso(point.day)},
                      {"percent", rounded(point.emerged_percent, 1)},
                      {"young", rounded(point.young_percent, 1)},
                      {"older", rounded(point.older_percent, 1)}});
  Json up = Json::array();
  for (const advice::ShareUp& share : season.up)
    up.push_back({{"percent", share.percent}, {"date", date(share.day)}});
  Json rules = Json::array();
  for (const advice::RuleDay& rule : season.rule_days)
    rules.push_back({{"id", rule.id}, {"date", date(rule.day)}});
  return {{"season_start", iso(season.season_start)},
          {"half_up", date(season.reached(50))},
          {"best_week", date(season.best_week)},
          {"best_kind", season.best_kind ? Json(treatment::name(*season.best_kind)) : Json(nullptr)},
          {"best_control", season.best_control ? percent_band(*season.best_control) : Json(nullptr)},
          {"up", up},
          {"soil_rules", rules},
          {"weekly", weekly}};
}

Json past_seasons_json(const advice::TargetAnswer& target) {
  Json seasons = Json::array();
  for (const advice::SeasonSummary& past : target.past_seasons) seasons.push_back(season_summary_json(past));
  return seasons;
}

Json usual_json(const advice::TargetAnswer& target) {
  if (!target.usual) return nullptr;
  const advice::UsualSeason& usual = *target.usual;
  const auto whole = [](std::optional<int> value) { return value ? Json(*value) : Json(nullptr); };
  return {{"seasons", usual.seasons},
          {"half_up_day", whole(usual.half_up_day)},
          {"half_up", date(usual.half_up)},
          {"best_week", date(usual.best_week)},
          {"days_against_usual", whole(usual.days_against_usual)}};
}

Json notes_json(const advice::TargetAnswer& target) {
  Json notes = Json::array();
  for (const advice::NoteShown& note : target.notes)
    notes.push_back({{"date", iso(note.day)}, {"kind", advice::name(note.kind)}, {"text", note.text}});
  return notes;
}

Json soil_rule_json(const advice::SoilRuleStatus& rule) {
  return {{"id", rule.id},
          {"title", rule.title},
          {"meaning", rule.meaning},
          {"first_run", date(rule.first_run)},
          {"holds_since", date(rule.last_run)},
          {"rain_7d_asked_mm", rule.rain_asked ? rounded(rule.rain_asked->mm(), 1) : Json(nullptr)},
          {"rain_7d_mm", rule.rain_now ? rounded(rule.rain_now->mm(), 1) : Json(nullptr)},
          {"reversals", rule.reversals},
          {"side", rule.falling ? "below" : "above"},
          {"level_c", rounded(rule.level.celsius(), 2)},
          {"depth_cm", rounded(rule.depth.cm(), 2)},
          {"days", rule.days}};
}

}  // namespace soilclock::report
