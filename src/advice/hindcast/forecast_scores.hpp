// SPDX-License-Identifier: MIT
// How good a forecast of a date was, once the date is known: for ensembles of days in which some members may
// never see the event.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "core/band.hpp"

namespace soilclock::advice {

/// A day and how much it counts; an empty day is a member in which the event does not come within the window.
struct WeightedDay {
  std::optional<int> day;
  double weight = 1.0;  ///< above 0
};

/// A forecast of a day as a discrete distribution. Days are whole numbers on any one count (days of a
/// season).
class DayEnsemble {
 public:
  /// Members in any order; weights need not add up to 1.
  explicit DayEnsemble(std::vector<WeightedDay> members);
  /// Members that count alike.
  static DayEnsemble even(const std::vector<std::optional<int>>& days);
  /// Both forecasts as one, with `share` (0..1) of the weight taken from `other`.
  DayEnsemble mixed_with(const DayEnsemble& other, double share) const;

  bool empty() const { return members_.empty(); }
  /// By day, those that never see the event last; the weights add up to 1.
  const std::vector<WeightedDay>& members() const { return members_; }

  /// Probability that the event has come by the end of a day.
  double by(int day) const;
  /// First day by which the event has come with at least this probability (0 < probability <= 1); empty when
  /// that is not within the window.
  std::optional<int> quantile(double probability) const;
  /// The 10, 50 and 90 percent points.
  Band<std::optional<int>> band() const;

 private:
  std::vector<WeightedDay> members_;
};

/// What came of it: the day, or empty when the event did not come within the window.
using Outcome = std::optional<int>;

/// Continuous ranked probability score in days, 0 for a sure and right forecast; for a single day the
/// absolute error. "Never" counts as the day `after_window`, in members as in what happened, so that a wrong
/// "never" costs what it is off. E|X - y| - E|X - X'|/2: Gneiting & Raftery 2007, Journal of the American
/// Statistical Association 102:359-378.
double crps(const DayEnsemble& forecast, Outcome outcome, int after_window);

/// Whether the 80 percent band (whole days, both ends included) held what happened. A band that ends in
/// "never" holds every late day.
bool covers(const Band<std::optional<int>>& band, Outcome outcome);

/// Width of a band in days, both ends included; an end at "never" counts as `after_window`.
int width(const Band<std::optional<int>>& band, int after_window);

/// The probabilities a forecast gave to "before" and "up to and including" what happened: the two steps from
/// which a reliability picture of whole days is made.
struct ProbabilitySteps {
  double before = 0.0;
  double up_to = 1.0;
};
ProbabilitySteps steps_at(const DayEnsemble& forecast, Outcome outcome);

/// Share of the cases in which the event had come by the day a forecast named with this probability; equal to
/// the probability for honest forecasts. A day on which the forecast jumps past the probability counts in
/// part (Czado, Gneiting & Held 2009, Biometrics 65:1254-1261). Not a number without cases.
double observed_share(const std::vector<ProbabilitySteps>& cases, double probability);

}  // namespace soilclock::advice
