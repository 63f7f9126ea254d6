// SPDX-License-Identifier: MIT
#include "report/season_report.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
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
          {"juvenile_percent", rounded(row.juvenile_percent, 1)},
          {"soil_low_c", rounded(row.soil_low.celsius(), 2)},
          {"soil_high_c", rounded(row.soil_high.celsius(), 2)},
          {"young", percent_band(row.young_percent)},
          {"older", percent_band(row.older_percent)},
          {"residual_left_percent",
           row.residual_left_percent ? rounded(*row.residual_left_percent, 1) : Json(nullptr)}};
}

/// The columns of one day in the order of the head of season_csv.
std::vector<std::string> csv_cells(const advice::SiteAnswer& site, const advice::TargetAnswer& target,
                                   const advice::SeasonDay& row) {
  std::vector<std::string> cells{csv_words(site.site),
                                 target.target,
                                 iso(row.day),
                                 std::string{row.origin},
                                 csv_number(row.soil_5cm.celsius(), 2),
                                 csv_number(row.rain, &Rain::mm, 2),
                                 csv_number(row.emerged_percent.middle, 2),
                                 csv_number(row.emerged_percent.low, 2),
                                 csv_number(row.emerged_percent.high, 2),
                                 csv_number(row.juvenile_percent, 1),
                                 weather_sources_cell(site.weather.origins),
                                 csv_number(row.soil_low.celsius(), 2),
                                 csv_number(row.soil_high.celsius(), 2)};
  for (const Band<double>& share : {row.young_percent, row.older_percent}) {
    for (const double percent : {share.middle, share.low, share.high})
      cells.push_back(csv_number(percent, 2));
  }
  cells.push_back(row.residual_left_percent ? csv_number(*row.residual_left_percent, 1) : "");
  return cells;
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
            row.rain ? us ? number_text(row.rain->inches(), 2) : number_text(row.rain->mm(), 1) : "-";
        text += fmt::format("{:<10}  {:<8}  {:>7}  {:>7}  {:>6}  {:>11}  {:>8}\n", iso(row.day), row.origin,
                            number_text(soil, 1), rain, number_text(row.emerged_percent.middle, 1),
                            fmt::format("{} - {}", number_text(row.emerged_percent.low, 0),
                                        number_text(row.emerged_percent.high, 0)),
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
      "credits,soil_low_c,soil_high_c,young_percent,young_low,young_high,older_percent,older_low,older_high,"
      "residual_left_percent\n";
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      for (const advice::SeasonDay& row : target.season) {
        text += csv_row(csv_cells(site, target, row));
      }
    }
  }
  return text;
}

}  // namespace soilclock::report
