// SPDX-License-Identifier: MIT
// How far the soil estimate of a site is off: a Gaussian process in time, conditioned exactly on probe
// readings.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/place.hpp"
#include "core/random.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"
#include "soil/soil_model.hpp"

namespace soilclock::soil {

/// What a probe says about the estimate of a day.
struct SoilReading {
  Day day{};
  TemperatureDelta estimate_minus_reading;
  double variance_k2 = 0.0;  ///< of the reading as a daily mean; above 0
};

/// Readings further than this from the range asked for are left out: all but e^-4 of the slow error has
/// faded.
inline constexpr Days reading_reach{400};

/// How much each part of the error counts on a day: the part that never changes 1, the two waves of the year
/// their cosine and sine, the slow and the fast part the seasonal factor m(J).
inline constexpr std::size_t error_parts = 5;
using ErrorParts = std::array<double, error_parts>;
ErrorParts parts_on(const SoilErrorModel& model, Day day, Hemisphere hemisphere);

/// The error of the estimate, err = estimate - truth, over a range of days given the readings.
///
/// Exact conditioning of the five parts (constant, two waves of the year, slow, fast) by a Kalman filter and
/// a backward smoother (Rauch, Tung & Striebel 1965, AIAA Journal 3:1445-1450, in the adjoint form of Bryson
/// & Frazier 1963); the members are drawn without readings and corrected by the smoothed difference
/// (Matheron's rule: Journel & Huijbregts 1978, Mining geostatistics, 494-498). The noise of a member is
/// addressed by absolute day, so a new reading moves a member and does not reshuffle it, and two ranges give
/// the same member the same error on a day they share (within 0.001 K when nothing is read).
class ConditionedSoilError {
 public:
  /// Several readings of one day are joined by their precision.
  ConditionedSoilError(const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                       const std::vector<SoilReading>& readings);

  /// Expected error and its standard deviation on a day of the range, all readings used.
  TemperatureDelta mean(Day day) const;
  TemperatureDelta sd(Day day) const;
  /// The expected error with the readings up to and including that day only: what was known then.
  TemperatureDelta mean_then(Day day) const;

  /// One member's error on every day of the range. Equal members of equal fields are equal; the fields of
  /// different sites must have different seeds. Streams 0x736F696C00000000 and above are used.
  std::vector<TemperatureDelta> draw(const RandomField& field, std::uint64_t member) const;

  /// Logarithm of the density of the readings within reach of a range under an error, each foreseen from
  /// those before it.
  static double log_evidence(const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                             const std::vector<SoilReading>& readings);

  DayRange range() const { return range_; }

 private:
  using Matrix = std::array<ErrorParts, error_parts>;
  struct DayGain {
    ErrorParts counts{};  // h: the error is h' z
    bool read = false;
    double residual = 0.0;  // estimate minus reading
    double reading_sd = 0.0;
    double innovation_variance = 1.0;
    ErrorParts with_error{};          // P h: covariance of each part with the error before the reading
    double predicted_variance = 0.0;  // h' P h
  };
  struct Bridge {  // the slow part on a day from the day before and the anchor ahead
    double back = 0.0;
    double ahead = 0.0;
    double sd = 0.0;
  };
  struct Knowledge {
    double mean = 0.0;
    double variance = 0.0;
  };

  /// The days and what is read on them, filtered and not yet smoothed.
  struct Filtered {};
  ConditionedSoilError(Filtered, const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                       const std::vector<SoilReading>& readings);

  ErrorParts keeps() const;
  void make_bridges();
  void filter();
  void smooth();
  std::vector<double> smoothed(const std::vector<double>& differences) const;
  /// The two parts that fade, on one day.
  struct Fading {
    double slow;
    double fast;
  };
  class StoredPaths;

  std::vector<Fading> fading_path(const RandomField& field, std::uint64_t member) const;
  std::vector<double> draw_unconditional(const RandomField& field, std::uint64_t member) const;
  std::size_t index(Day day) const { return static_cast<std::size_t>((day - hull_.begin()).count()); }

  SoilErrorModel model_;
  DayRange range_;
  DayRange hull_;               // the range and the readings within reach
  double slow_keep_ = 0.0;      // e^(-1/slow_days)
  std::vector<DayGain> gains_;  // one a day of the hull
  std::vector<double> mean_then_;
  std::vector<Knowledge> now_;
  std::vector<Bridge> bridges_;  // by days since the anchor behind
  bool any_reading_ = false;
  double log_evidence_ = 0.0;
};

}  // namespace soilclock::soil
