// SPDX-License-Identifier: MIT
#include "treatment/logged.hpp"

#include <algorithm>
#include <map>

namespace soilclock::treatment {

namespace {

std::size_t index_in(const DayRange& season, Day day) {
  return static_cast<std::size_t>((day - season.begin()).count());
}

}  // namespace

LoggedDoses::LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                         const ResidualRule& rule)
    : season_{cohorts.days()}, rule_{rule} {
  for (const LoggedApplication& application : logged) {
    if (!has_residual(application.kind) || !season_.contains(application.day)) continue;
    const auto& delay = application.activation_delay_days;
    for (const ResidualDraw& part : application.drawn.residuals) {
      doses_.push_back({part.group, index_in(season_, application.day),
                        delay ? application.share_of_dose : 0.0, static_cast<std::size_t>(delay.value_or(0)),
                        part.works,
                        ResidualClock{cohorts.soil, part.weeks, part.activation_energy_j_per_mol, rule}});
    }
  }
  std::stable_sort(doses_.begin(), doses_.end(),
                   [](const Dose& a, const Dose& b) { return a.group < b.group; });
}

std::optional<double> LoggedDoses::left_on(Day day) const {
  if (!season_.contains(day)) return std::nullopt;
  const std::size_t today = index_in(season_, day);
  std::map<int, double> left;
  for (const Dose& dose : doses_) {
    if (dose.applied <= today) left[dose.group] += dose.share * dose.clock.left(dose.applied, today);
  }
  if (left.empty()) return std::nullopt;
  double most = 0.0;
  for (const auto& [group, dose] : left) most = std::max(most, dose);
  return most;
}

double LoggedDoses::stopped_on(std::size_t day) const {
  double passes = 1.0;
  for (std::size_t i = 0; i < doses_.size();) {
    const int group = doses_[i].group;
    double acting = 0.0;
    double works = 0.0;
    for (; i < doses_.size() && doses_[i].group == group; ++i) {
      const Dose& dose = doses_[i];
      if (dose.applied + dose.delay >= day) continue;
      acting += dose.share * dose.clock.left(dose.applied, day);
      works = std::max(works, dose.works);
    }
    passes *= 1.0 - works * dose_effect(acting, rule_);
  }
  return 1.0 - passes;
}

std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const GrassControl& grass, const ResidualRule& rule) {
  std::vector<double> left{cohorts.emerging_share.begin(), cohorts.emerging_share.end()};
  for (const LoggedApplication& application : logged) {
    if (!cohorts.days().contains(application.day)) continue;
    const bool never_watered_in = !application.activation_delay_days;
    if (never_watered_in && !has_foliar(application.kind)) continue;
    const std::vector<double> killed =
        killed_of_those_up(cohorts, application.drawn, grass, application.kind, application.day);
    for (std::size_t i = 0; i < left.size(); ++i) left[i] *= 1.0 - killed[i];
  }
  const LoggedDoses doses{cohorts, logged, rule};
  for (std::size_t i = 0; i < left.size(); ++i) left[i] *= 1.0 - doses.stopped_on(i);
  return left;
}

}  // namespace soilclock::treatment
