// SPDX-License-Identifier: MIT
#include "advice/ensemble/middle_curve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

/// The middle of unsorted values, the mean of the two in the middle of an even number.
double median_of(std::vector<double>& values) {
  const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), half, values.end());
  if (values.size() % 2 == 1) return *half;
  return 0.5 * (*half + *std::max_element(values.begin(), half));
}

std::vector<std::vector<std::size_t>> members_by_model(const TargetRun& run) {
  std::vector<std::vector<std::size_t>> members;
  for (std::size_t i = 0; i < run.members.size(); ++i) {
    const std::size_t model = run.members[i].model;
    if (members.size() <= model) members.resize(model + 1);
    members[model].push_back(i);
  }
  return members;
}

}  // namespace

MiddleCurve::MiddleCurve(const TargetRun& run) : season_days_{run.season.length()} {
  auto members = members_by_model(run);
  for (std::size_t model = 0; model < members.size(); ++model) {
    if (!members[model].empty()) models_.emplace_back(run, model, std::move(members[model]));
  }
}

MiddleCurve::ModelCurve::ModelCurve(const TargetRun& run, std::size_t model, std::vector<std::size_t> members)
    : run_{&run},
      model_{model},
      members_{std::move(members)},
      weight_{static_cast<double>(members_.size()) / static_cast<double>(run.members.size())},
      up_(static_cast<std::size_t>(run.season.length()), std::numeric_limits<double>::quiet_NaN()) {}

double MiddleCurve::ModelCurve::up(std::size_t day) const {
  if (std::isnan(up_[day])) {
    std::vector<double> values;
    values.reserve(members_.size());
    for (const std::size_t member : members_)
      values.push_back(run_->members[member].curve.at(static_cast<int>(day)));
    up_[day] = median_of(values);
  }
  return up_[day];
}

std::optional<double> MiddleCurve::ModelCurve::day_reaching(double share) const {
  std::size_t found = 0;  // the first day that reaches it
  for (std::size_t days = up_.size(); days > 0;) {
    const std::size_t half = days / 2;
    const bool below = up(found + half) < share;
    found += below ? half + 1 : 0;
    days = below ? days - half - 1 : half;
  }
  if (found == up_.size()) return std::nullopt;
  const auto day = static_cast<double>(found);
  const double before = found == 0 ? 0.0 : up(found - 1);
  const double here = up(found);
  return here > before ? day - (here - share) / (here - before) : day;
}

std::optional<double> MiddleCurve::day_reaching(double share) const {
  double sum = 0.0;
  double never = 0.0;
  for (const ModelCurve& model : models_) {
    const auto day = model.day_reaching(share);
    if (!day) never += model.weight();
    sum += model.weight() * day.value_or(season_days_);
  }
  if (models_.empty() || never >= 0.5) return std::nullopt;
  return sum;
}

std::optional<int> MiddleCurve::first_day_reaching(double share) const {
  constexpr double rounding = 1e-9;
  const auto day = day_reaching(share);
  if (!day) return std::nullopt;
  return std::max(0, static_cast<int>(std::ceil(*day - rounding)));
}

double MiddleCurve::at(int season_day) const {
  constexpr int halvings = 40;
  double low = 0.0;
  double high = 1.0;
  if (season_day < 0) return 0.0;
  if (const auto all = day_reaching(high); all && *all <= season_day) return high;
  for (int i = 0; i < halvings; ++i) {
    const double share = 0.5 * (low + high);
    const auto day = day_reaching(share);
    (day && *day <= season_day ? low : high) = share;
  }
  return low;
}

std::optional<int> middle_over_models(const TargetRun& run,
                                      const std::vector<std::optional<int>>& day_by_member) {
  double sum = 0.0;
  double weights = 0.0;
  for (const auto& members : members_by_model(run)) {
    std::vector<std::optional<int>> days;
    for (const std::size_t member : members) days.push_back(day_by_member[member]);
    const auto middle = day_band_of(std::move(days)).middle;
    if (!middle) continue;
    const double weight = static_cast<double>(members.size()) / static_cast<double>(run.members.size());
    sum += weight * *middle;
    weights += weight;
  }
  if (weights <= 0.5) return std::nullopt;
  return static_cast<int>(std::lround(sum / weights));
}

}  // namespace soilclock::advice
