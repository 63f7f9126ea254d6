// SPDX-License-Identifier: MIT
// Symbols: a day's parts are z = (p, a, b, s, x) with transition F = diag(1, 1, 1, slow_keep, fast_lag1); a
// reading of day t is y = h' z + noise, h = (1, cos, sin, m, m). r and N are the adjoint vector and matrix of
// the backward pass.
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

enum Part : std::uint64_t { site_part, anchor_part, slow_part, fast_part, reading_part, part_count };

std::uint64_t stream_of(std::uint64_t member, Part part) {
  return 0x736F'696C'0000'0000ULL + member * part_count + part;
}

std::int64_t day_number(Day day) { return day.time_since_epoch().count(); }

double noise(const RandomStream& stream, std::int64_t index) {
  return stream.normal(static_cast<std::uint64_t>(index));
}

std::int64_t floor_div(std::int64_t value, std::int64_t divisor) {
  const std::int64_t quotient = value / divisor;
  return value % divisor < 0 ? quotient - 1 : quotient;
}

double product(const ErrorParts& a, const ErrorParts& b) {
  double sum = 0.0;
  for (std::size_t j = 0; j < error_parts; ++j) sum += a[j] * b[j];
  return sum;
}

}  // namespace

ErrorParts parts_on(const SoilErrorModel& model, Day day, Hemisphere hemisphere) {
  const double northern = day_of_year(day) + (hemisphere == Hemisphere::south ? 182.0 : 0.0);
  const double per_day = 2.0 * std::numbers::pi / 365.25;
  const double season =
      1.0 + model.season_amplitude * std::cos(per_day * (northern - model.season_peak_day_of_year));
  return {1.0, std::cos(per_day * northern), std::sin(per_day * northern), season, season};
}

ConditionedSoilError::ConditionedSoilError(Filtered, const SoilErrorModel& model, Hemisphere hemisphere,
                                           DayRange range, const std::vector<SoilReading>& readings)
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
    gains_[i].counts = parts_on(model, hull_.begin() + Days{static_cast<int>(i)}, hemisphere);
    if (!gains_[i].read) continue;
    gains_[i].residual /= precision[i];
    gains_[i].reading_sd = std::sqrt(1.0 / precision[i]);
  }
  filter();
}

ConditionedSoilError::ConditionedSoilError(const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                                           const std::vector<SoilReading>& readings)
    : ConditionedSoilError{Filtered{}, model, hemisphere, range, readings} {
  if (range.empty()) return;
  make_bridges();
  smooth();
}

double ConditionedSoilError::log_evidence(const SoilErrorModel& model, Hemisphere hemisphere, DayRange range,
                                          const std::vector<SoilReading>& readings) {
  return ConditionedSoilError{Filtered{}, model, hemisphere, range, readings}.log_evidence_;
}

ErrorParts ConditionedSoilError::keeps() const { return {1.0, 1.0, 1.0, slow_keep_, model_.fast_lag1}; }

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
  const ErrorParts keep = keeps();
  const ErrorParts stationary{model_.constant_variance, model_.annual_cosine_variance,
                              model_.annual_sine_variance, model_.slow_variance, model_.fast_variance};
  ErrorParts z{};
  Matrix p{};
  for (std::size_t k = 0; k < error_parts; ++k) p[k][k] = stationary[k];
  mean_then_.reserve(gains_.size());
  for (DayGain& gain : gains_) {
    for (std::size_t j = 0; j < error_parts; ++j) gain.with_error[j] = product(p[j], gain.counts);
    gain.predicted_variance = product(gain.with_error, gain.counts);
    if (gain.read) {
      gain.innovation_variance = gain.predicted_variance + gain.reading_sd * gain.reading_sd;
      const double innovation = gain.residual - product(gain.counts, z);
      const double surprise = innovation / gain.innovation_variance;
      log_evidence_ -=
          0.5 * (std::log(2.0 * std::numbers::pi * gain.innovation_variance) + innovation * surprise);
      for (std::size_t j = 0; j < error_parts; ++j) {
        z[j] += gain.with_error[j] * surprise;
        for (std::size_t k = 0; k < error_parts; ++k)
          p[j][k] -= gain.with_error[j] * gain.with_error[k] / gain.innovation_variance;
      }
    }
    mean_then_.push_back(product(gain.counts, z));
    for (std::size_t j = 0; j < error_parts; ++j) {
      z[j] *= keep[j];
      for (std::size_t k = 0; k < error_parts; ++k) p[j][k] *= keep[j] * keep[k];
      p[j][j] += stationary[j] * (1.0 - keep[j] * keep[j]);
    }
  }
}

