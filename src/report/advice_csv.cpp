// SPDX-License-Identifier: MIT
#include "report/advice_csv.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "report/csv_text.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::report {

namespace {

std::string date_cell(const std::optional<Day>& day) { return day ? iso(*day) : ""; }

constexpr const char* heading =
    "site,name,on,target,state,emerged_percent,emerged_low,emerged_high,juvenile_percent,"
    "up_5_early,up_5,up_5_late,up_50_early,up_50,up_50_late,up_80_early,up_80,up_80_late,"
    "best_week,best_kind,best_reach,best_low,cost_of_waiting_one_week,problem,weather_credits\n";

/// Week, kind, reach, careful reach and price of a week's delay; empty cells where no week can be named.
std::vector<std::string> best_cells(const advice::TargetAnswer& target) {
  if (!target.reach || !target.reach->best) return std::vector<std::string>(5);
  const treatment::BestWeek& best = *target.reach->best;
  return {iso(best.week_of), std::string{treatment::name(best.kind)}, csv_number(best.points.middle, 1),
          csv_number(best.points.low, 1), csv_number(best.cost_of_waiting[0].value_or(NAN), 1)};
}

/// A site that could not be answered keeps its row, so that rows and sites can be counted against each other.
std::vector<std::string> failed_row(const advice::SiteAnswer& site) {
  std::vector<std::string> row(
      static_cast<std::size_t>(std::count(heading, heading + std::strlen(heading), ',')) + 1);
  row[0] = site.site;
  row[1] = site.name;
  row[2] = iso(site.on);
  row[row.size() - 2] = describe(site.problems.front());
  row.back() = weather_sources_cell(site.weather.origins);
  return row;
}

std::vector<std::string> row_of(const advice::SiteAnswer& site, const advice::TargetAnswer& target) {
  std::vector<std::string> row{site.site,
                               site.name,
                               iso(site.on),
                               target.target,
                               target.refusal ? "" : std::string{advice::name(target.state)},
                               csv_number(target.refusal ? NAN : target.emerged_percent.middle, 1),
                               csv_number(target.refusal ? NAN : target.emerged_percent.low, 1),
                               csv_number(target.refusal ? NAN : target.emerged_percent.high, 1),
                               csv_number(target.refusal ? NAN : target.juvenile_percent.middle, 1)};
  for (const int percent : {5, 50, 80}) {
    DateBand band;
    for (const advice::Milestone& milestone : target.milestones) {
      if (milestone.percent == percent) band = milestone.date;
    }
    row.insert(row.end(), {date_cell(band.low), date_cell(band.middle), date_cell(band.high)});
  }
  const std::vector<std::string> best = best_cells(target);
  row.insert(row.end(), best.begin(), best.end());
  row.push_back(target.refusal ? describe(*target.refusal) : "");
  row.push_back(weather_sources_cell(site.weather.origins));
  return row;
}

}  // namespace

std::string advice_csv(const std::vector<advice::SiteAnswer>& sites) {
  std::string text = heading;
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) text += csv_row(row_of(site, target));
    if (site.targets.empty() && !site.problems.empty()) text += csv_row(failed_row(site));
  }
  return text;
}

}  // namespace soilclock::report
