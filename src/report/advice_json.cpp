// SPDX-License-Identifier: MIT
#include "report/advice_json.hpp"

#include "advice/answer/answer_changes.hpp"
#include "advice/answer/urgency.hpp"
#include "report/advice_values_json.hpp"
#include "report/json_values.hpp"
#include "report/season_values_json.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

Json stages_json(const emergence::StageShares& stages) {
  return {{"leaves_1_3", rounded(stages.leaves_1_3, 3)},
          {"to_one_tiller", rounded(stages.to_one_tiller, 3)},
          {"two_tillers", rounded(stages.two_tillers, 3)},
          {"older", rounded(stages.older, 3)}};
}

/// One number of each kind's band.
Json by_kind(const advice::TreatmentWeek& week, double Band<double>::*part) {
  Json json = Json::object();
  for (const treatment::Kind kind : treatment::all_kinds) {
    json[std::string{treatment::name(kind)}] = rounded(week.of(kind).control.*part, 1);
  }
  return json;
}

Json gates_json(const std::vector<treatment::Gate>& gates) {
  Json json = Json::array();
  for (const treatment::Gate& gate : gates) {
    json.push_back({{"reason", treatment::name(gate.reason)},
                    {"stops", gate.stops},
                    {"residual", gate.residual},
                    {"foliar", gate.foliar},
                    {"until", date(gate.until)}});
  }
  return json;
}

/// Fit days are known for the coming week only.
Json weeks_json(const TargetAnswer& target, const SiteAnswer& site) {
  Json weeks = Json::array();
  for (const advice::WeekRow& row : target.weeks) {
    Json allowed = Json::object();
    for (const treatment::Kind kind : treatment::all_kinds)
      allowed[std::string{treatment::name(kind)}] = row.week.of(kind).allowed;
    const bool coming = row.week.week_of == monday_of(site.on) && site.spray && site.spray->fit_days;
    weeks.push_back({{"week_of", iso(row.week.week_of)},
                     {"expected_control", by_kind(row.week, &Band<double>::middle)},
                     {"low", by_kind(row.week, &Band<double>::low)},
                     {"high", by_kind(row.week, &Band<double>::high)},
                     {"allowed", allowed},
                     {"gates", gates_json(row.gates)},
                     {"fit_days", coming ? Json(*site.spray->fit_days) : Json(nullptr)}});
  }
  return weeks;
}

Json span_json(const std::optional<advice::MondaySpan>& span) {
  if (!span) return nullptr;
  return {{"first", iso(span->first)}, {"last", iso(span->last)}};
}

Json reason_json(const std::optional<advice::DatedReason>& reason) {
  if (!reason) return nullptr;
  return {{"date", iso(reason->date)}, {"why", reason->why}};
}

Json cell_json(const std::optional<advice::KindAndWeek>& cell, const char* when) {
  if (!cell) return nullptr;
  return {{"kind", treatment::name(cell->kind)},
          {when, iso(cell->week_of)},
          {"expected_control", percent_band(cell->control)}};
}

Json costs_json(const advice::Decision& decision) {
  Json costs = Json::array();
  for (const auto& cost : decision.cost_of_waiting) costs.push_back(cost ? rounded(*cost, 1) : Json(nullptr));
  return costs;
}

Json decision_json(const TargetAnswer& target) {
  const advice::Decision& decision = target.decision;
  Json gates = Json::array();
  if (!target.weeks.empty()) {
    for (const treatment::Gate& gate : target.weeks.front().gates) {
      if (gate.stops) gates.push_back(treatment::name(gate.reason));
    }
  }
  Json then = cell_json(decision.then, "from");
  if (decision.then) then["as_good"] = decision.then_as_good;
  Json late = span_json(decision.late);
  if (decision.late) late["expected_control"] = percent_band(decision.late_control);
  return {{"headline", target.headline},
          {"lead", target.lead},
          {"action", advice::name(decision.action)},
          {"kind", kind_json(decision.kind)},
          {"good_through", date(decision.good_through)},
          {"then", then},
          {"best_range", span_json(decision.best_range)},
          {"late", late},
          {"close_call", cell_json(decision.close_call, "week")},
          {"expected_control", decision.control ? percent_band(*decision.control) : Json(nullptr)},
          {"loss_if_wait_weeks", costs_json(decision)},
          {"urgency", rounded(decision.urgency, 1)},
          {"gates", gates},
          {"models_disagree", target.models_disagree ? Json(*target.models_disagree) : Json(nullptr)},
          {"next_look", reason_json(target.next_look)},
          {"second_pre", reason_json(target.second_pre)}};
}

