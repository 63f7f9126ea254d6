// SPDX-License-Identifier: MIT
// How one season's emergence unfolds in one member of the ensemble.
#pragma once

#include <optional>
#include <vector>

namespace soilclock::emergence {

/// Share of the season's own total that is up at the end of each season day; never falls, ends at 1 (or stays
/// at 0 all season where nothing emerges).
struct EmergenceCurve {
  std::vector<double> up;
  /// Season day by which the main wave is over; empty when that never comes.
  std::optional<int> main_wave_over;

  /// The share up at the end of a season day; 0 before the season, the last value after it.
  double at(int season_day) const;

  /// The first season day at whose end at least this share is up.
  std::optional<int> first_day_reaching(double share) const;

  /// Divides by the last value, so that every season ends at 1; a season without emergence stays at 0.
  void close_at_own_total();
};

}  // namespace soilclock::emergence
