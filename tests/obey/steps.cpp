// SPDX-License-Identifier: MIT
#include "obey/steps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "advice/futures/air_normals.hpp"
#include "obey/season_table.hpp"

namespace soilclock::obey {

namespace {

using advice::Decision;
using Decisions = std::optional<std::vector<Decision>>;

int days_moved(Day before, Day after) { return std::abs(static_cast<int>((after - before).count())); }

/// Adds the step of one plan between two days.
void add_step(const Decision& before, const Decision& after, StepCounts& counts) {
  if (before.best_range.has_value() != after.best_range.has_value()) ++counts.appeared_or_gone;
  if (!before.best_range || !after.best_range) return;
  const int moved = std::max({days_moved(before.best_range->first, after.best_range->first),
                              days_moved(before.best_range->last, after.best_range->last),
                              days_moved(*before.good_through, *after.good_through)});
  const bool same_kind = before.kind == after.kind;
  ++counts.steps;
  counts.kind_changed += same_kind ? 0 : 1;
  if (moved > 7) ++counts.over_one_week;
  if (moved > 7 && same_kind) ++counts.over_one_week_same_kind;
  if (moved > 14) ++counts.over_two_weeks;
  if (moved > 14 && same_kind) ++counts.over_two_weeks_same_kind;
}

/// Whether the mean of a day lay near its normal.
bool is_ordinary(const Station& station, const advice::AirNormals& normals, Day day, double within_c) {
  const auto low = station.daily.air_min.at(day);
  const auto high = station.daily.air_max.at(day);
  if (!low || !high) return false;
  return std::abs(midpoint(*low, *high).celsius() - normals.mean_c.at(day_of_year(day))) <= within_c;
}

}  // namespace

StepCounts& StepCounts::operator+=(const StepCounts& other) {
  steps += other.steps;
  over_one_week += other.over_one_week;
  over_two_weeks += other.over_two_weeks;
  kind_changed += other.kind_changed;
  over_one_week_same_kind += other.over_one_week_same_kind;
  over_two_weeks_same_kind += other.over_two_weeks_same_kind;
  appeared_or_gone += other.appeared_or_gone;
  return *this;
}

StepCounts count_steps(const Station& station, const TargetSettings& target, const StepsSettings& settings,
                       const advice::Catalogue& catalogue) {
  const Asker asker{station, target.code, catalogue};
  const advice::AirNormals normals = advice::fit_air_normals(station.daily, station.place, catalogue.futures);
  std::array<std::size_t, plan_count> every_plan;
  std::iota(every_plan.begin(), every_plan.end(), std::size_t{0});
  StepCounts counts;
  const auto season = judge_season(asker, station, settings.season, target);
  const auto* past = std::get_if<PastSeason>(&season);
  if (past == nullptr) return counts;
  const SeasonTable& weeks = past->tables.front();
  Decisions before;
  for (Day day = weeks.monday(0); day < weeks.monday(weeks.useful() - 1) + Days{7}; day += Days{1}) {
    Decisions after = asker.decisions(day, every_plan);
    if (before && after && is_ordinary(station, normals, day - Days{1}, settings.near_normal_c)) {
      for (std::size_t plan = 0; plan < plan_count; ++plan) add_step((*before)[plan], (*after)[plan], counts);
    }
    before = std::move(after);
  }
  return counts;
}

void print_steps(const std::string& target, const StepCounts& counts, const Aims& aims) {
  const auto percent = [&](int count) { return counts.steps == 0 ? 0.0 : 100.0 * count / counts.steps; };
  fmt::print("{}: {} one-day steps after an ordinary day, all plans together\n", target, counts.steps);
  fmt::print(
      "  best range or good-through moved over one week: {:.2f}% ({}), {} with the kind unchanged; aim at "
      "most {:.1f}%: {}\n",
      percent(counts.over_one_week), counts.over_one_week, counts.over_one_week_same_kind,
      aims.steps_over_one_week_percent,
      percent(counts.over_one_week) <= aims.steps_over_one_week_percent ? "met" : "MISSED");
  fmt::print("  moved over two weeks: {:.2f}% ({}), {} with the kind unchanged; aim none: {}\n",
             percent(counts.over_two_weeks), counts.over_two_weeks, counts.over_two_weeks_same_kind,
             counts.over_two_weeks == 0 ? "met" : "MISSED");
  fmt::print("  kind changed: {}; range appeared or went: {}\n", counts.kind_changed,
             counts.appeared_or_gone);
}

}  // namespace soilclock::obey
