// SPDX-License-Identifier: MIT
#include "report/advice_csv.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "advice/answer/urgency.hpp"
#include "report/csv_text.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::report {

namespace {

constexpr const char* heading =
    "urgency_rank,site,name,on,target,action,kind,expected_control,expected_low,expected_high,best_first,"
    "best_last,"
    "good_through,loss_1_week,loss_2_weeks,loss_3_weeks,then_kind,then_from,emerged_percent,emerged_low,"
    "emerged_high,juvenile_percent,up_5_early,up_5,up_5_late,up_50_early,up_50,up_50_late,up_80_early,up_80,"
    "up_80_late,problem,weather_credits\n";

std::vector<std::string> decision_cells(const advice::Decision& decision) {
  std::vector<std::string> cells{std::string{advice::name(decision.action)},
                                 decision.kind ? std::string{treatment::name(*decision.kind)} : ""};
  const Band<double> none{NAN, NAN, NAN};
  const Band<double> control = decision.control.value_or(none);
  cells.insert(cells.end(),
               {csv_number(control.middle, 1), csv_number(control.low, 1), csv_number(control.high, 1)});
  const auto& best = decision.best_range;
  cells.insert(cells.end(),
               {best ? iso(best->first) : "", best ? iso(best->last) : "", csv_date(decision.good_through)});
  for (const auto& cost : decision.cost_of_waiting) cells.push_back(csv_number(cost.value_or(NAN), 1));
  const auto& then = decision.then;
  cells.insert(cells.end(),
               {then ? std::string{treatment::name(then->kind)} : "", then ? iso(then->week_of) : ""});
  return cells;
}

/// A site that could not be answered keeps its row, so that rows and sites can be counted against each other.
std::vector<std::string> failed_row(const advice::SiteAnswer& site) {
  std::vector<std::string> row(
      static_cast<std::size_t>(std::count(heading, heading + std::strlen(heading), ',')) + 1);
  row[1] = csv_words(site.site);
  row[2] = csv_words(site.name);
  row[3] = iso(site.on);
  row[row.size() - 2] = describe(site.problems.front());
  row.back() = weather_sources_cell(site.weather.origins);
  return row;
}

std::vector<std::string> csv_row_of(const advice::SiteAnswer& site, const advice::TargetAnswer& target,
                                    std::optional<int> rank) {
  std::vector<std::string> row{rank ? std::to_string(*rank) : "", csv_words(site.site), csv_words(site.name),
                               iso(site.on), target.target};
  const std::vector<std::string> decided =
      target.refusal ? std::vector<std::string>(13) : decision_cells(target.decision);
  row.insert(row.end(), decided.begin(), decided.end());
  const auto percent = [&](double value) { return csv_number(target.refusal ? NAN : value, 1); };
  row.insert(row.end(), {percent(target.emerged_percent.middle), percent(target.emerged_percent.low),
                         percent(target.emerged_percent.high), percent(target.juvenile_percent.middle)});
  for (const int percent : {5, 50, 80}) {
    DateBand band;
    for (const advice::Milestone& milestone : target.milestones) {
      if (milestone.percent == percent) band = milestone.date;
    }
    row.insert(row.end(), {csv_date(band.low), csv_date(band.middle), csv_date(band.high)});
  }
  row.push_back(target.refusal ? describe(*target.refusal) : "");
  row.push_back(weather_sources_cell(site.weather.origins));
  return row;
}

}  // namespace

std::string advice_csv(std::span<const advice::SiteAnswer> sites) {
  std::string text = heading;
  int rank = 0;
  for (const advice::RankedTarget& entry : advice::by_urgency(sites))
    text += csv_row(csv_row_of(sites[entry.site], sites[entry.site].targets[entry.target], ++rank));
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) {
      if (!advice::still_open(target)) text += csv_row(csv_row_of(site, target, {}));
    }
    if (site.targets.empty() && !site.problems.empty()) text += csv_row(failed_row(site));
  }
  return text;
}

}  // namespace soilclock::report