std::vector<double> ConditionedSoilError::smoothed(const std::vector<double>& differences) const {
  const ErrorParts keep = keeps();
  std::vector<double> surprise(gains_.size(), 0.0);
  std::vector<double> result(gains_.size());
  ErrorParts z{};
  for (std::size_t t = 0; t < gains_.size(); ++t) {
    const DayGain& gain = gains_[t];
    result[t] = product(gain.counts, z);
    if (gain.read) {
      surprise[t] = (differences[t] - result[t]) / gain.innovation_variance;
      for (std::size_t j = 0; j < error_parts; ++j) z[j] += gain.with_error[j] * surprise[t];
    }
    for (std::size_t j = 0; j < error_parts; ++j) z[j] *= keep[j];
  }
  ErrorParts r{};
  for (std::size_t t = gains_.size(); t-- > 0;) {
    const DayGain& gain = gains_[t];
    for (std::size_t j = 0; j < error_parts; ++j) r[j] *= keep[j];
    if (gain.read) {
      // r <- h v/S + (1 - h (P h)' / S) r with the gain on the reading's side of the transition.
      const double push = surprise[t] - product(gain.with_error, r) / gain.innovation_variance;
      for (std::size_t j = 0; j < error_parts; ++j) r[j] += gain.counts[j] * push;
    }
    result[t] += product(gain.with_error, r);
  }
  return result;
}

void ConditionedSoilError::smooth() {
  std::vector<double> residuals;
  residuals.reserve(gains_.size());
  for (const DayGain& gain : gains_) residuals.push_back(gain.residual);
  const std::vector<double> means = smoothed(residuals);
  now_.resize(gains_.size());
  const ErrorParts keep = keeps();
  Matrix n{};
  for (std::size_t t = gains_.size(); t-- > 0;) {
    const DayGain& gain = gains_[t];
    const ErrorParts& q = gain.with_error;
    const ErrorParts& h = gain.counts;
    for (std::size_t j = 0; j < error_parts; ++j) {
      for (std::size_t k = 0; k < error_parts; ++k) n[j][k] *= keep[j] * keep[k];
    }
    ErrorParts nq{};
    for (std::size_t j = 0; j < error_parts; ++j) nq[j] = product(n[j], q);
    if (gain.read) {
      // N <- h h'/S + L' N L, L = 1 - P h h' / S.
      const double weight = 1.0 / gain.innovation_variance;
      const double own = weight + weight * weight * product(q, nq);
      for (std::size_t j = 0; j < error_parts; ++j) {
        for (std::size_t k = 0; k < error_parts; ++k)
          n[j][k] += own * h[j] * h[k] - weight * (h[j] * nq[k] + nq[j] * h[k]);
      }
      for (std::size_t j = 0; j < error_parts; ++j) nq[j] = product(n[j], q);
    }
    now_[t] = {means[t], std::max(0.0, gain.predicted_variance - product(q, nq))};
  }
}

/// Paths drawn before: sites answered one after another, and what-ifs, ask for the same ones, and drawing
/// them is a good part of an ensemble. Of the last few origins and the first members of each, which bounds
/// what a season holds to some 15 MB. Each thread keeps its own, so that none waits for another.
class ConditionedSoilError::StoredPaths {
 public:
  /// Everything the fading parts of a member's error depend on.
  struct Origin {
    std::uint64_t seed;
    DayRange days;
    SoilErrorModel model;

    bool same_as(const Origin& other) const {
      const auto numbers = [](const SoilErrorModel& m) {
        return std::array{m.slow_variance, m.slow_days, m.fast_variance, m.fast_lag1};
      };
      return seed == other.seed && days.begin() == other.days.begin() && days.end() == other.days.end() &&
             numbers(model) == numbers(other.model);
    }
  };

  static StoredPaths& of_this_thread() {
    static thread_local StoredPaths stored;
    return stored;
  }

  template <class Make>
  std::vector<Fading> get(const Origin& origin, std::uint64_t member, const Make& make) {
    if (member >= most_members) return make();
    std::vector<std::vector<Fading>>& paths = of(origin);
    if (paths.size() <= member) paths.resize(member + 1);
    if (paths[member].empty()) paths[member] = make();
    return paths[member];
  }

 private:
  static constexpr std::uint64_t most_members = 500;
  static constexpr std::size_t most_origins = 4;
  struct Stored {
    Origin origin;
    std::vector<std::vector<Fading>> paths;  // by member; empty: not drawn yet
  };