Json plan_json(const advice::PlanShown& plan) {
  Json weeks = nullptr;
  if (plan.residual_weeks) weeks = {{"least", plan.residual_weeks->low}, {"most", plan.residual_weeks->high}};
  return {
      {"given", plan.given},
      {"entries", plan.entries},
      {"residual_weeks", weeks},
      {"foliar", plan.foliar ? Json(treatment::name(*plan.foliar)) : Json(nullptr)},
      {"has_residual", plan.has_residual},
      {"has_foliar", plan.has_foliar},
      {"missing_part_gains", plan.missing_part_gains ? rounded(*plan.missing_part_gains, 1) : Json(nullptr)},
      {"not_counted", plan.not_counted},
      {"more_sprays", plan.more_sprays}};
}

Json other_plans_json(const TargetAnswer& target) {
  Json plans = Json::array();
  for (const advice::OtherPlan& other : target.other_plans) {
    const advice::Decision& decision = other.decision;
    plans.push_back(
        {{"residual", other.long_residual ? "long" : "short"},
         {"foliar", treatment::name(other.foliar)},
         {"kind", kind_json(decision.kind)},
         {"best_range", span_json(decision.best_range)},
         {"expected_control", decision.control ? percent_band(*decision.control) : Json(nullptr)}});
  }
  return plans;
}

Json after_json(const std::optional<advice::AfterApplication>& after) {
  if (!after) return nullptr;
  return {
      {"residual_on", date(after->residual_on)},
      {"dose_left_percent", after->dose_left_percent ? rounded(*after->dose_left_percent, 0) : Json(nullptr)},
      {"residual_ends", date(after->residual_ends)},
      {"foliar_on", date(after->foliar_on)},
      {"look_from", after->look ? Json(iso(after->look->begin())) : Json(nullptr)},
      {"look_to", after->look ? Json(iso(after->look->end() - Days{1})) : Json(nullptr)}};
}

Json changed_json(const std::optional<advice::ChangesSince>& changed) {
  if (!changed) return nullptr;
  Json changes = Json::array();
  for (const advice::AnswerChange& change : changed->changes)
    changes.push_back({{"what", advice::name(change.what)}, {"text", change.text}});
  return {{"since", iso(changed->since)}, {"changes", changes}};
}

Json turf_json(const treatment::TurfAssessment& turf) {
  return {{"state", treatment::name(turf.state)},
          {"noted", turf.noted},
          {"since", date(turf.since)},
          {"ask", turf.ask}};
}

Json milestones_json(const std::vector<advice::Milestone>& milestones) {
  Json json = Json::array();
  for (const advice::Milestone& milestone : milestones) {
    Json entry = {{"percent", milestone.percent}};
    entry.update(date_band(milestone.date));
    Json either = Json::array();
    for (const advice::ModelsDate& side : milestone.either)
      either.push_back(
          {{"date", iso(side.date)}, {"weight", rounded(side.weight, 3)}, {"models", side.models}});
    entry["either"] = either;
    json.push_back(entry);
  }
  return json;
}

/// Keys that every target has, empty where it was refused.
Json target_head(const TargetAnswer& target) {
  return {{"target", target.target},
          {"title", target.title},
          {"season_start", iso(target.season_start)},
          {"urgency_rank", nullptr},
          {"decision", nullptr},
          {"plan", nullptr},
          {"other_plans", Json::array()},
          {"applied", nullptr},
          {"emerged", nullptr},
          {"juvenile_share", nullptr},
          {"stages", nullptr},
          {"models", Json::array()},
          {"milestones", Json::array()},
          {"main_wave_over", nullptr},
          {"by_percent", nullptr},
          {"windows", Json::array()},
          {"last_useful_week", nullptr},
          {"weeks", Json::array()},
          {"rules_of_thumb", Json::array()},
          {"reasons", Json::array()},
          {"brief", Json::array()},
          {"usual", nullptr},
          {"past_seasons", Json::array()},
          {"notes", Json::array()},
          {"changed", nullptr}};
}

