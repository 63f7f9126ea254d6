// SPDX-License-Identifier: MIT
// What one ensemble member takes a treatment to do: nobody knows before spraying how well it will work.
#pragma once

#include <cstdint>
#include <vector>

#include "core/random.hpp"
#include "treatment/mixture.hpp"
#include "treatment/residual.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock::treatment {

/// One site of action in the soil.
struct ResidualDraw {
  int group = 0;
  double weeks = 0.0;                        ///< at 20 C
  double activation_energy_j_per_mol = 0.0;  ///< how much faster it decays in warm soil
  double works =
      0.0;  ///< share of the seedlings a full, active dose stops: greatest effect less failure and resistance
};

/// A treatment as one member has it. Residuals shorter than the shortest that counts are left out.
struct DrawnTreatment {
  KillByStage kill{};  ///< all foliar actions together, failures taken off; nothing without a foliar part
  std::vector<ResidualDraw> residuals;
};

/// The tables a draw needs.
struct TreatmentRules {
  const GrassControl* grass = nullptr;
  const MixtureRule* mixture = nullptr;
  const ResidualRule* residual = nullptr;
};

/// The activation energy all residuals of a member are drawn with, J/mol.
double drawn_activation_energy(const RandomField& field, std::uint64_t member, const ResidualRule& rule);

/// The draw of one member. Depends on seed and member number only, so that other inputs move an answer and do
/// not reshuffle it.
DrawnTreatment draw_treatment(const RandomField& field, std::uint64_t member, const TreatmentParts& parts,
                              const TreatmentRules& rules);

}  // namespace soilclock::treatment
