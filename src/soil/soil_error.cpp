// SPDX-License-Identifier: MIT
// Symbols: a day's parts are z = (p, s, x) with transition F = diag(1, slow_keep, fast_lag1); a reading of
// day t is y = m (p + s + x) + noise, so H = m (1, 1, 1). r and N are the adjoint vector and matrix of the
// backward pass.
#include "soil/soil_error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::soil {

namespace {

/// The slow part is drawn at anchor days this far apart first and then bridged, so that its value on a day
/// does not depend on where a range begins.
constexpr int anchor_days = 64;
/// After so many anchors the start of the slow part is forgotten (e^-10 for a memory of 100 days).
constexpr int warm_up_anchors = 16;
/// The fast part is run in for so many days (0.7^40 = 6e-7).
constexpr int warm_up_days = 40;

enum Part : std::uint64_t { constant_part, anchor_part, slow_part, fast_part, reading_part, part_count };

std::uint64_t stream_of(std::uint64_t member, Part part) {
  return 0x736F'696C'0000'0000ULL + member * part_count + part;
}

std::int64_t day_number(Day day) { return day.time_since_epoch().count(); }

double noise(const RandomField& field, std::uint64_t stream, std::int64_t index) {
  return field.normal(stream, static_cast<std::uint64_t>(index));
}

std::int64_t floor_div(std::int64_t value, std::int64_t divisor) {
  const std::int64_t quotient = value / divisor;
  return value % divisor < 0 ? quotient - 1 : quotient;
}

double sum_of(const std::array<double, 3>& v) { return v[0] + v[1] + v[2]; }

}  // namespace

double season_factor(const SoilErrorModel& model, Day day, Hemisphere hemisphere) {
  const double northern = day_of_year(day) + (hemisphere == Hemisphere::south ? 182.0 : 0.0);
  return 1.0 + model.season_amplitude *
                   std::cos(2.0 * std::numbers::pi * (northern - model.season_peak_day_of_year) / 365.25);
}

ConditionedSoilError::ConditionedSoilError(const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                                           const std::vector<SoilReading>& readings)
    : model_{model}, range_{range}, hull_{range}, slow_keep_{std::exp(-1.0 / model.slow_days)} {
  if (range.empty()) return;
  const DayRange reach{range.begin() - reading_reach, range.end() + reading_reach};
  for (const SoilReading& reading : readings) {
    if (!reach.contains(reading.day)) continue;
    hull_ = {std::min(hull_.begin(), reading.day), std::max(hull_.end(), reading.day + Days{1})};
  }
  gains_.resize(static_cast<std::size_t>(hull_.size()));
  std::vector<double> precision(gains_.size(), 0.0);
  for (const SoilReading& reading : readings) {
    if (!reach.contains(reading.day)) continue;
    const auto i = static_cast<std::size_t>((reading.day - hull_.begin()).count());
    precision[i] += 1.0 / reading.variance_k2;
    gains_[i].residual += reading.estimate_minus_reading.kelvin() / reading.variance_k2;
    gains_[i].read = any_reading_ = true;
  }
  for (std::size_t i = 0; i < gains_.size(); ++i) {
    gains_[i].season = season_factor(model, hull_.begin() + Days{static_cast<int>(i)}, hemisphere);
    if (!gains_[i].read) continue;
    gains_[i].residual /= precision[i];
    gains_[i].reading_sd = std::sqrt(1.0 / precision[i]);
  }
  make_bridges();
  filter();
  smooth();
}

void ConditionedSoilError::make_bridges() {
  bridges_.resize(anchor_days);
  for (int offset = 1; offset < anchor_days; ++offset) {
    // From the day before, u, to the anchor ahead, v, there are n steps; the next value given both is normal.
    const double n = anchor_days - offset + 1;
    const double a = slow_keep_;
    const double ahead_square = std::pow(a, 2.0 * (n - 1.0));
    const double whole = 1.0 - std::pow(a, 2.0 * n);
    bridges_[static_cast<std::size_t>(offset)] = {
        a * (1.0 - ahead_square) / whole, std::pow(a, n - 1.0) * (1.0 - a * a) / whole,
        std::sqrt(model_.slow_variance * (1.0 - a * a) * (1.0 - ahead_square) / whole)};
  }
}

