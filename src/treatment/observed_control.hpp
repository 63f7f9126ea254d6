// SPDX-License-Identifier: MIT
// What a treatment did, from plants or cover in treated turf and in a strip left untreated.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/band.hpp"
#include "core/fraction.hpp"
#include "core/problem.hpp"

namespace soilclock::treatment {

/// Plants in each plot of treated turf and of an untreated strip, all plots of one size, on one day after the
/// treatment; a plot without any is 0.
struct PlotsCompared {
  std::vector<int> treated;
  std::vector<int> untreated;
  std::vector<int> treated_before;    ///< the same plots before the treatment; may be empty, then both
  std::vector<int> untreated_before;  ///< are
};

/// Ground covered, judged by eye, in the same way.
struct CoverCompared {
  Fraction treated;
  Fraction untreated;
  std::optional<Fraction> treated_before;  ///< both or neither
  std::optional<Fraction> untreated_before;
};

/// How sure counts and looks are; of the rules of counts.
struct CountDoubt {
  double patchiness = 1.0;   ///< k of the negative binomial: variance of a plot = mean + mean^2 / k; above 0
  double look_log_sd = 0.0;  ///< of a look at the ground
  Fraction least_seen;       ///< ground covered less than this looks bare; above 0
};

enum class ControlFormula {
  abbott,           ///< 1 - treated / untreated
  henderson_tilton  ///< 1 - (treated / treated before) (untreated before / untreated)
};

/// Control as seen, percent; negative where treated turf has more. The band holds the truth four times in
/// five.
struct ObservedControl {
  ControlFormula formula = ControlFormula::abbott;
  Band<double> percent;
};

/// "control 90% (62 to 97%) by Abbott's formula".
std::string control_words(const ObservedControl& control);

/// Sources: abbott-1925, J. Econ. Entomol. 18:265-267; with counts before treatment henderson-tilton-1955, J.
/// Econ. Entomol. 48:157-161. The band is that of the logarithm of the ratio of the totals, half a plant
/// added to each so that a total of 0 has a logarithm. A total's logarithm has the variance 1/total of a
/// Poisson count and, since seedlings stand in patches and the two pieces of turf are not the same, 1/(plots
/// k) of the negative binomial; with counts before, made in the same plots, patches stand on both sides of
/// the ratio and cancel. A log ratio needs no guess of the density and cannot go above 100 percent. Problems
/// (request): a side without counts, only one side counted before, other plots before than after, and no
/// plants in the untreated strip or before the treatment.
Result<ObservedControl> observed_control(const PlotsCompared& plots, const CountDoubt& doubt);

/// The same of cover: each look is off by its own factor, log-normal; treated turf that looks bare has up to
/// `least_seen` in the band. Cover below `least_seen` elsewhere is refused as no plants are.
Result<ObservedControl> observed_control(const CoverCompared& cover, const CountDoubt& doubt);

}  // namespace soilclock::treatment
