// SPDX-License-Identifier: MIT
#include "obey/asking.hpp"

namespace soilclock::obey {

std::array<treatment::TankPlan, plan_count> plans(const advice::DecisionRules& rules) {
  std::array<treatment::TankPlan, plan_count> all;
  std::size_t next = 1;
  for (const double weeks : {rules.short_residual_weeks, rules.long_residual_weeks}) {
    for (const auto foliar : {treatment::FoliarClass::contact, treatment::FoliarClass::translocated}) {
      all[next].residual_weeks = weeks;
      all[next++].foliar = foliar;
    }
  }
  return all;
}

Asker::Asker(const Station& station, const std::string& target, const advice::Catalogue& catalogue)
    : catalogue_{catalogue}, plans_{plans(catalogue.practice.decision)} {
  request_.id = station.name;
  request_.name = station.name;
  request_.place = station.place;
  request_.stored.series.push_back({station.name, station.name, station.daily, false, false, {}, {}});
  request_.targets = {target};
}

std::optional<std::vector<advice::Decision>> Asker::decisions(
    Day on, std::span<const std::size_t> plan_numbers) const {
  SiteRequest request = request_;
  request.on = on;
  request.plan = plans_[plan_numbers.front()];
  for (const std::size_t number : plan_numbers.subspan(1)) request.compared_plans.push_back(plans_[number]);
  const advice::SiteAnswer answer = answer_site(request, catalogue_);
  if (answer.targets.empty() || answer.targets.front().refusal) return std::nullopt;
  const advice::TargetAnswer& target = answer.targets.front();
  if (target.decision.action == advice::Action::no_single_week) return std::nullopt;
  std::vector<advice::Decision> decisions{target.decision};
  for (const advice::ComparedPlan& compared : target.compared_plans) decisions.push_back(compared.decision);
  return decisions;
}

advice::SiteAnswer Asker::with_tables(Day on) const {
  SiteRequest request = request_;
  request.on = on;
  request.compared_plans.assign(plans_.begin(), plans_.end());
  request.plan_tables = true;
  return answer_site(request, catalogue_);
}

}  // namespace soilclock::obey
