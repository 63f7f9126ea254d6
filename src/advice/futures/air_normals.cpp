// SPDX-License-Identifier: MIT
#include "advice/futures/air_normals.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::advice {

namespace {

using Terms = std::array<double, 5>;

Terms basis_of(int day_of_year) {
  const double w = 2.0 * std::numbers::pi * day_of_year / 365.25;
  return {1.0, std::cos(w), std::sin(w), std::cos(2.0 * w), std::sin(2.0 * w)};
}

/// basis_of() a day of the year, 1 to 366; asked for every day of a record.
const Terms& basis(int day_of_year) {
  static const auto all = [] {
    std::array<Terms, 367> terms{};
    for (int day = 1; day < std::ssize(terms); ++day) terms[static_cast<std::size_t>(day)] = basis_of(day);
    return terms;
  }();
  return all[static_cast<std::size_t>(day_of_year)];
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

  /// The terms, by Cholesky's factor: the matrix is positive definite once a term of each is known or pulled.
  Terms solve() const {
    const std::array<Terms, 5> lower = factor();
    Terms half{};
    for (std::size_t i = 0; i < 5; ++i) {
      double rest = right_[i];
      for (std::size_t k = 0; k < i; ++k) rest -= lower[i][k] * half[k];
      half[i] = rest / lower[i][i];
    }
    return back(lower, half);
  }

  /// Terms with the covariance that a unit variance of a day leaves, from five independent normal numbers.
  Terms spread(const Terms& normals) const { return back(factor(), normals); }

 private:
  std::array<Terms, 5> factor() const {
    std::array<Terms, 5> lower{};
    for (std::size_t i = 0; i < 5; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        double rest = matrix_[i][j];
        for (std::size_t k = 0; k < j; ++k) rest -= lower[i][k] * lower[j][k];
        lower[i][j] = i == j ? std::sqrt(rest) : rest / lower[j][j];
      }
    }
    return lower;
  }

  static Terms back(const std::array<Terms, 5>& lower, const Terms& right) {
    Terms result{};
    for (std::size_t i = 5; i-- > 0;) {
      double rest = right[i];
      for (std::size_t k = i + 1; k < 5; ++k) rest -= lower[k][i] * result[k];
      result[i] = rest / lower[i][i];
    }
    return result;
  }

  std::array<Terms, 5> matrix_{};
  Terms right_{};
};

/// The usual year of a place before its record is looked at, and how far a term of it can be off, K.
struct PriorYear {
  YearShape shape{};
  double error_kelvin = 0.0;
};

PriorYear prior_year(const Place& place, const FutureRules& rules) {
  if (const auto shape = rules.usual_air.shape_at(place)) return {*shape, rules.usual_air.shape_error_kelvin};
  const double amplitude = rules.usual_year.amplitude_kelvin(place.latitude_deg);
  const Terms at_warmest = basis(rules.usual_year.warmest_day(place.hemisphere()));
  return {{amplitude * at_warmest[1], amplitude * at_warmest[2], 0.0, 0.0},
          rules.usual_air.shape_error_elsewhere_kelvin};
}

/// Standard deviation of the anomaly and its correlation from one day to the next.
void find_noise(const DailySeries<Temperature>& mean, double memory_most, AirNormals& normals) {
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
    normals.noise_memory = std::clamp(products / pairs / (squares / normals.days_used), 0.0, memory_most);
  }
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
  const PriorYear prior = prior_year(place, rules);
  const double worth_days = rules.usual_air.day_variance / (prior.error_kelvin * prior.error_kelvin);
  for (std::size_t term = 1; term < 5; ++term) {
    mean_fit.pull(term, prior.shape[term - 1], worth_days);
    range_fit.pull(term, 0.0, rules.range_worth_days);
  }
  normals.mean_c.terms = mean_fit.solve();
  normals.half_range_c.terms = range_fit.solve();
  const double day_sd = std::sqrt(rules.usual_air.day_variance);
  for (std::size_t i = 0; i < 5; ++i) {
    Terms unit{};
    unit[i] = day_sd;
    normals.error_parts[i].terms = mean_fit.spread(unit);
  }
  find_noise(mean, rules.memory_most, normals);
  return normals;
}

}  // namespace soilclock::advice
