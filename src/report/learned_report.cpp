// SPDX-License-Identifier: MIT
#include "report/learned_report.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

Json season_json(const advice::LearnedSeason& season) {
  return {{"season_start", iso(season.season_start)},
          {"neighbor", season.site.empty() ? Json(nullptr) : Json(season.site)},
          {"visits", season.visit_days},
          {"plots", season.plots},
          {"first_seen", date(season.first_seen)},
          {"days_later", rounded(season.days, 1)},
          {"doubt", rounded(season.doubt, 2)}};
}

Json model_json(const advice::LearnedModel& model) {
  return {{"id", model.id},
          {"weight_before", rounded(model.weight_before, 3)},
          {"weight", rounded(model.weight, 3)},
          {"days_later", rounded(model.days, 1)}};
}

Json target_json(const advice::TargetAnswer& target) {
  Json json = {{"target", target.target},  {"season_start", iso(target.season_start)},
               {"text", nullptr},          {"days_later", nullptr},
               {"seasons", Json::array()}, {"models", Json::array()}};
  if (!target.learned) return json;
  json["text"] = target.learned->text;
  json["days_later"] = rounded(target.learned->days, 1);
  for (const auto& season : target.learned->seasons) json["seasons"].push_back(season_json(season));
  for (const auto& model : target.learned->models) json["models"].push_back(model_json(model));
  return json;
}

std::string tables(const advice::Learned& learned) {
  std::string text = fmt::format("  {:<11}  {:<18}  {:>6}  {:>5}  {:<10}  {:>10}  {:>7}\n", "season from",
                                 "noted at", "visits", "plots", "first seen", "days later", "doubt %");
  for (const advice::LearnedSeason& season : learned.seasons) {
    text += fmt::format("  {:<11}  {:<18}  {:>6}  {:>5}  {:<10}  {:>10}  {:>7}\n", iso(season.season_start),
                        season.site.empty() ? "here" : printable(season.site, 18), season.visit_days,
                        season.plots, season.first_seen ? iso(*season.first_seen) : "-",
                        signed_number_text(season.days, 0), number_text(100.0 * season.doubt, 0));
  }
  text += fmt::format("  {:<31}  {:>8}  {:>5}  {:>10}\n", "model", "weight %", "now %", "days later");
  for (const advice::LearnedModel& model : learned.models) {
    text +=
        fmt::format("  {:<31}  {:>8}  {:>5}  {:>10}\n", model.id, number_text(100.0 * model.weight_before, 0),
                    number_text(100.0 * model.weight, 0), signed_number_text(model.days, 0));
  }
  return text;
}

}  // namespace

std::string learned_json(const std::vector<advice::SiteAnswer>& sites, Day on) {
  Json json = {{"format", "soilclock-learned"}, {"version", 1}, {"on", iso(on)}, {"sites", Json::array()}};
  for (const advice::SiteAnswer& site : sites) {
    Json entry = {
        {"site", site.site}, {"name", site.name}, {"targets", Json::array()}, {"problems", Json::array()}};
    for (const advice::TargetAnswer& target : site.targets) entry["targets"].push_back(target_json(target));
    for (const Problem& problem : site.problems) entry["problems"].push_back(problem_json(problem));
    json["sites"].push_back(entry);
  }
  return dumped(json, 2) + "\n";
}

std::string learned_text(const std::vector<advice::SiteAnswer>& sites) {
  std::string text;
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      text += printable(site.name, 80) + ", " + target.title + "\n";
      text += target.learned ? wrapped(target.learned->text, 2) + tables(*target.learned)
                             : "  Nothing noted of an earlier season that could be used.\n";
      text += "\n";
    }
    for (const Problem& problem : site.problems)
      text += wrapped(printable(site.name, 80) + ": " + describe(problem), 0);
  }
  return text;
}

std::string learned_csv(const std::vector<advice::SiteAnswer>& sites) {
  std::string text = "site,target,season_start,neighbor,visits,plots,first_seen,days_later,doubt_percent\n";
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      if (!target.learned) continue;
      for (const advice::LearnedSeason& season : target.learned->seasons) {
        text += csv_row({csv_words(site.site), target.target, iso(season.season_start),
                         csv_words(season.site), std::to_string(season.visit_days),
                         std::to_string(season.plots), season.first_seen ? iso(*season.first_seen) : "",
                         csv_number(season.days, 1), csv_number(100.0 * season.doubt, 0)});
      }
    }
  }
  return text;
}

}  // namespace soilclock::report
