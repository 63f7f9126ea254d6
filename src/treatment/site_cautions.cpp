// SPDX-License-Identifier: MIT
#include "treatment/site_cautions.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"

namespace soilclock::treatment {

namespace {

/// The interval that decides: the active's own, or the longest of the actives a bare group may stand for.
std::optional<ParameterSpan> interval_of(const PlanEntry& entry, const Actives& actives) {
  if (entry.active != nullptr) return entry.active->seeding_weeks;
  std::optional<ParameterSpan> longest;
  for (const Active* active : actives.of_group(entry.group)) {
    const auto& span = active->seeding_weeks;
    if (span && (!longest || span->most > longest->most)) longest = span;
  }
  return longest;
}

double longest_interval(const Actives& actives) {
  double weeks = 0.0;
  for (const Active& active : actives.all()) {
    if (active.seeding_weeks) weeks = std::max(weeks, active.seeding_weeks->most);
  }
  return weeks;
}

std::string weeks_text(const ParameterSpan& span) {
  return span.least == span.most ? fmt::format("{:g}", span.least)
                                 : fmt::format("{:g} to {:g}", span.least, span.most);
}

}  // namespace

std::vector<SeedingWarning> seeding_warnings(std::span<const PlanEntry> entries, Day applied, Day seeded,
                                             const Actives& actives, double stand_weeks) {
  std::vector<SeedingWarning> warnings;
  const double weeks = static_cast<double>((seeded - applied).count()) / 7.0;
  for (const PlanEntry& entry : entries) {
    const std::optional<ParameterSpan> interval = interval_of(entry, actives);
    SeedingWarning warning{entry.text, SeedingRisk::ask, weeks, interval, {}};
    if (interval && interval->most == 0.0) continue;
    if (weeks < 0.0) {
      if (-weeks > stand_weeks) continue;
      warning.risk = SeedingRisk::hard;
      warning.text = fmt::format(
          "{}: the stand was seeded on {}, {} weeks before; most residuals and many foliar "
          "actives kill it",
          entry.text, short_date(seeded, true), number_text(-weeks, 0));
    } else if (!interval) {
      if (weeks > longest_interval(actives)) continue;
      warning.text = fmt::format("{}: interval to seed not known here; ask the label before seeding on {}",
                                 entry.text, short_date(seeded, true));
    } else if (weeks < interval->most) {
      warning.risk = weeks < interval->least ? SeedingRisk::hard : SeedingRisk::ask;
      warning.text =
          fmt::format("{}: {} weeks to seeding on {}, usual interval {} weeks; the label decides", entry.text,
                      number_text(weeks, 1), short_date(seeded, true), weeks_text(*interval));
    } else {
      continue;
    }
    warnings.push_back(std::move(warning));
  }
  return warnings;
}

std::optional<Remark> slope_caution(bool slope_to_green, const DailySeries<Rain>& rain, Day day,
                                    bool saturated, const SlopeRules& rules, bool us_units) {
  if (!slope_to_green) return std::nullopt;
  double expected_mm = 0.0;
  int unknown = 0;
  for (int ahead = 0; ahead < rules.rain_days; ++ahead) {
    if (const auto water = rain.at(day + Days{ahead}))
      expected_mm += water->mm();
    else
      ++unknown;
  }
  const std::string keep =
      fmt::format("keep a buffer of {} on the slope and {} on traffic paths and mow first when dry",
                  length_words(rules.buffer_m, us_units), length_words(rules.path_buffer_m, us_units));
  if (saturated) return Remark{"slope-to-green", "Saturated soil on a slope to a green: " + keep};
  if (expected_mm >= rules.rain.mm()) {
    return Remark{"slope-to-green",
                  fmt::format("{} of rain expected within {} days on a slope to a green: {}",
                              water_words(Rain::from_mm(expected_mm), us_units), rules.rain_days, keep)};
  }
  if (unknown > 0) {
    return Remark{"slope-to-green", "Slope to a green and the rain of the next days is not known: " + keep};
  }
  return std::nullopt;
}

}  // namespace soilclock::treatment
