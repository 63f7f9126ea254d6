// SPDX-License-Identifier: MIT
#include "report/advice_json.hpp"

#include "report/json_values.hpp"

namespace soilclock::report {

namespace {

Json stages_json(const emergence::StageShares& stages) {
  return {{"leaves_1_3", rounded(stages.leaves_1_3, 3)},
          {"to_one_tiller", rounded(stages.to_one_tiller, 3)},
          {"two_tillers", rounded(stages.two_tillers, 3)},
          {"older", rounded(stages.older, 3)}};
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

Json answered_target(const advice::TargetAnswer& target) {
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
  for (const advice::Milestone& milestone : target.milestones) {
    Json entry = {{"percent", milestone.percent}};
    entry.update(date_band(milestone.date));
    json["milestones"].push_back(entry);
  }
  for (const advice::Window& window : target.windows) {
    json["windows"].push_back({{"kind", treatment::name(window.kind)},
                               {"opens", date_band(window.opens)},
                               {"closes", date_band(window.closes)}});
  }
  return json;
}

Json target_json(const advice::TargetAnswer& target) {
  Json json = target.refusal ? refused_target(target) : answered_target(target);
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
                 {"filled_days", site.weather.filled_days}}},
               {"soil",
                {{"depth_cm", rounded(site.soil.depth.cm(), 2)},
                 {"origin", site.soil.origin},
                 {"mean_7d_c", site.soil.mean_7d ? rounded(site.soil.mean_7d->celsius(), 1) : Json(nullptr)},
                 {"error_c", rounded(site.soil.error_c, 2)}}},
               {"targets", Json::array()},
               {"remarks", Json::array()},
               {"problems", Json::array()}};
  for (const advice::TargetAnswer& target : site.targets) json["targets"].push_back(target_json(target));
  for (const Remark& remark : site.remarks) json["remarks"].push_back(remark_json(remark));
  for (const Problem& problem : site.problems) json["problems"].push_back(problem_json(problem));
  return json;
}

Json source_json(const Source& source) {
  return {{"id", source.id},           {"authors", source.authors}, {"year", source.year}, {"title", source.title},
          {"journal", source.journal}, {"pages", source.pages},     {"doi", source.doi},   {"how_read", source.how_read}};
}

Json document(const std::vector<const advice::SiteAnswer*>& sites, const AnswerFrame& frame) {
  Json json = {{"format", "soilclock-advice"}, {"version", 1}, {"on", iso(frame.on)}, {"sites", Json::array()},
               {"sources", Json::array()},     {"cautions", frame.cautions}};
  for (const advice::SiteAnswer* site : sites) json["sites"].push_back(site_json(*site));
  for (const Source& source : frame.sources) json["sources"].push_back(source_json(source));
  return json;
}

}  // namespace

std::string advice_json(const std::vector<advice::SiteAnswer>& sites, const AnswerFrame& frame) {
  std::vector<const advice::SiteAnswer*> all;
  for (const advice::SiteAnswer& site : sites) all.push_back(&site);
  return dumped(document(all, frame), 2) + "\n";
}

std::string advice_json_line(const advice::SiteAnswer& site, const AnswerFrame& frame) {
  return dumped(document({&site}, frame), -1) + "\n";
}

}  // namespace soilclock::report
