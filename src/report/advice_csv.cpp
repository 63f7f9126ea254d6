// SPDX-License-Identifier: MIT
#include "report/advice_csv.hpp"

#include "report/csv_text.hpp"

namespace soilclock::report {

namespace {

std::string date_cell(const std::optional<Day>& day) { return day ? iso(*day) : ""; }

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
  row.push_back(target.refusal ? describe(*target.refusal) : "");
  return row;
}

}  // namespace

std::string advice_csv(const std::vector<advice::SiteAnswer>& sites) {
  std::string text =
      "site,name,on,target,state,emerged_percent,emerged_low,emerged_high,juvenile_percent,"
      "up_5_early,up_5,up_5_late,up_50_early,up_50,up_50_late,up_80_early,up_80,up_80_late,problem\n";
  for (const advice::SiteAnswer& site : sites) {
    for (const advice::TargetAnswer& target : site.targets) text += csv_row(row_of(site, target));
    if (site.targets.empty() && !site.problems.empty()) {
      std::vector<std::string> row(19);
      row[0] = site.site;
      row[1] = site.name;
      row[2] = iso(site.on);
      row[18] = describe(site.problems.front());
      text += csv_row(row);
    }
  }
  return text;
}

}  // namespace soilclock::report