void fill_emergence(Json& json, const TargetAnswer& target) {
  json["emerged"] = percent_band(target.emerged_percent);
  json["juvenile_share"] = percent_band(target.juvenile_percent);
  json["stages"] = stages_json(target.stages);
  json["models"] = models_json(target);
  json["milestones"] = milestones_json(target.milestones);
  json["main_wave_over"] = date_band(target.main_wave_over);
  if (target.before_scouting) {
    json["before_scouting"] = {{"emerged", percent_band(target.before_scouting->emerged_percent)},
                               {"milestones", milestones_json(target.before_scouting->milestones)}};
  }
  json["by_percent"] = kind_json(target.by_percent);
  for (const advice::Window& window : target.windows) {
    json["windows"].push_back({{"kind", treatment::name(window.kind)},
                               {"by", "percent emerged"},
                               {"opens", date_band(window.opens)},
                               {"closes", date_band(window.closes)}});
  }
}

Json target_json(const TargetAnswer& target, const SiteAnswer& site) {
  Json json = target_head(target);
  if (target.refusal) {
    json["reasons"] = {describe(*target.refusal)};
  } else {
    json["decision"] = decision_json(target);
    json["plan"] = plan_json(target.plan);
    json["other_plans"] = other_plans_json(target);
    json["applied"] = after_json(target.after);
    fill_emergence(json, target);
    json["last_useful_week"] = date(target.last_useful_week);
    json["weeks"] = weeks_json(target, site);
    for (const advice::SoilRuleStatus& rule : target.soil_rules)
      json["rules_of_thumb"].push_back(soil_rule_json(rule));
    json["reasons"] = target.reasons;
    for (const advice::BriefLine& line : target.brief)
      json["brief"].push_back({{"label", line.label}, {"text", line.text}});
    json["usual"] = usual_json(target);
    json["past_seasons"] = past_seasons_json(target);
    json["notes"] = notes_json(target);
    json["changed"] = changed_json(target.changed);
  }
  json["remarks"] = Json::array();
  for (const Remark& remark : target.remarks) json["remarks"].push_back(remark_json(remark));
  return json;
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json facts_json(const SiteAnswer& site) {
  const advice::SiteFacts& facts = site.facts;
  return {{"turf", facts.turf ? Json(treatment::name(*facts.turf)) : Json(nullptr)},
          {"irrigated", facts.irrigated ? Json(*facts.irrigated) : Json(nullptr)},
          {"overseed_on", date(facts.overseed_on)},
          {"elevation_m", site.place.elevation_m ? rounded(*site.place.elevation_m, 1) : Json(nullptr)},
          {"units", facts.us_units ? "us" : "metric"},
          {"time_zone", text_or_null(facts.time_zone)},
          {"group", text_or_null(facts.group)}};
}

Json days_ahead_json(const std::optional<advice::SprayWeek>& spray) {
  Json days = Json::array();
  if (!spray) return days;
  for (const advice::DayAhead& day : spray->days) {
    days.push_back({{"date", iso(day.day)},
                    {"fit", day.fit ? Json(*day.fit) : Json(nullptr)},
                    {"why", day.why},
                    {"rain_mm", day.rain ? rounded(day.rain->mm(), 1) : Json(nullptr)},
                    {"wind_m_s", day.wind_m_s ? rounded(*day.wind_m_s, 1) : Json(nullptr)},
                    {"usable_hours", day.usable_hours ? rounded(*day.usable_hours, 1) : Json(nullptr)}});
  }
  return days;
}

Json settings_json(const advice::RunSettings& settings) {
  return {{"members", settings.members},
          {"seed", settings.seed},
          {"band_level", rounded(settings.band_level, 2)}};
}

Json area_json(const std::optional<advice::AreaFacts>& area) {
  if (!area) return nullptr;
  return {{"course", area->course}, {"course_name", area->course_name}, {"name", area->name}};
}

Json course_json(const advice::CourseSummary& course) {
  Json json = {{"course", course.course}, {"name", course.name}, {"grasses", Json::array()}};
  for (const advice::GrassOnAreas& grass : course.grasses) {
    Json areas = Json::array();
    for (const advice::AreaStanding& area : grass.areas) {
      areas.push_back({{"site", area.site},
                       {"name", area.name},
                       {"action", advice::name(area.decision.action)},
                       {"kind", kind_json(area.decision.kind)},
                       {"half_up", date(area.half_up)}});
    }
    json["grasses"].push_back(
        {{"target", text_or_null(grass.target)},
         {"title", text_or_null(grass.title)},
         {"summary", grass.sentence},
         {"half_up_days_apart", grass.half_up_apart ? Json(*grass.half_up_apart) : Json(nullptr)},
         {"areas", areas}});
  }
  return json;
}

Json source_json(const Source& source) {
  return {{"id", source.id},       {"authors", source.authors},  {"year", source.year},
          {"title", source.title}, {"journal", source.journal},  {"pages", source.pages},
          {"doi", source.doi},     {"how_read", source.how_read}};
}

}  // namespace