  std::vector<std::vector<Fading>>& of(const Origin& origin) {
    const auto known = std::find_if(stored_.begin(), stored_.end(),
                                    [&](const Stored& stored) { return stored.origin.same_as(origin); });
    if (known != stored_.end()) return known->paths;
    if (stored_.size() == most_origins) stored_.erase(stored_.begin());
    return stored_.emplace_back(Stored{origin, {}}).paths;
  }

  std::vector<Stored> stored_;  // the oldest first
};

std::vector<ConditionedSoilError::Fading> ConditionedSoilError::fading_path(const RandomField& field,
                                                                            std::uint64_t member) const {
  const std::int64_t first = day_number(hull_.begin());
  // Slow part at the anchors: the same chain, one step of `anchor_days` at a time.
  const RandomStream anchor_stream = field.of(stream_of(member, anchor_part));
  const double anchor_keep = std::pow(slow_keep_, anchor_days);
  const double slow_sd = std::sqrt(model_.slow_variance);
  const double anchor_sd = slow_sd * std::sqrt(1.0 - anchor_keep * anchor_keep);
  std::int64_t anchor = floor_div(first, anchor_days);
  double left = slow_sd * noise(anchor_stream, anchor - warm_up_anchors);
  for (std::int64_t a = anchor - warm_up_anchors + 1; a <= anchor; ++a) {
    left = anchor_keep * left + anchor_sd * noise(anchor_stream, a);
  }
  double right = anchor_keep * left + anchor_sd * noise(anchor_stream, anchor + 1);
  // Fast part: run in from before the range.
  const RandomStream fast_stream = field.of(stream_of(member, fast_part));
  const double fast_sd = std::sqrt(model_.fast_variance * (1.0 - model_.fast_lag1 * model_.fast_lag1));
  double fast = 0.0;
  for (std::int64_t day = first - warm_up_days; day < first; ++day) {
    fast = model_.fast_lag1 * fast + fast_sd * noise(fast_stream, day);
  }
  const RandomStream slow_stream = field.of(stream_of(member, slow_part));
  double slow = left;
  std::vector<Fading> path(gains_.size());
  for (std::int64_t day = anchor * anchor_days; day < day_number(hull_.end()); ++day) {
    const auto offset = static_cast<std::size_t>(day - anchor * anchor_days);
    if (offset == anchor_days) {
      ++anchor;
      slow = right;
      right = anchor_keep * slow + anchor_sd * noise(anchor_stream, anchor + 1);
    } else if (offset > 0) {
      const Bridge& bridge = bridges_[offset];
      slow = bridge.back * slow + bridge.ahead * right + bridge.sd * noise(slow_stream, day);
    }
    if (day < first) continue;
    fast = model_.fast_lag1 * fast + fast_sd * noise(fast_stream, day);
    path[static_cast<std::size_t>(day - first)] = {slow, fast};
  }
  return path;
}

std::vector<double> ConditionedSoilError::draw_unconditional(const RandomField& field,
                                                             std::uint64_t member) const {
  const RandomStream site_stream = field.of(stream_of(member, site_part));
  const ErrorParts site{std::sqrt(model_.constant_variance) * noise(site_stream, 0),
                        std::sqrt(model_.annual_cosine_variance) * noise(site_stream, 1),
                        std::sqrt(model_.annual_sine_variance) * noise(site_stream, 2)};
  const auto path = StoredPaths::of_this_thread().get({field.seed(), hull_, model_}, member,
                                                      [&] { return fading_path(field, member); });
  std::vector<double> sums(path.size());
  for (std::size_t t = 0; t < sums.size(); ++t)
    sums[t] = product(gains_[t].counts, {site[0], site[1], site[2], path[t].slow, path[t].fast});
  return sums;
}

std::vector<TemperatureDelta> ConditionedSoilError::draw(const RandomField& field,
                                                         std::uint64_t member) const {
  if (range_.empty()) return {};
  std::vector<double> errors = draw_unconditional(field, member);
  if (any_reading_) {
    const RandomStream reading_stream = field.of(stream_of(member, reading_part));
    std::vector<double> differences(gains_.size(), 0.0);
    for (std::size_t t = 0; t < gains_.size(); ++t) {
      const DayGain& gain = gains_[t];
      if (!gain.read) continue;
      const std::int64_t day = day_number(hull_.begin()) + static_cast<std::int64_t>(t);
      differences[t] = gain.residual - errors[t] - gain.reading_sd * noise(reading_stream, day);
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
