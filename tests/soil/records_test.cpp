// SPDX-License-Identifier: MIT
// The estimate and its error against measured soil temperature.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "eastern_records.hpp"
#include "soil/soil_error.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

const DayRange scored{make_day(2020, 2, 1), make_day(2021, 1, 1)};
const DayRange spring_of_2020{make_day(2020, 2, 15), make_day(2020, 6, 1)};
constexpr std::size_t all_eastern = 35;
const DayRange autumn{make_day(2020, 8, 1), make_day(2020, 12, 1)};

struct Score {
  double square = 0.0;
  double sum = 0.0;
  int count = 0;
  void add(double error) {
    square += error * error;
    sum += error;
    ++count;
  }
  void add(const Score& other) {
    square += other.square;
    sum += other.sum;
    count += other.count;
  }
  double rmse() const { return std::sqrt(square / count); }
  double bias() const { return sum / count; }
};

/// Estimate minus reading of every scored day that has both.
std::vector<SoilReading> differences(const tests::ReferenceStation& station, int cm) {
  std::vector<SoilReading> result;
  const auto estimate = estimated(station, cm);
  for (Day day = scored.begin(); day < scored.end(); day += Days{1}) {
    const auto seen = station.soil.at(cm).at(day);
    const auto expected = estimate.at(day);
    if (seen && expected) result.push_back({day, *expected - *seen, 0.05});
  }
  return result;
}

/// Standard deviation of the error on a day with the readings up to it only, in kelvin.
double sd_then(const SoilErrorModel& model, Day day, const std::vector<SoilReading>& readings) {
  std::vector<SoilReading> before;
  for (const SoilReading& one : readings) {
    if (one.day <= day) before.push_back(one);
  }
  return ConditionedSoilError{model, Hemisphere::north, {day, day + Days{1}}, before}.sd(day).kelvin();
}

Score score(const std::vector<SoilReading>& all) {
  Score result;
  for (const SoilReading& one : all) result.add(one.estimate_minus_reading.kelvin());
  return result;
}

/// Over all eastern stations that are here.
Score pooled(int cm) {
  Score result;
  for (const auto& station : eastern_stations()) result.add(score(differences(station, cm)));
  return result;
}

}  // namespace

TEST_CASE("at the eastern stations the estimate is off by at most 1.4 C at 5 cm and 1.3 C at 10 cm") {
  std::printf("%-26s %12s %12s\n", "Feb-Dec 2020, C", "5 cm (bias)", "10 cm (bias)");
  for (const auto& station : eastern_stations()) {
    const Score five = score(differences(station, 5));
    const Score ten = score(differences(station, 10));
    std::printf("%-26s %.2f (%+.2f) %.2f (%+.2f)\n", station.name.c_str(), five.rmse(), five.bias(),
                ten.rmse(), ten.bias());
  }
  const Score five = pooled(5);
  const Score ten = pooled(10);
  std::printf("%-26s %.3f (%+.2f) %.3f (%+.2f)\n", "pooled", five.rmse(), five.bias(), ten.rmse(),
              ten.bias());
  CHECK(five.rmse() <= 1.40);
  CHECK(ten.rmse() <= 1.30);
}

TEST_CASE("the errors of all eastern stations are those that another program found", "[records]") {
  REQUIRE(eastern_stations().size() == all_eastern);
  CHECK(pooled(5).rmse() == Approx(1.356).margin(0.01));
  CHECK(pooled(10).rmse() == Approx(1.252).margin(0.01));
}

TEST_CASE("eight station-days in ten lie within the 80 percent band without a probe", "[records]") {
  for (const int cm : {5, 10}) {
    const SoilErrorModel model = error_model(cm);
    const ConditionedSoilError error{model, Hemisphere::north, scored, {}};
    int within = 0;
    int count = 0;
    for (const auto& station : eastern_stations()) {
      for (const SoilReading& seen : differences(station, cm)) {
        within +=
            std::abs(seen.estimate_minus_reading.kelvin()) <= 1.2815516 * error.sd(seen.day).kelvin() ? 1 : 0;
        ++count;
      }
    }
    const double share = static_cast<double>(within) / count;
    std::printf("%d cm, no probe: 80 %% band covers %.3f of %d station-days\n", cm, share, count);
    CHECK(share >= 0.76);
    CHECK(share <= 0.84);
    CHECK(share == Approx(cm == 5 ? 0.800 : 0.825).margin(0.015));
  }
}

