// SPDX-License-Identifier: MIT
#include "treatment/cautious_reach.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace soilclock::treatment {

namespace {

/// One number a member for each thing a week shows.
struct WeekColumns {
  std::array<std::vector<double>, kind_count> points;
  std::vector<double> emerged;
  std::vector<double> soon;
  std::vector<double> dose_left;
  std::vector<double> dose_weights;
  Losses sum;
};

/// The days treated: the first day of the range, for the week it lies in, then each Monday after it.
std::vector<Day> treated_days(DayRange range) {
  std::vector<Day> days;
  if (range.empty()) return days;
  days.push_back(range.begin());
  for (Day monday = monday_of(range.begin()) + Days{7}; monday < range.end(); monday += Days{7})
    days.push_back(monday);
  return days;
}

void add(Losses& sum, const Losses& losses, double weight) {
  sum.up += weight * losses.up;
  sum.to_come += weight * losses.to_come;
  sum.stage += weight * losses.stage;
  sum.cold += weight * losses.cold;
  sum.residual_spent += weight * losses.residual_spent;
  sum.residual_failed += weight * losses.residual_failed;
}

double share_within(std::span<const double> shares, std::ptrdiff_t from, std::ptrdiff_t count) {
  const auto days = static_cast<std::ptrdiff_t>(shares.size());
  const auto begin = std::clamp<std::ptrdiff_t>(from, 0, days);
  const auto end = std::clamp<std::ptrdiff_t>(from + count, begin, days);
  return std::accumulate(shares.begin() + begin, shares.begin() + end, 0.0);
}

void add_member(const Member& member, std::span<const Day> treated, std::span<const LoggedApplication> logged,
                const ReachRules& rules, const ReachSettings& settings, std::vector<WeekColumns>& columns) {
  SeasonCohorts left = member.cohorts;
  std::vector<double> shares;
  if (!logged.empty()) {
    shares = surviving_shares(member.cohorts, logged, member.draw, rules);
    left.emerging_share = shares;
  }
  Treatment treatment;
  treatment.partner = member.draw.partner;
  treatment.foliar_failure = member.draw.foliar_failure;
  treatment.residual_failure = member.draw.residual_failure;
  treatment.residual_weeks = member.draw.residual_weeks;
  const ReachTable table{left, treatment, rules};
  const LoggedDoses doses{member.cohorts, logged, member.draw, rules};
  for (std::size_t week = 0; week < treated.size(); ++week) {
    WeekColumns& column = columns[week];
    const ReachTable::Row row = table.on(treated[week]);
    for (const Kind kind : all_kinds) {
      column.points[static_cast<std::size_t>(kind)].push_back(100.0 * row.of(kind).total);
    }
    const auto day = (treated[week] - member.cohorts.first).count();
    column.emerged.push_back(share_within(member.cohorts.emerging_share, 0, day + 1));
    column.soon.push_back(
        share_within(member.cohorts.emerging_share, day + 1, settings.hold_look_ahead_days));
    if (const auto dose = doses.left_on(treated[week])) {
      column.dose_left.push_back(*dose);
      column.dose_weights.push_back(member.weight);
    }
    add(column.sum, row.losses, member.weight);
  }
}

WeekReach summed_up(Day treated, const WeekColumns& column, std::span<const double> weights,
                    std::vector<std::size_t>& order) {
  const auto band = [&](std::span<const double> values) {
    return Band<double>{weighted_quantile(values, weights, band_low_quantile, order),
                        weighted_quantile(values, weights, 0.5, order),
                        weighted_quantile(values, weights, band_high_quantile, order)};
  };
  WeekReach week;
  week.week_of = monday_of(treated);
  for (const Kind kind : all_kinds) {
    const auto i = static_cast<std::size_t>(kind);
    week.points[i] = band(column.points[i]);
  }
  const Band<double> emerged = band(column.emerged);
  week.emerged = {Fraction::of(emerged.low), Fraction::of(emerged.middle), Fraction::of(emerged.high)};
  week.soon = Fraction::of(weighted_quantile(column.soon, weights, 0.5, order));
  if (!column.dose_left.empty()) {
    week.logged_dose_left = weighted_quantile(column.dose_left, column.dose_weights, 0.5, order);
  }
  add(week.mean_losses, column.sum, 1.0 / std::accumulate(weights.begin(), weights.end(), 0.0));
  return week;
}

/// Which limit grows most from the best week to the week just outside the window.
Limit early_limit(Kind kind, const Losses& best, const Losses& outside) {
  if (kind == Kind::post) return Limit::plants_to_come;
  const double spent = outside.residual_spent - best.residual_spent;
  const double alone = outside.residual_failed - best.residual_failed;
  return kind == Kind::pre || spent >= alone ? Limit::residual_spent : Limit::residual_alone;
}

Limit late_limit(Kind kind, const Losses& best, const Losses& outside) {
  if (kind == Kind::pre) return Limit::plants_up;
  return outside.stage - best.stage >= outside.cold - best.cold ? Limit::stage : Limit::cold;
}

}  // namespace

