// SPDX-License-Identifier: MIT
#include "emergence/hydrothermal.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::emergence {

namespace {

double normal_share(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// Normal form with the rise of the base potential already worked out.
double normal_form(const HydrothermalNormal& m, double risen, const SeedSurroundings& at) {
  const double warmth = at.celsius - m.base;
  if (warmth <= 0.0 || at.days <= 0.0) return 0.0;
  return normal_share((at.megapascals - m.theta / (at.days * warmth) - m.median_base - risen) / m.sigma);
}

}  // namespace

double germinated(const HydrothermalNormal& m, const SeedSurroundings& at) {
  return normal_form(m, m.rise * (at.celsius - m.base), at);
}

double germinated_above_optimum(const HydrothermalNormal& m, double optimum_celsius,
                                const SeedSurroundings& at) {
  return normal_form(m, m.rise * std::max(0.0, at.celsius - optimum_celsius), at);
}

double germinated(const HydrothermalLogLogistic& m, const SeedSurroundings& at) {
  const double warmth = at.celsius - m.base;
  if (warmth <= 0.0 || at.days <= 0.0) return 0.0;
  const double reached = at.megapascals - m.theta / (at.days * warmth) + m.shift;
  const double median = m.median_base + m.rise * warmth + m.shift;
  if (reached <= 0.0 || median <= 0.0) return 0.0;
  return 1.0 / (1.0 + std::exp(-(std::log(reached) - std::log(median)) / m.sigma));
}

double germinated(const TimeToEvent& m, const SeedSurroundings& at) {
  const double warmth = at.celsius - m.base;
  const double above = at.megapascals - m.base_potential - m.rise * warmth;
  if (warmth <= 0.0 || above <= 0.0 || at.days <= 0.0) return 0.0;
  const double most = m.most * (1.0 - std::exp(-above / m.sigma));
  const double x = std::pow(at.days * warmth * above / m.theta, m.exponent);
  return most * x / (1.0 + x);
}

}  // namespace soilclock::emergence
