// SPDX-License-Identifier: MIT
// Single-sine degree-days of 1,000 stations over ten years against a plain loop of library functions and
// against numpy doing the same formula on whole arrays (Baskerville & Emin 1969, Ecology 50:514-517).
#include <cmath>
#include <cstdio>
#include <fstream>
#include <numbers>
#include <sstream>

#include "bench/comparison.hpp"
#include "core/random.hpp"
#include "thermal/accumulation.hpp"

namespace soilclock::bench {

namespace {

constexpr std::size_t stations = 1000;
const DayRange decade{make_day(2014, 1, 1), make_day(2024, 1, 2)};  // 3,653 days
constexpr double lower_c = 10.0;
constexpr int repeats = 5;
constexpr double tolerance = 1e-9;  // relative, of the sum over all stations

struct Extremes {
  std::vector<double> minimum;
  std::vector<double> maximum;
};

Extremes made_up_extremes() {
  const RandomField noise{7};
  const auto days = static_cast<std::size_t>(decade.size());
  Extremes extremes;
  for (std::size_t station = 0; station < stations; ++station) {
    for (std::size_t day = 0; day < days; ++day) {
      const double wave = -11.0 * std::cos(2.0 * std::numbers::pi * static_cast<double>(day) / 365.25);
      const double mean =
          8.0 + 0.01 * static_cast<double>(station) + wave + 6.0 * (noise.uniform(station, day) - 0.5);
      const double half_range = 3.0 + 6.0 * noise.uniform(station + stations, day);
      extremes.minimum.push_back(mean - half_range);
      extremes.maximum.push_back(mean + half_range);
    }
  }
  return extremes;
}

double plain_loop(const Extremes& extremes) {
  double sum = 0.0;
  for (std::size_t i = 0; i < extremes.minimum.size(); ++i) {
    const double mean = 0.5 * (extremes.minimum[i] + extremes.maximum[i]);
    const double half = 0.5 * (extremes.maximum[i] - extremes.minimum[i]);
    if (extremes.maximum[i] <= lower_c) continue;
    if (extremes.minimum[i] >= lower_c) {
      sum += mean - lower_c;
      continue;
    }
    const double angle = std::asin((lower_c - mean) / half);
    sum += ((mean - lower_c) * (std::numbers::pi / 2.0 - angle) + half * std::cos(angle)) / std::numbers::pi;
  }
  return sum;
}

struct Station {
  DailySeries<Temperature> minimum{decade};
  DailySeries<Temperature> maximum{decade};
};

std::vector<Station> as_series(const Extremes& extremes) {
  std::vector<Station> all(stations);
  std::size_t at = 0;
  for (Station& station : all) {
    for (Day day = decade.begin(); day < decade.end(); day += Days{1}, ++at) {
      station.minimum.set(day, Temperature::from_celsius(extremes.minimum[at]), Quality::measured);
      station.maximum.set(day, Temperature::from_celsius(extremes.maximum[at]), Quality::measured);
    }
  }
  return all;
}

double ours(const std::vector<Station>& all) {
  const thermal::DegreeDayRule rule{
      thermal::Method::sine, Temperature::from_celsius(lower_c), {}, thermal::Cutoff::none, true};
  double sum = 0.0;
  for (const Station& station : all) {
    sum += thermal::accumulate(station.minimum, station.maximum, rule, decade)->total().celsius_days();
  }
  return sum;
}

bool close(double a, double b) { return std::abs(a - b) <= tolerance * std::abs(b); }

void write_doubles(const std::string& path, const std::vector<double>& values) {
  std::ofstream file{path, std::ios::binary};
  file.write(reinterpret_cast<const char*>(values.data()),
             static_cast<std::streamsize>(values.size() * sizeof(double)));
}

/// Sum and seconds as numpy says them, start of the interpreter and reading of the arrays left out.
std::optional<std::pair<double, double>> numpy_answer(const Extremes& extremes) {
  const std::string minimum = in_build_folder("minimum.f64");
  const std::string maximum = in_build_folder("maximum.f64");
  write_doubles(minimum, extremes.minimum);
  write_doubles(maximum, extremes.maximum);
  const auto output = output_of("env -u OPENBLAS_CORETYPE /usr/bin/python3 '" SOILCLOCK_SOURCE_DIR
                                "/tests/bench/numpy_single_sine.py' '" +
                                minimum + "' '" + maximum + "'");
  std::remove(minimum.c_str());
  std::remove(maximum.c_str());
  if (!output) return std::nullopt;
  double sum = 0.0;
  double seconds = 0.0;
  std::istringstream{*output} >> sum >> seconds;
  return std::pair{sum, seconds};
}

}  // namespace

std::vector<Comparison> compare_degree_days() {
  const Extremes extremes = made_up_extremes();
  const std::vector<Station> series = as_series(extremes);
  std::vector<double> our_times;
  std::vector<double> loop_times;
  double our_sum = 0.0;
  double loop_sum = 0.0;
  for (int i = 0; i < repeats; ++i) {
    our_times.push_back(seconds_of([&] { our_sum = ours(series); }));
    loop_times.push_back(seconds_of([&] { loop_sum = plain_loop(extremes); }));
  }
  const std::string job = "sine degree-days, 1000 stations x 3653 days";
  const std::string note = "ours also keeps each day's value, sum and quality";
  Comparison loop{job,
                  "plain C++ loop, sum only",
                  middle(our_times),
                  middle(loop_times),
                  close(our_sum, loop_sum) ? note : "the sums differ",
                  close(our_sum, loop_sum)};
  Comparison arrays{job, "numpy arrays", middle(our_times), {}, "not run: no numpy for /usr/bin/python3",
                    true};
  if (const auto numpy = numpy_answer(extremes)) {
    arrays.other_s = numpy->second;
    arrays.answers_agree = close(our_sum, numpy->first);
    arrays.note = arrays.answers_agree ? note : "the sums differ";
  }
  return {arrays, loop};
}

}  // namespace soilclock::bench
