// SPDX-License-Identifier: MIT
// A decade of days through each method. The plain sum of the means is what memory alone costs.
#include <benchmark/benchmark.h>

#include <cmath>
#include <string>

#include "core/random.hpp"
#include "thermal/accumulation.hpp"
#include "thermal/crossing.hpp"

using namespace soilclock;
using namespace soilclock::thermal;

namespace {

struct Decade {
  DailySeries<Temperature> minimum{{make_day(2014, 1, 1), make_day(2024, 1, 1)}};
  DailySeries<Temperature> maximum{minimum.days()};
  DailySeries<Temperature> mean{minimum.days()};

  Decade() {
    const RandomField noise{1};
    for (Day day = minimum.first(); day <= minimum.last(); day += Days{1}) {
      const auto index = static_cast<std::uint64_t>((day - minimum.first()).count());
      const double value = 14.0 - 11.0 * std::cos(0.0172 * day_of_year(day)) + 3.0 * noise.normal(0, index);
      minimum.set(day, Temperature::from_celsius(value - 6.0), Quality::measured);
      maximum.set(day, Temperature::from_celsius(value + 6.0), Quality::measured);
      mean.set(day, Temperature::from_celsius(value), Quality::measured);
    }
  }
};

const Decade& decade() {
  static const Decade made;
  return made;
}

void per_day(benchmark::State& state) { state.SetItemsProcessed(state.iterations() * decade().mean.size()); }

void plain_sum_of_means(benchmark::State& state) {
  for (auto _ : state) {
    double sum = 0.0;
    for (const Temperature value : decade().mean.values()) sum += value.celsius();
    benchmark::DoNotOptimize(sum);
  }
  per_day(state);
}

void sum_of_daily_means_above_base(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        accumulate_means(decade().mean, Temperature::from_celsius(10.0), {}, decade().mean.days()));
  }
  per_day(state);
}

void sum_by_method(benchmark::State& state, Method method, Cutoff cutoff) {
  const DegreeDayRule rule{method, Temperature::from_celsius(10.0), Temperature::from_celsius(30.0), cutoff,
                           true};
  for (auto _ : state) {
    benchmark::DoNotOptimize(accumulate(decade().minimum, decade().maximum, rule, decade().minimum.days()));
  }
  per_day(state);
}

void trailing_week(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(trailing_mean(decade().mean, decade().mean.days(), 5));
  per_day(state);
}

BENCHMARK(plain_sum_of_means);
BENCHMARK(sum_of_daily_means_above_base);
BENCHMARK_CAPTURE(sum_by_method, average, Method::average, Cutoff::none);
BENCHMARK_CAPTURE(sum_by_method, triangle_horizontal, Method::triangle, Cutoff::horizontal);
BENCHMARK_CAPTURE(sum_by_method, sine_horizontal, Method::sine, Cutoff::horizontal);
BENCHMARK_CAPTURE(sum_by_method, double_sine_vertical, Method::double_sine, Cutoff::vertical);
BENCHMARK(trailing_week);

}  // namespace