TEST_CASE("a weekly probe reading brings the error below one degree and the band stays honest") {
  for (const int cm : {5, 10}) {
    Score with[2];
    Score without[2];
    int within = 0;
    int count = 0;
    for (const auto& station : eastern_stations()) {
      const auto all = differences(station, cm);
      std::vector<SoilReading> weekly;
      for (const SoilReading& one : all) {
        if ((one.day - scored.begin()).count() % 7 == 0) weekly.push_back(one);
      }
      const ConditionedSoilError error{error_model(cm), Hemisphere::north, scored, weekly};
      for (const SoilReading& one : all) {
        const double left = one.estimate_minus_reading.kelvin() - error.mean_then(one.day).kelvin();
        const double band = 1.2815516 * sd_then(error_model(cm), one.day, weekly);
        within += std::abs(left) <= band ? 1 : 0;
        ++count;
        const bool reading_day = (one.day - scored.begin()).count() % 7 == 0;
        for (int season = 0; season < 2; ++season) {
          if (!(season == 0 ? spring_of_2020 : autumn).contains(one.day)) continue;
          with[season].add(left);
          if (!reading_day) without[season].add(left);
        }
      }
    }
    const double share = static_cast<double>(within) / count;
    std::printf(
        "%d cm, weekly probe: RMSE spring %.2f (%.2f without reading days), autumn %.2f (%.2f); band %.3f\n",
        cm, with[0].rmse(), without[0].rmse(), with[1].rmse(), without[1].rmse(), share);
    CHECK(share >= 0.76);
    // The five of this repository are better than most; the band is made for all.
    CHECK(share <= (eastern_stations().size() == all_eastern ? 0.84 : 0.90));
    CHECK(without[0].rmse() <= 0.95);
    CHECK(without[1].rmse() <= 0.82);
  }
}

TEST_CASE("weekly readings at 5 cm narrow the estimate at 10 cm honestly") {
  Score left;
  int within = 0;
  for (const auto& station : eastern_stations()) {
    std::vector<SoilReading> weekly;
    for (SoilReading one : differences(station, 5)) {
      if ((one.day - scored.begin()).count() % 7 != 0) continue;
      one.variance_k2 += 0.27;  // what soil_temperature adds for 5 cm between probe and depth
      weekly.push_back(one);
    }
    const ConditionedSoilError error{error_model(10), Hemisphere::north, scored, weekly};
    for (const SoilReading& one : differences(station, 10)) {
      const double apart = one.estimate_minus_reading.kelvin() - error.mean_then(one.day).kelvin();
      left.add(apart);
      within += std::abs(apart) <= 1.2815516 * sd_then(error_model(10), one.day, weekly) ? 1 : 0;
    }
  }
  const double share = static_cast<double>(within) / left.count;
  std::printf("10 cm from weekly 5 cm readings: RMSE %.2f, band %.3f\n", left.rmse(), share);
  CHECK(left.rmse() <= 0.95);
  CHECK(share >= 0.76);
  CHECK(share <= 0.88);
}

TEST_CASE("outside the eastern area the wide coefficients have the wide error they say", "[records]") {
  const SoilModels models = tests::soil_files();
  for (const int cm : {5, 10}) {
    Score all;
    int within = 0;
    for (const auto& station : tests::reference_stations()) {
      const SoilChoice choice = models.choose(station.place);
      const bool in_the_belt =
          choice.pair.shallow.family == "two-memories-east";  // mostly eastern numbers there
      if (tests::is_eastern(station) || in_the_belt) continue;
      CHECK(choice.pair.shallow.family == "two-memories-wide");
      const SoilEstimator estimator{choice.pair, Depth::from_cm(cm), station.place.latitude_deg};
      const auto estimate = estimate_soil(tests::short_gaps_filled(station.air_mean, 3), estimator);
      const ConditionedSoilError error{choice.error_at(Depth::from_cm(cm)), Hemisphere::north, scored, {}};
      for (Day day = scored.begin(); day < scored.end(); day += Days{1}) {
        const auto seen = station.soil.at(cm).at(day);
        const auto expected = estimate.at(day);
        if (!seen || !expected) continue;
        const double apart = (*expected - *seen).kelvin();
        all.add(apart);
        within += std::abs(apart) <= 1.2815516 * error.sd(day).kelvin() ? 1 : 0;
      }
    }
    const double share = static_cast<double>(within) / all.count;
    std::printf("outside the east, %d cm: n %d, RMSE %.2f, bias %+.2f, band %.3f\n", cm, all.count,
                all.rmse(), all.bias(), share);
    CHECK(all.rmse() == Approx(std::sqrt(5.8)).margin(0.25));
    CHECK(share >= 0.76);
    CHECK(share <= 0.88);
  }
}

TEST_CASE("the unfitted canopy recursion comes within 1.8 C of measured soil at the eastern stations",
          "[records]") {
  const SoilModel model = tests::soil_file("canopy_recursion.json");
  for (const int cm : {5, 10}) {
    Score pooled;
    for (const auto& station : eastern_stations()) {
      const auto estimate =
          canopy_recursion(station.air_mean, model, Depth::from_cm(cm), tests::estimate_rules());
      for (Day day = scored.begin(); day < scored.end(); day += Days{1}) {
        const auto seen = station.soil.at(cm).at(day);
        const auto expected = estimate.at(day);
        if (seen && expected) pooled.add((*expected - *seen).kelvin());
      }
    }
    std::printf("canopy recursion, %d cm: RMSE %.2f, bias %+.2f\n", cm, pooled.rmse(), pooled.bias());
    // Derived on 51 stations, 35 of them these: 1.64 and 1.56.
    CHECK(pooled.rmse() == Approx(cm == 5 ? 1.64 : 1.56).margin(0.12));
  }
}
