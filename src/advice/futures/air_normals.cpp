// SPDX-License-Identifier: MIT
#include "advice/futures/air_normals.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::advice {

namespace {

using Terms = std::array<double, 5>;

Terms basis(int day_of_year) {
  const double w = 2.0 * std::numbers::pi * day_of_year / 365.25;
  return {1.0, std::cos(w), std::sin(w), std::cos(2.0 * w), std::sin(2.0 * w)};
}

double dot(const Terms& a, const Terms& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

/// Normal equations of a ridge regression toward a prior.
class RidgeFit {
 public:
  void add(const Terms& x, double y) {
    for (std::size_t i = 0; i < 5; ++i) {
      for (std::size_t j = 0; j < 5; ++j) matrix_[i][j] += x[i] * x[j];
      right_[i] += x[i] * y;
    }
  }

  /// Pulls one term toward a value with the weight of so many days.
  void pull(std::size_t term, double toward, double weight) {
    matrix_[term][term] += weight;
    right_[term] += weight * toward;
  }

  Terms solve() {
    for (std::size_t k = 0; k < 5; ++k) {  // the matrix is positive definite: no pivoting needed
      for (std::size_t i = k + 1; i < 5; ++i) {
        const double factor = matrix_[i][k] / matrix_[k][k];
        for (std::size_t j = k; j < 5; ++j) matrix_[i][j] -= factor * matrix_[k][j];
        right_[i] -= factor * right_[k];
      }
    }
    Terms result{};
    for (std::size_t k = 5; k-- > 0;) {
      double rest = right_[k];
      for (std::size_t j = k + 1; j < 5; ++j) rest -= matrix_[k][j] * result[j];
      result[k] = rest / matrix_[k][k];
    }
    return result;
  }

 private:
  std::array<Terms, 5> matrix_{};
  Terms right_{};
};

void pull_to_usual_year(RidgeFit& fit, const Place& place, const FutureRules& rules) {
  const double amplitude = rules.usual_year.amplitude_kelvin(place.latitude_deg);
  const Terms at_warmest = basis(rules.usual_year.warmest_day(place.hemisphere()));
  fit.pull(1, amplitude * at_warmest[1], rules.usual_year_worth_days);
  fit.pull(2, amplitude * at_warmest[2], rules.usual_year_worth_days);
}

}  // namespace

double AnnualWave::at(int day_of_year) const { return dot(terms, basis(day_of_year)); }

AirNormals fit_air_normals(const weather::DailyWeather& weather, const Place& place,
                           const FutureRules& rules) {
  const DailySeries<Temperature> mean = weather::air_mean(weather);
  RidgeFit mean_fit;
  RidgeFit range_fit;
  AirNormals normals;
  for (Day day = mean.days().begin(); day < mean.days().end(); day += Days{1}) {
    const auto value = mean.at(day);
    if (!value) continue;
    const Terms x = basis(day_of_year(day));
    mean_fit.add(x, value->celsius());
    range_fit.add(x, 0.5 * (*weather.air_max.at(day) - *weather.air_min.at(day)).kelvin());
    ++normals.days_used;
  }
  const bool short_record = normals.days_used < rules.whole_record_days;
  if (short_record) pull_to_usual_year(mean_fit, place, rules);
  const double one_wave = short_record ? rules.one_wave_worth_days : 1.0;
  for (RidgeFit* fit : {&mean_fit, &range_fit}) {
    // A whole second harmonic needs whole years; a part of a year is held close to one wave.
    fit->pull(3, 0.0, one_wave);
    fit->pull(4, 0.0, one_wave);
  }
  for (std::size_t term : {1U, 2U})
    range_fit.pull(term, 0.0, short_record ? rules.usual_year_worth_days : 1.0);
  normals.mean_c.terms = mean_fit.solve();
  normals.half_range_c.terms = range_fit.solve();

  double squares = 0.0;
  double products = 0.0;
  int pairs = 0;
  for (Day day = mean.days().begin(); day < mean.days().end(); day += Days{1}) {
    const auto today = mean.at(day);
    if (!today) continue;
    const double anomaly = today->celsius() - normals.mean_c.at(day_of_year(day));
    squares += anomaly * anomaly;
    if (const auto before = mean.at(day - Days{1})) {
      products += anomaly * (before->celsius() - normals.mean_c.at(day_of_year(day - Days{1})));
      ++pairs;
    }
  }
  if (normals.days_used > 0) normals.noise_sd_c = std::sqrt(squares / normals.days_used);
  if (pairs > 0 && squares > 0.0) {
    normals.noise_memory =
        std::clamp(products / pairs / (squares / normals.days_used), 0.0, rules.memory_most);
  }
  return normals;
}

}  // namespace soilclock::advice
