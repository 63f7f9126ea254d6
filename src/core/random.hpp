// SPDX-License-Identifier: MIT
// Random numbers addressed by (stream, index) instead of drawn in turn: the same numbers come out whatever
// the order of work, the number of threads or what else is drawn, so that a new reading moves a result and
// does not reshuffle it.
#pragma once

#include <cstdint>

namespace soilclock {

/// Inverse of the standard normal distribution function, for 0 < probability < 1.
/// Relative accuracy about 1e-15. Source: Wichura 1988, Applied Statistics 37:477-484, algorithm AS 241
/// (PPND16).
double normal_quantile(double probability);

/// One stream of a field, for many numbers of it: those that RandomField gives by index.
class RandomStream {
 public:
  RandomStream(std::uint64_t seed, std::uint64_t stream);
  double uniform(std::uint64_t index) const;
  double normal(std::uint64_t index) const { return normal_quantile(uniform(index)); }

 private:
  std::uint64_t key_;
};

/// A field of independent random numbers.
class RandomField {
 public:
  explicit RandomField(std::uint64_t seed) : seed_{seed} {}
  std::uint64_t seed() const { return seed_; }
  /// Uniform in the open interval (0, 1).
  double uniform(std::uint64_t stream, std::uint64_t index) const { return of(stream).uniform(index); }
  /// Standard normal.
  double normal(std::uint64_t stream, std::uint64_t index) const { return of(stream).normal(index); }
  RandomStream of(std::uint64_t stream) const { return {seed_, stream}; }

 private:
  std::uint64_t seed_;
};

}  // namespace soilclock