void ConditionedSoilError::filter() {
  const Vector3 keep{1.0, slow_keep_, model_.fast_lag1};
  const Vector3 stationary{model_.constant_variance, model_.slow_variance, model_.fast_variance};
  Vector3 z{};
  Matrix3 p{};
  for (std::size_t k = 0; k < 3; ++k) p[k][k] = stationary[k];
  mean_then_.reserve(gains_.size());
  for (DayGain& gain : gains_) {
    for (std::size_t j = 0; j < 3; ++j) gain.predicted_sum[j] = p[0][j] + p[1][j] + p[2][j];
    gain.predicted_variance = sum_of(gain.predicted_sum);
    const double m = gain.season;
    if (gain.read) {
      gain.innovation_variance = m * m * gain.predicted_variance + gain.reading_sd * gain.reading_sd;
      const double innovation = gain.residual - m * sum_of(z);
      const double surprise = innovation / gain.innovation_variance;
      log_evidence_ -=
          0.5 * (std::log(2.0 * std::numbers::pi * gain.innovation_variance) + innovation * surprise);
      for (std::size_t j = 0; j < 3; ++j) {
        z[j] += m * gain.predicted_sum[j] * surprise;
        for (std::size_t k = 0; k < 3; ++k) {
          p[j][k] -= m * m * gain.predicted_sum[j] * gain.predicted_sum[k] / gain.innovation_variance;
        }
      }
    }
    mean_then_.push_back(m * sum_of(z));
    for (std::size_t j = 0; j < 3; ++j) {
      z[j] *= keep[j];
      for (std::size_t k = 0; k < 3; ++k) p[j][k] *= keep[j] * keep[k];
      p[j][j] += stationary[j] * (1.0 - keep[j] * keep[j]);
    }
  }
}

std::vector<double> ConditionedSoilError::smoothed(const std::vector<double>& differences) const {
  const double slow = slow_keep_;
  const double fast = model_.fast_lag1;
  std::vector<double> surprise(gains_.size(), 0.0);
  std::vector<double> result(gains_.size());
  Vector3 z{};
  for (std::size_t t = 0; t < gains_.size(); ++t) {
    const DayGain& gain = gains_[t];
    result[t] = sum_of(z);
    if (gain.read) {
      surprise[t] = (differences[t] - gain.season * result[t]) / gain.innovation_variance;
      for (std::size_t j = 0; j < 3; ++j) z[j] += gain.season * gain.predicted_sum[j] * surprise[t];
    }
    z[1] *= slow;
    z[2] *= fast;
  }
  Vector3 r{};
  for (std::size_t t = gains_.size(); t-- > 0;) {
    const DayGain& gain = gains_[t];
    r[1] *= slow;
    r[2] *= fast;
    const Vector3& q = gain.predicted_sum;
    if (gain.read) {
      // r <- H' v/S + (1 - H' P H' / S) r with the gain on the reading's side of the transition.
      const double along = q[0] * r[0] + q[1] * r[1] + q[2] * r[2];
      const double push = gain.season * (surprise[t] - gain.season * along / gain.innovation_variance);
      for (double& part : r) part += push;
    }
    result[t] = gain.season * (result[t] + q[0] * r[0] + q[1] * r[1] + q[2] * r[2]);
  }
  return result;
}

void ConditionedSoilError::smooth() {
  std::vector<double> residuals;
  residuals.reserve(gains_.size());
  for (const DayGain& gain : gains_) residuals.push_back(gain.residual);
  const std::vector<double> means = smoothed(residuals);
  now_.resize(gains_.size());
  const Vector3 keep{1.0, slow_keep_, model_.fast_lag1};
  Matrix3 n{};
  for (std::size_t t = gains_.size(); t-- > 0;) {
    const DayGain& gain = gains_[t];
    const Vector3& q = gain.predicted_sum;
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) n[j][k] *= keep[j] * keep[k];
    }
    if (gain.read) {
      // N <- H'H/S + L' N L, L = I - P H' H / S; every row of H'K' is the same because H = m (1, 1, 1).
      const double weight = gain.season * gain.season / gain.innovation_variance;
      Vector3 nq{};
      for (std::size_t j = 0; j < 3; ++j) nq[j] = n[j][0] * q[0] + n[j][1] * q[1] + n[j][2] * q[2];
      const double qnq = q[0] * nq[0] + q[1] * nq[1] + q[2] * nq[2];
      for (std::size_t j = 0; j < 3; ++j) {
        for (std::size_t k = 0; k < 3; ++k) n[j][k] += weight * (1.0 - nq[j] - nq[k] + weight * qnq);
      }
    }
    double explained = 0.0;
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) explained += q[j] * n[j][k] * q[k];
    }
    const double variance = std::max(0.0, gain.predicted_variance - explained);
    now_[t] = {means[t], gain.season * gain.season * variance};
  }
}