std::string_view name(Limit limit) {
  switch (limit) {
    case Limit::residual_spent:
      return "residual spent";
    case Limit::residual_alone:
      return "residual alone";
    case Limit::plants_to_come:
      return "plants still to come";
    case Limit::plants_up:
      return "plants already up";
    case Limit::stage:
      return "stage";
    case Limit::cold:
      return "cold";
    case Limit::none:
      break;
  }
  return "";
}

double weighted_quantile(std::span<const double> values, std::span<const double> weights, double share,
                         std::vector<std::size_t>& order) {
  if (values.empty()) return std::numeric_limits<double>::quiet_NaN();
  order.resize(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  // A rounding error of the sums must not push the answer to the next value.
  const double wanted = share * std::accumulate(weights.begin(), weights.end(), 0.0) * (1.0 - 1e-12);
  double passed = 0.0;
  for (const std::size_t i : order) {
    passed += weights[i];
    if (passed >= wanted) return values[i];
  }
  return values[order.back()];
}

std::optional<BestWeek> best_week(std::span<const WeekReach> weeks, Kind kind,
                                  const ReachSettings& settings) {
  const auto low = [&](std::size_t week) { return weeks[week].of(kind).low; };
  double highest = 0.0;
  for (std::size_t week = 0; week < weeks.size(); ++week) highest = std::max(highest, low(week));
  if (highest <= settings.tie_points) return std::nullopt;
  std::size_t at = 0;
  while (low(at) < highest - settings.tie_points) ++at;
  std::size_t first = at;
  std::size_t last = at;
  while (first > 0 && low(first - 1) >= low(at) - settings.window_points) --first;
  while (last + 1 < weeks.size() && low(last + 1) >= low(at) - settings.window_points) ++last;

  BestWeek best;
  best.kind = kind;
  best.week_of = weeks[at].week_of;
  best.points = weeks[at].of(kind);
  best.window_first = weeks[first].week_of;
  best.window_last = weeks[last].week_of;
  for (std::size_t wait = 0; wait < best.cost_of_waiting.size(); ++wait) {
    if (at + wait + 1 < weeks.size())
      best.cost_of_waiting[wait] = std::max(0.0, low(at) - low(at + wait + 1));
  }
  const Losses& here = weeks[at].mean_losses;
  if (first > 0) best.early = early_limit(kind, here, weeks[first - 1].mean_losses);
  if (last + 1 < weeks.size()) best.late = late_limit(kind, here, weeks[last + 1].mean_losses);
  return best;
}

CautiousReach cautious_reach(std::span<const Member> members, DayRange weeks,
                             std::span<const LoggedApplication> logged, const ReachRules& rules,
                             const ReachSettings& settings) {
  CautiousReach result;
  if (members.empty()) return result;
  const SeasonCohorts& season = members.front().cohorts;
  const Day season_end = season.first + Days{static_cast<int>(season.emerging_share.size())};
  const std::vector<Day> treated =
      treated_days({std::max(weeks.begin(), season.first), std::min(weeks.end(), season_end)});
  std::vector<WeekColumns> columns(treated.size());
  std::vector<double> weights;
  weights.reserve(members.size());
  for (const Member& member : members) {
    weights.push_back(member.weight);
    add_member(member, treated, logged, rules, settings, columns);
  }
  std::vector<std::size_t> order;
  for (std::size_t week = 0; week < treated.size(); ++week) {
    result.weeks.push_back(summed_up(treated[week], columns[week], weights, order));
  }
  for (const Kind kind : all_kinds) {
    result.best[static_cast<std::size_t>(kind)] = best_week(result.weeks, kind, settings);
  }
  return result;
}

}  // namespace soilclock::treatment
