// SPDX-License-Identifier: MIT
#include "core/csv.hpp"
#include "report/comparison_report.hpp"
#include "report/csv_text.hpp"

namespace soilclock::report {

namespace {

/// The rows of one table of one target at one site.
class Rows {
 public:
  Rows(std::string& out, const std::string& site, const std::string& target, std::string table)
      : out_{out}, site_{site}, target_{target}, table_{std::move(table)} {}

  void value(const std::string& row, const std::string& item, const std::string& value) {
    out_ += csv_row({csv_words(site_), target_, table_, csv_words(row), item, value});
  }
  void day(const std::string& row, const std::string& item, const std::optional<Day>& day) {
    value(row, item, day ? iso(*day) : "");
  }
  void days(const std::string& row, const std::string& item, const std::optional<int>& days) {
    value(row, item, days ? csv_number(*days, 0) : "");
  }
  void best(const std::string& row, const std::optional<Day>& week,
            const std::optional<treatment::Kind>& kind, const std::optional<Band<double>>& control) {
    day(row, "best_week", week);
    value(row, "best_kind", kind ? std::string{treatment::name(*kind)} : "");
    value(row, "control_percent", control ? csv_number(control->middle, 1) : "");
    value(row, "control_low_percent", control ? csv_number(control->low, 1) : "");
  }

 private:
  std::string& out_;
  const std::string& site_;
  const std::string& target_;
  std::string table_;
};

void write_seasons(std::string& out, const std::string& site, const advice::TargetComparison& target) {
  Rows rows{out, site, target.target, "seasons"};
  for (const advice::SeasonRow& row : target.seasons) {
    for (const advice::ShareUp& share : row.season.up)
      rows.day(row.label, std::to_string(share.percent) + "_percent_up", share.day);
    for (const advice::RuleDay& rule : row.season.rule_days) rows.day(row.label, rule.id, rule.day);
    rows.best(row.label, row.season.best_week, row.season.best_kind, row.season.best_control);
  }
}

void write_calls(std::string& out, const std::string& site, const advice::TargetComparison& target) {
  Rows rows{out, site, target.target, "calls"};
  for (const advice::CallMisses& call : target.calls) {
    for (std::size_t i = 0; i < call.days_late.size(); ++i)
      rows.days(call.id, "days_late_" + target.seasons[i].label, call.days_late[i]);
    rows.value(call.id, "mean_miss_days", call.mean_miss ? csv_number(*call.mean_miss, 1) : "");
  }
}

void write_what_ifs(std::string& out, const std::string& site, const advice::TargetComparison& target) {
  if (!target.what_ifs) return;
  Rows rows{out, site, target.target, "what-ifs"};
  for (const advice::WhatIf& one : target.what_ifs->cases) {
    rows.day(one.id, std::to_string(target.yardstick_percent) + "_percent_up", one.first_up.middle);
    rows.days(one.id, "first_up_shift_days", one.first_up_shift);
    rows.day(one.id, "50_percent_up", one.half_up.middle);
    rows.days(one.id, "half_up_shift_days", one.half_up_shift);
    rows.best(one.id, one.best_week, one.best_kind, one.best_control);
  }
}

}  // namespace

std::string comparison_csv(const std::vector<advice::SiteComparison>& sites) {
  std::string text = "site,target,table,row,item,value\n";
  for (const advice::SiteComparison& site : sites) {
    for (const advice::TargetComparison& target : site.targets) {
      write_seasons(text, site.answer.site, target);
      write_calls(text, site.answer.site, target);
      write_what_ifs(text, site.answer.site, target);
    }
  }
  return text;
}

}  // namespace soilclock::report