void ConditionedSoilError::draw_unconditional(const RandomField& field, std::uint64_t member,
                                              std::vector<double>& sums) const {
  const std::int64_t first = day_number(hull_.begin());
  const double constant =
      std::sqrt(model_.constant_variance) * noise(field, stream_of(member, constant_part), 0);
  // Slow part at the anchors: the same chain, one step of `anchor_days` at a time.
  const std::uint64_t anchor_stream = stream_of(member, anchor_part);
  const double anchor_keep = std::pow(slow_keep_, anchor_days);
  const double slow_sd = std::sqrt(model_.slow_variance);
  const double anchor_sd = slow_sd * std::sqrt(1.0 - anchor_keep * anchor_keep);
  std::int64_t anchor = floor_div(first, anchor_days);
  double left = slow_sd * noise(field, anchor_stream, anchor - warm_up_anchors);
  for (std::int64_t a = anchor - warm_up_anchors + 1; a <= anchor; ++a) {
    left = anchor_keep * left + anchor_sd * noise(field, anchor_stream, a);
  }
  double right = anchor_keep * left + anchor_sd * noise(field, anchor_stream, anchor + 1);
  // Fast part: run in from before the range.
  const std::uint64_t fast_stream = stream_of(member, fast_part);
  const double fast_sd = std::sqrt(model_.fast_variance * (1.0 - model_.fast_lag1 * model_.fast_lag1));
  double fast = 0.0;
  for (std::int64_t day = first - warm_up_days; day < first; ++day) {
    fast = model_.fast_lag1 * fast + fast_sd * noise(field, fast_stream, day);
  }
  const std::uint64_t slow_stream = stream_of(member, slow_part);
  double slow = left;
  sums.resize(gains_.size());
  for (std::int64_t day = anchor * anchor_days; day < day_number(hull_.end()); ++day) {
    const auto offset = static_cast<std::size_t>(day - anchor * anchor_days);
    if (offset == anchor_days) {
      ++anchor;
      slow = right;
      right = anchor_keep * slow + anchor_sd * noise(field, anchor_stream, anchor + 1);
    } else if (offset > 0) {
      const Bridge& bridge = bridges_[offset];
      slow = bridge.back * slow + bridge.ahead * right + bridge.sd * noise(field, slow_stream, day);
    }
    if (day < first) continue;
    fast = model_.fast_lag1 * fast + fast_sd * noise(field, fast_stream, day);
    const auto t = static_cast<std::size_t>(day - first);
    sums[t] = gains_[t].season * (constant + slow + fast);
  }
}

std::vector<TemperatureDelta> ConditionedSoilError::draw(const RandomField& field,
                                                         std::uint64_t member) const {
  if (range_.empty()) return {};
  std::vector<double> errors;
  draw_unconditional(field, member, errors);
  if (any_reading_) {
    const std::uint64_t reading_stream = stream_of(member, reading_part);
    std::vector<double> differences(gains_.size(), 0.0);
    for (std::size_t t = 0; t < gains_.size(); ++t) {
      const DayGain& gain = gains_[t];
      if (!gain.read) continue;
      const std::int64_t day = day_number(hull_.begin()) + static_cast<std::int64_t>(t);
      differences[t] = gain.residual - errors[t] - gain.reading_sd * noise(field, reading_stream, day);
    }
    const std::vector<double> correction = smoothed(differences);
    for (std::size_t t = 0; t < errors.size(); ++t) errors[t] += correction[t];
  }
  std::vector<TemperatureDelta> result;
  result.reserve(static_cast<std::size_t>(range_.size()));
  auto t = static_cast<std::size_t>((range_.begin() - hull_.begin()).count());
  for (int i = 0; i < range_.size(); ++i, ++t) result.push_back(TemperatureDelta::from_kelvin(errors[t]));
  return result;
}

TemperatureDelta ConditionedSoilError::mean(Day day) const {
  return TemperatureDelta::from_kelvin(now_.at(index(day)).mean);
}
TemperatureDelta ConditionedSoilError::sd(Day day) const {
  return TemperatureDelta::from_kelvin(std::sqrt(now_.at(index(day)).variance));
}
TemperatureDelta ConditionedSoilError::mean_then(Day day) const {
  return TemperatureDelta::from_kelvin(mean_then_.at(index(day)));
}

}  // namespace soilclock::soil
