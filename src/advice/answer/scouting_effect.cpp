// SPDX-License-Identifier: MIT
#include "advice/answer/scouting_effect.hpp"
#include "core/number_text.hpp"

#include <fmt/format.h>

namespace soilclock::advice {

namespace {

std::string evidence_words(const ScoutingEvidence& evidence) {
  const std::string days =
      fmt::format("on {} day{}", evidence.visit_days, evidence.visit_days == 1 ? "" : "s");
  if (evidence.plots == 0) return "Your looks at the ground " + days;
  const std::string plots = fmt::format("{} plot{}", evidence.plots, evidence.plots == 1 ? "" : "s");
  if (evidence.plants == 0) return fmt::format("Your counts {} (no plant in {})", days, plots);
  return fmt::format("Your counts {} ({}, {} plant{})", days, plots, evidence.plants,
                     evidence.plants == 1 ? "" : "s");
}

/// What the curve was weighed by, as the subject of a sentence.
std::string found_words(const ScoutingEvidence& evidence, Day season_start) {
  if (!evidence.first_sight) return evidence_words(evidence);
  const std::string seen = fmt::format("first seedlings, seen on {},",
                                       short_date(season_start + Days{evidence.first_sight->season_day}));
  return evidence.visit_days == 0 ? "Your " + seen : evidence_words(evidence) + " and your " + seen;
}

const DateBand* half_up(const TargetAnswer& answer) {
  for (const Milestone& milestone : answer.milestones) {
    if (milestone.percent == 50) return &milestone.date;
  }
  return nullptr;
}

std::optional<int> width(const DateBand& band) {
  if (!band.low || !band.high) return std::nullopt;
  return static_cast<int>((*band.high - *band.low).count());
}

std::string half_words(const DateBand& before, const DateBand& after) {
  if (!before.middle || !after.middle) return "";
  std::string text = *before.middle == *after.middle
                         ? fmt::format("leave the day by which half are up at {}", short_date(*after.middle))
                         : fmt::format("move the day by which half are up from {} to {}",
                                       short_date(*before.middle), short_date(*after.middle));
  const auto wide = width(before);
  const auto now = width(after);
  if (wide && now) {
    text += fmt::format(" ({}, before {} to {}: {} instead of {} days)",
                        fmt::format("{} to {}", short_date(*after.low), short_date(*after.high)),
                        short_date(*before.low), short_date(*before.high), *now, *wide);
  }
  return text;
}

}  // namespace

void explain_scouting(TargetAnswer& after, const TargetAnswer& before, const ScoutedRun& scouted) {
  after.before_scouting = BeforeScouting{before.emerged_percent, before.milestones};
  std::string text = found_words(scouted.evidence, after.season_start);
  const DateBand* half_before = half_up(before);
  const DateBand* half_after = half_up(after);
  const std::string half =
      half_before != nullptr && half_after != nullptr ? half_words(*half_before, *half_after) : "";
  if (!half.empty()) text += " " + half + ", and";
  text +=
      fmt::format(" put {}% up this morning instead of {}%.", number_text(after.emerged_percent.middle, 0),
                  number_text(before.emerged_percent.middle, 0));
  after.reasons.insert(after.reasons.begin() + (after.reasons.empty() ? 0 : 1), text);
}

}  // namespace soilclock::advice
