// SPDX-License-Identifier: MIT
// The coefficients of the model files, found again from the records they are said to come from.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "soil/radiation.hpp"
#include "soil_files.hpp"
#include "support/reference_station.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

constexpr std::size_t terms = 5;
using Row = std::array<double, terms>;

/// Sums of a least-squares problem with five unknowns.
struct NormalEquations {
  std::array<Row, terms> left{};
  Row right{};

  void add(const Row& x, double y) {
    for (std::size_t i = 0; i < terms; ++i) {
      right[i] += x[i] * y;
      for (std::size_t j = 0; j < terms; ++j) left[i][j] += x[i] * x[j];
    }
  }

  Row solved() const {
    auto a = left;
    Row b = right;
    for (std::size_t k = 0; k < terms; ++k) {
      for (std::size_t i = k + 1; i < terms; ++i) {
        const double factor = a[i][k] / a[k][k];
        for (std::size_t j = k; j < terms; ++j) a[i][j] -= factor * a[k][j];
        b[i] -= factor * b[k];
      }
    }
    for (std::size_t i = terms; i-- > 0;) {
      for (std::size_t j = i + 1; j < terms; ++j) b[i] -= a[i][j] * b[j];
      b[i] /= a[i][i];
    }
    return b;
  }
};

/// Adds a station's days: the memories are run through the year twice, days from 1 February of the second run
/// count.
void add_station(NormalEquations& sums, const tests::ReferenceStation& station, int cm, double fast_days) {
  const auto air = tests::short_gaps_filled(station.air_mean, 366);
  double fast = air.values().front().celsius();
  double slow = fast;
  for (const bool count : {false, true}) {
    for (Day day = air.first(); day < air.days().end(); day += Days{1}) {
      const double value = air.at(day)->celsius();
      fast += (1.0 - std::exp(-1.0 / fast_days)) * (value - fast);
      slow += (1.0 - std::exp(-1.0 / 60.0)) * (value - slow);
      const auto soil = station.soil.at(cm).at(day);
      if (!count || !soil || day < make_day(2020, 2, 1)) continue;
      sums.add({1.0, std::max(fast, 0.0), std::min(fast, 0.0), slow,
                extraterrestrial_radiation_mj_m2(station.place.latitude_deg, day_of_year(day))},
               soil->celsius());
    }
  }
}

}  // namespace

TEST_CASE("a least-squares fit of the reference stations gives the coefficients of the model files",
          "[records]") {
  const auto stations = tests::reference_stations();
  for (const char* name : {"two_memories_east_5cm.json", "two_memories_east_10cm.json",
                           "two_memories_wide_5cm.json", "two_memories_wide_10cm.json"}) {
    const SoilModel model = tests::soil_file(name);
    const bool eastern_only = model.family == "two-memories-east";
    NormalEquations sums;
    for (const auto& station : stations) {
      if (eastern_only && !tests::is_eastern(station)) continue;
      add_station(sums, station, static_cast<int>(std::lround(model.depth->cm())),
                  model.parameter("fast_memory"));
    }
    const Row found = sums.solved();
    std::printf("%-28s %.3f %.3f %.3f %.3f %.3f\n", name, found[0], found[1], found[2], found[3], found[4]);
    CHECK(found[0] == Approx(model.parameter("constant")).margin(0.02));
    CHECK(found[1] == Approx(model.parameter("warm_slope")).margin(0.003));
    CHECK(found[2] == Approx(model.parameter("cold_slope")).margin(0.01));
    CHECK(found[3] == Approx(model.parameter("slow_slope")).margin(0.003));
    CHECK(found[4] == Approx(model.parameter("radiation_slope")).margin(0.002));
  }
}
