// SPDX-License-Identifier: MIT
#include "advice/hindcast/forecast_scores.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soilclock::advice {

namespace {

/// Rounding of summed weights must not push a quantile to the next day.
constexpr double rounding = 1e-9;

bool earlier(const WeightedDay& a, const WeightedDay& b) {
  if (a.day && b.day) return *a.day < *b.day;
  return a.day.has_value() && !b.day.has_value();
}

}  // namespace

DayEnsemble::DayEnsemble(std::vector<WeightedDay> members) : members_{std::move(members)} {
  std::stable_sort(members_.begin(), members_.end(), earlier);
  double sum = 0.0;
  for (const WeightedDay& member : members_) sum += member.weight;
  for (WeightedDay& member : members_) member.weight /= sum;
}

DayEnsemble DayEnsemble::even(const std::vector<std::optional<int>>& days) {
  std::vector<WeightedDay> members;
  members.reserve(days.size());
  for (const std::optional<int>& day : days) members.push_back({day, 1.0});
  return DayEnsemble{std::move(members)};
}

DayEnsemble DayEnsemble::mixed_with(const DayEnsemble& other, double share) const {
  if (share <= 0.0 || other.empty()) return *this;
  if (share >= 1.0 || empty()) return other;
  std::vector<WeightedDay> both = members_;
  for (WeightedDay& member : both) member.weight *= 1.0 - share;
  for (const WeightedDay& member : other.members_) both.push_back({member.day, member.weight * share});
  return DayEnsemble{std::move(both)};
}

double DayEnsemble::by(int day) const {
  double sum = 0.0;
  for (const WeightedDay& member : members_) {
    if (!member.day || *member.day > day) break;
    sum += member.weight;
  }
  return sum;
}

std::optional<int> DayEnsemble::quantile(double probability) const {
  double sum = 0.0;
  for (const WeightedDay& member : members_) {
    sum += member.weight;
    if (sum >= probability - rounding) return member.day;
  }
  return std::nullopt;
}

Band<std::optional<int>> DayEnsemble::band() const {
  return {quantile(band_low_quantile), quantile(0.5), quantile(band_high_quantile)};
}

double crps(const DayEnsemble& forecast, Outcome outcome, int after_window) {
  const double truth = outcome.value_or(after_window);
  double distance = 0.0;
  double spread = 0.0;  // E|X - X'|/2 of sorted days: sum of w_i (F before + F up to - 1) x_i
  double before = 0.0;
  for (const WeightedDay& member : forecast.members()) {
    const double day = member.day.value_or(after_window);
    distance += member.weight * std::abs(day - truth);
    spread += member.weight * (2.0 * before + member.weight - 1.0) * day;
    before += member.weight;
  }
  return distance - spread;
}

bool covers(const Band<std::optional<int>>& band, Outcome outcome) {
  constexpr int never = std::numeric_limits<int>::max();
  const int day = outcome.value_or(never);
  return band.low.value_or(never) <= day && day <= band.high.value_or(never);
}

int width(const Band<std::optional<int>>& band, int after_window) {
  return band.high.value_or(after_window) - band.low.value_or(after_window) + 1;
}

ProbabilitySteps steps_at(const DayEnsemble& forecast, Outcome outcome) {
  if (outcome) return {forecast.by(*outcome - 1), forecast.by(*outcome)};
  return {forecast.by(std::numeric_limits<int>::max()), 1.0};
}

double observed_share(const std::vector<ProbabilitySteps>& cases, double probability) {
  if (cases.empty()) return std::numeric_limits<double>::quiet_NaN();
  double sum = 0.0;
  for (const ProbabilitySteps& steps : cases) {
    if (probability >= steps.up_to)
      sum += 1.0;
    else if (probability > steps.before)
      sum += (probability - steps.before) / (steps.up_to - steps.before);
  }
  return sum / static_cast<double>(cases.size());
}

}  // namespace soilclock::advice
