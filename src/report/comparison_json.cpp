// SPDX-License-Identifier: MIT
#include "report/comparison_report.hpp"
#include "report/json_values.hpp"
#include "report/season_values_json.hpp"

namespace soilclock::report {

namespace {

Json whole(const std::optional<int>& value) { return value ? Json(*value) : Json(nullptr); }
Json control_json(const std::optional<Band<double>>& control) {
  return control ? percent_band(*control) : Json(nullptr);
}

Json dates_json(const advice::TargetComparison& target) {
  Json dates = Json::array();
  for (const advice::SeasonDate& entry : target.dates) {
    dates.push_back({{"id", entry.id},
                     {"title", entry.title},
                     {"earliest", date(entry.earliest)},
                     {"middle", date(entry.middle)},
                     {"latest", date(entry.latest)},
                     {"days_apart", whole(entry.days_apart)},
                     {"this_season", date(entry.this_season)}});
  }
  return dates;
}

Json calls_json(const advice::TargetComparison& target) {
  Json calls = Json::array();
  for (const advice::CallMisses& call : target.calls) {
    Json days = Json::array();
    for (const auto& late : call.days_late) days.push_back(whole(late));
    calls.push_back({{"id", call.id},
                     {"title", call.title},
                     {"days_late", days},
                     {"mean_miss_days", call.mean_miss ? rounded(*call.mean_miss, 1) : Json(nullptr)},
                     {"late_seasons", call.late_seasons},
                     {"seasons", call.seasons}});
  }
  return calls;
}

Json what_ifs_json(const advice::TargetComparison& target) {
  if (!target.what_ifs) return nullptr;
  Json cases = Json::array();
  for (const advice::WhatIf& one : target.what_ifs->cases) {
    cases.push_back({{"id", one.id},
                     {"title", one.title},
                     {"first_up", date_band(one.first_up)},
                     {"first_up_shift_days", whole(one.first_up_shift)},
                     {"half_up", date_band(one.half_up)},
                     {"half_up_shift_days", whole(one.half_up_shift)},
                     {"best_week", date(one.best_week)},
                     {"best_kind", kind_json(one.best_kind)},
                     {"best_control", control_json(one.best_control)}});
  }
  return {{"asked_on", iso(target.what_ifs->asked_on)}, {"cases", cases}};
}

Json target_json(const advice::TargetComparison& target) {
  Json seasons = Json::array();
  for (const advice::SeasonRow& row : target.seasons) {
    seasons.push_back(
        {{"label", row.label}, {"open", row.open}, {"season", season_summary_json(row.season)}});
  }
  Json json = {{"target", target.target},
               {"title", target.title},
               {"finding", target.finding},
               {"range", target.range},
               {"what_if_finding", target.what_if_finding},
               {"yardstick_percent", target.yardstick_percent},
               {"yardstick_days_before", nullptr},
               {"yardstick_days_after", nullptr},
               {"seasons", seasons},
               {"dates", dates_json(target)},
               {"calls", calls_json(target)},
               {"what_ifs", what_ifs_json(target)}};
  if (target.yardstick_band) {
    json["yardstick_days_before"] = -target.yardstick_band->low;
    json["yardstick_days_after"] = target.yardstick_band->high;
  }
  return json;
}

Json lines_json(const std::vector<advice::LessonDay>& lines) {
  Json days = Json::array();
  for (const advice::LessonDay& line : lines) {
    days.push_back({{"date", iso(line.day)},
                    {"high", rounded(line.high, 1)},
                    {"low", rounded(line.low, 1)},
                    {"mean", rounded(line.mean, 2)},
                    {"above", rounded(line.above, 2)},
                    {"sum", rounded(line.sum, 2)}});
  }
  return days;
}

Json lesson_json(const std::optional<advice::DegreeDayLesson>& lesson) {
  if (!lesson) return nullptr;
  Json methods = Json::array();
  for (const advice::MethodSum& sum : lesson->methods)
    methods.push_back({{"method", sum.method}, {"sum", rounded(sum.sum, 1)}});
  return {{"unit", lesson->us_units ? "F" : "C"},
          {"base", rounded(lesson->base, 1)},
          {"worked", lines_json(lesson->worked)},
          {"exercise", lines_json(lesson->exercise)},
          {"asked_sum", rounded(lesson->asked_sum, 1)},
          {"passed_on", date(lesson->passed_on)},
          {"late_start", iso(lesson->exercise[lesson->late_start].day)},
          {"passed_on_from_late_start", date(lesson->passed_on_late)},
          {"spring_first", iso(lesson->spring.begin())},
          {"spring_last", iso(lesson->spring.end() - Days{1})},
          {"methods", methods}};
}

}  // namespace

std::string comparison_json(const std::vector<advice::SiteComparison>& sites, const AnswerFrame& frame) {
  Json json = {{"format", "soilclock-comparison"}, {"version", 1},           {"on", iso(frame.on)},
               {"program", frame.program},         {"sites", Json::array()}, {"cautions", frame.cautions}};
  for (const advice::SiteComparison& site : sites) {
    Json entry = {{"site", site.answer.site},           {"name", site.answer.name},
                  {"targets", Json::array()},           {"not_compared", Json::array()},
                  {"lesson", lesson_json(site.lesson)}, {"problems", Json::array()}};
    for (const advice::TargetComparison& target : site.targets)
      entry["targets"].push_back(target_json(target));
    for (const advice::NotCompared& target : site.not_compared)
      entry["not_compared"].push_back({{"target", target.target}, {"why", target.why}});
    for (const Problem& problem : site.answer.problems) entry["problems"].push_back(problem_json(problem));
    json["sites"].push_back(std::move(entry));
  }
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report
