// SPDX-License-Identifier: MIT
// How well bands of dates held what came.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>

namespace soilclock::studies {

class BandScore {
 public:
  /// One band against the day that came: its middle that many days late, its width in days where both ends
  /// are there.
  void add(bool inside, double days_late, std::optional<double> width_days) {
    ++count_;
    inside_ += inside ? 1 : 0;
    late_ += days_late;
    off_ += std::abs(days_late);
    if (!width_days) return;
    width_ += *width_days;
    ++widths_;
  }

  int count() const { return count_; }
  double percent_inside() const { return 100.0 * inside_ / count_; }

  /// Dates, percent inside, width, mean error and mean absolute error in days, as cells of a table.
  std::string cells() const {
    return fmt::format("{} | {:.0f}% | {:.1f} | {:+.1f} | {:.1f}", count_, percent_inside(), width_ / widths_,
                       late_ / count_, off_ / count_);
  }

 private:
  int count_ = 0;
  int inside_ = 0;
  int widths_ = 0;
  double late_ = 0.0;
  double off_ = 0.0;
  double width_ = 0.0;
};

}  // namespace soilclock::studies
