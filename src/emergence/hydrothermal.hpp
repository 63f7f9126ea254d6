// SPDX-License-Identifier: MIT
// Share germinated after a time at a constant temperature and water potential: closed forms of hydrothermal
// time. No target uses them yet (no coefficients for these grasses were to be had); they read published
// germination data.
#pragma once

namespace soilclock::emergence {

/// Constant surroundings of seed.
struct SeedSurroundings {
  double days;         ///< since wetting, >= 0
  double celsius;      ///< temperature
  double megapascals;  ///< water potential, <= 0
};

/// Base water potential spread as a normal distribution.
/// Source: Bradford 1990, Plant Physiol. 94:840-849; Bradford 2002, Weed Sci. 50:248-260 (formulas from a
/// manual).
struct HydrothermalNormal {
  double theta;        ///< MPa C d, > 0
  double base;         ///< C
  double median_base;  ///< median base water potential at the base temperature, MPa
  double sigma;        ///< MPa, > 0
  double rise;         ///< how fast the base potential rises with temperature, MPa per C
};
/// Share 0..1; 0 at or below the base temperature and before time has passed.
double germinated(const HydrothermalNormal& model, const SeedSurroundings& at);

/// As above, wanting the base potential above the optimum temperature only: it rises by `rise` per C above
/// it.
double germinated_above_optimum(const HydrothermalNormal& model, double optimum_celsius,
                                const SeedSurroundings& at);

/// Base water potential spread as a shifted log-logistic distribution.
/// Source: Mesgaran et al. 2017, AoB Plants (formula from a manual).
struct HydrothermalLogLogistic {
  double theta;        ///< MPa C d, > 0
  double base;         ///< C
  double median_base;  ///< MPa
  double sigma;        ///< > 0
  double rise;         ///< MPa per C
  double shift;        ///< keeps the logarithms real, MPa
};
/// Share 0..1; 0 where the formula has no meaning (at or below base, too dry for any seed).
double germinated(const HydrothermalLogLogistic& model, const SeedSurroundings& at);

/// Time to event: a share that can germinate at all, and a log-logistic time course for it.
/// Source: Onofri, Benincasa, Mesgaran & Ritz 2018, Eur. J. Agron. 101:129-139 (formulas from a manual).
struct TimeToEvent {
  double most;            ///< share that germinates at best, 0..1
  double base_potential;  ///< MPa
  double rise;            ///< MPa per C
  double base;            ///< C
  double sigma;           ///< MPa, > 0
  double theta;           ///< MPa C d, > 0
  double exponent;        ///< > 0
};
/// Share 0..1; 0 at or below the base temperature and where it is too dry or too warm.
double germinated(const TimeToEvent& model, const SeedSurroundings& at);

}  // namespace soilclock::emergence