Json site_json(const SiteAnswer& site) {
  Json json = {
      {"site", site.site},
      {"name", site.name},
      {"area", area_json(site.facts.area)},
      {"latitude", site.place.latitude_deg},
      {"longitude", site.place.longitude_deg},
      {"facts", facts_json(site)},
      {"priority_warning", site.priority_warning ? Json(*site.priority_warning) : Json(nullptr)},
      {"weather",
       {{"first", date(site.weather.first)},
        {"last_measured", date(site.weather.last_measured)},
        {"last_forecast", date(site.weather.last_forecast)},
        {"missing_days", site.weather.missing_days},
        {"filled_days", site.weather.filled_days},
        {"age_days", site.weather.last_measured ? Json(site.weather.age_days) : Json(nullptr)},
        {"fetched_at", site.weather.fetched_at ? Json(iso(*site.weather.fetched_at)) : Json(nullptr)},
        {"sources", weather_sources_json(site.weather.origins)}}},
      {"soil",
       {{"depth_cm", rounded(site.soil.depth.cm(), 2)},
        {"origin", site.soil.origin},
        {"mean_7d_c", site.soil.mean_7d ? rounded(site.soil.mean_7d->celsius(), 1) : Json(nullptr)},
        {"error_c", rounded(site.soil.error_c, 2)}}},
      {"turf", site.turf ? turf_json(*site.turf) : Json(nullptr)},
      {"week_ahead", days_ahead_json(site.spray)},
      {"settings", settings_json(site.settings)},
      {"targets", Json::array()},
      {"remarks", Json::array()},
      {"problems", Json::array()}};
  for (const TargetAnswer& target : site.targets) json["targets"].push_back(target_json(target, site));
  for (const Remark& remark : site.remarks) json["remarks"].push_back(remark_json(remark));
  if (site.spray) {
    for (const Remark& remark : site.spray->remarks) json["remarks"].push_back(remark_json(remark));
  }
  for (const Problem& problem : site.problems) json["problems"].push_back(problem_json(problem));
  return json;
}

Json frame_json(const AnswerFrame& frame) {
  Json json = {{"format", "soilclock-advice"}, {"version", 2},
               {"on", iso(frame.on)},          {"program", frame.program},
               {"sites", Json::array()},       {"courses", Json::array()},
               {"sources", Json::array()},     {"cautions", frame.cautions}};
  for (const advice::CourseSummary& course : frame.courses) json["courses"].push_back(course_json(course));
  for (const Source& source : frame.sources) json["sources"].push_back(source_json(source));
  return json;
}

std::string advice_json_line(std::span<const SiteAnswer> sites, const AnswerFrame& frame) {
  Json json = frame_json(frame);
  for (const SiteAnswer& site : sites) json["sites"].push_back(site_json(site));
  int rank = 0;
  for (const advice::RankedTarget& entry : advice::by_urgency(sites))
    json["sites"][entry.site]["targets"][entry.target]["urgency_rank"] = ++rank;
  return dumped(json, -1) + "\n";
}

}  // namespace soilclock::report
