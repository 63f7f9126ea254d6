// SPDX-License-Identifier: MIT
#include "report/season_report.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "report/advice_text.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

Json day_json(const advice::SeasonDay& row) {
  return {{"date", iso(row.day)},
          {"origin", row.origin},
          {"soil_5cm_c", rounded(row.soil_5cm.celsius(), 2)},
          {"rain_mm", row.rain ? rounded(row.rain->mm(), 2) : Json(nullptr)},
          {"emerged", percent_band(row.emerged_percent)},
          {"juvenile_percent", rounded(row.juvenile_percent, 1)}};
}

std::string juvenile_cell(double percent) {
  return csv_number(percent, 0).empty() ? "-" : csv_number(percent, 0);
}

}  // namespace

std::string season_json(const std::vector<advice::SiteAnswer>& sites, Day on) {
  Json json = {{"format", "soilclock-season"}, {"version", 1}, {"on", iso(on)}, {"sites", Json::array()}};
  for (const advice::SiteAnswer& site : sites) {
    Json entry = {{"site", site.site},
                  {"name", site.name},
                  {"weather_sources", weather_sources_json(site.weather.origins)},
                  {"targets", Json::array()},
                  {"problems", Json::array()}};
    for (const advice::TargetAnswer& target : site.targets) {
      Json table = {
          {"target", target.target}, {"season_start", iso(target.season_start)}, {"days", Json::array()}};
      for (const advice::SeasonDay& row : target.season) table["days"].push_back(day_json(row));
      entry["targets"].push_back(table);
    }
    for (const Problem& problem : site.problems) entry["problems"].push_back(problem_json(problem));
    json["sites"].push_back(entry);
  }
  return dumped(json, 2) + "\n";
}

std::string season_text(const std::vector<advice::SiteAnswer>& sites, bool us) {
  std::string text;
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      text += wrapped(headline(site, target), 0);
      if (target.season.empty()) continue;
      text += fmt::format("{:<10}  {:<8}  {:>7}  {:>7}  {:>6}  {:>11}  {:>8}\n", "date", "weather",
                          us ? "soil F" : "soil C", us ? "rain in" : "rain mm", "up %", "band", "juvenile");
      for (const advice::SeasonDay& row : target.season) {
        const double soil = us ? row.soil_5cm.fahrenheit() : row.soil_5cm.celsius();
        const std::string rain =
            row.rain ? us ? fmt::format("{:.2f}", row.rain->inches()) : fmt::format("{:.1f}", row.rain->mm())
                     : "-";
        text += fmt::format("{:<10}  {:<8}  {:>7.1f}  {:>7}  {:>6.1f}  {:>11}  {:>8}\n", iso(row.day),
                            row.origin, soil, rain, row.emerged_percent.middle,
                            fmt::format("{:.0f} - {:.0f}", row.emerged_percent.low, row.emerged_percent.high),
                            juvenile_cell(row.juvenile_percent));
      }
      text += "\n";
    }
    text += weather_sources_text(site.weather.origins, site.on);
    for (const Problem& problem : site.problems)
      text += wrapped(printable(site.name, 80) + ": " + describe(problem), 0);
  }
  return text;
}

std::string season_csv(const std::vector<advice::SiteAnswer>& sites) {
  std::string text =
      "site,target,date,origin,soil_5cm_c,rain_mm,emerged_percent,low,high,juvenile_percent,weather_"
      "credits\n";
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      for (const advice::SeasonDay& row : target.season) {
        text += csv_row({site.site, target.target, iso(row.day), std::string{row.origin},
                         csv_number(row.soil_5cm.celsius(), 2), csv_number(row.rain, &Rain::mm, 2),
                         csv_number(row.emerged_percent.middle, 2), csv_number(row.emerged_percent.low, 2),
                         csv_number(row.emerged_percent.high, 2), csv_number(row.juvenile_percent, 1),
                         weather_sources_cell(site.weather.origins)});
      }
    }
  }
  return text;
}

}  // namespace soilclock::report
