// SPDX-License-Identifier: MIT
#include "treatment/treatment_draw.hpp"

#include <algorithm>

namespace soilclock::treatment {

namespace {

// Streams of the random field; other floors number theirs differently ("reach" in ASCII leads these). A
// further site of action takes the streams `next_part` later.
enum Stream : std::uint64_t {
  partner_stream = 0x7265616368000001ULL,
  foliar_stream,
  residual_stream,
  weeks_stream,
  row_stream,
  greatest_stream,
  energy_stream
};
constexpr std::uint64_t next_part = 64;

double between(double least, double most, double share) { return least + (most - least) * share; }

/// The largest share of a residual's effect that may be lost: short residuals fail more often.
double failure_most(double weeks, const GrassControl& grass) {
  const double share =
      std::clamp((weeks - grass.short_weeks) / (grass.long_weeks - grass.short_weeks), 0.0, 1.0);
  return between(grass.failure_most_short, grass.failure_most_long, share);
}

KillByStage drawn_kill(const RandomField& field, std::uint64_t member, const std::vector<FoliarPart>& parts,
                       const TreatmentRules& rules) {
  const GrassControl& grass = *rules.grass;
  const double shift = 0.01 * grass.row_spread_points * (2.0 * field.uniform(row_stream, member) - 1.0);
  std::vector<FoliarAction> actions;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::uint64_t later = i * next_part;
    const bool second = parts[i].rows.size() > 1 && field.uniform(partner_stream + later, member) >= 0.5;
    const double works = 1.0 - grass.foliar_failure_most * field.uniform(foliar_stream + later, member);
    FoliarAction action{parts[i].group, parts[i].rows[second ? 1 : 0], parts[i].resistant};
    for (Fraction& kill : action.kill) {
      const bool acts = kill.value() > 0.0;
      kill = Fraction::of(acts ? std::min(kill.value() + shift, grass.cap.value()) * works : 0.0);
    }
    actions.push_back(action);
  }
  return combined_kill(actions, *rules.mixture);
}

}  // namespace

double drawn_activation_energy(const RandomField& field, std::uint64_t member, const ResidualRule& rule) {
  return between(rule.activation_energy_least_j_per_mol, rule.activation_energy_most_j_per_mol,
                 field.uniform(energy_stream, member));
}

DrawnTreatment draw_treatment(const RandomField& field, std::uint64_t member, const TreatmentParts& parts,
                              const TreatmentRules& rules) {
  DrawnTreatment drawn;
  drawn.kill = drawn_kill(field, member, parts.foliar, rules);
  for (std::size_t i = 0; i < parts.residual.size(); ++i) {
    const ResidualPart& part = parts.residual[i];
    const std::uint64_t later = i * next_part;
    ResidualDraw residual;
    residual.group = part.group;
    residual.weeks = between(part.weeks.least, part.weeks.most, field.uniform(weeks_stream + later, member));
    if (residual.weeks < rules.residual->shortest_weeks) continue;
    const double failure =
        failure_most(residual.weeks, *rules.grass) * field.uniform(residual_stream + later, member);
    const double greatest = 0.01 * between(part.greatest.least, part.greatest.most,
                                           field.uniform(greatest_stream + later, member));
    residual.works = greatest * (1.0 - failure) * (1.0 - part.resistant.value());
    residual.activation_energy_j_per_mol = drawn_activation_energy(field, member, *rules.residual);
    drawn.residuals.push_back(residual);
  }
  return drawn;
}

}  // namespace soilclock::treatment
