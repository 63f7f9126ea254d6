// SPDX-License-Identifier: MIT
// Rows of numbers the day values must give. Where a row is not from a publication it was computed apart from
// this program by closed forms and confirmed by adaptive quadrature split at every crossing.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "thermal/degree_day.hpp"

using namespace soilclock;
using namespace soilclock::thermal;

namespace {

constexpr double row_tolerance = 1e-6;

double day_value(Method method, Cutoff cutoff, double minimum, double maximum, double lower, double upper,
                 bool floor_at_zero = true, std::optional<double> next = {}) {
  const auto celsius = [](double value) { return Temperature::from_celsius(value); };
  const DegreeDayRule rule{method, celsius(lower), celsius(upper), cutoff, floor_at_zero};
  const auto value = degree_days_of_day(rule, celsius(minimum), celsius(maximum),
                                        next ? std::optional{celsius(*next)} : std::nullopt);
  REQUIRE(value.has_value());
  return value->value.celsius_days();
}

/// The scale of a row does not matter (adding a constant or another unit changes nothing), so all are read as
/// Celsius.
struct Row {
  double minimum, maximum, lower, upper;
  double average, clamped;
  double sine[4];      ///< none, horizontal, intermediate without floor, vertical
  double triangle[4];  ///< the same
  double four_case;
};

const std::vector<Row> rows{
    {60, 80, 50, 88, 20, 20, {20, 20, 20, 20}, {20, 20, 20, 20}, 20},
    {40, 45, 50, 88, 0, 0, {0, 0, 0, 0}, {0, 0, 0, 0}, 0},
    {90, 100, 50, 88, 45, 38, {45, 38, 31, 0}, {45, 38, 31, 0}, 45},
    {45,
     75,
     50,
     88,
     10,
     12.5,
     {10.881608, 10.881608, 10.881608, 10.881608},
     {10.416667, 10.416667, 10.416667, 10.416667},
     11.25},
    {60, 95, 50, 88, 27.5, 24, {27.5, 26.142918, 24.785835, 14.926563}, {27.5, 26.8, 26.1, 19.2}, 27.5},
    {42,
     98,
     50,
     88,
     20,
     19,
     {21.302540, 19.475034, 17.647527, 8.920576},
     {20.571429, 19.678571, 18.785714, 12.892857},
     22},
    {50, 88, 50, 88, 19, 19, {19, 19, 19, 19}, {19, 19, 19, 19}, 19},
    {51, 51, 50, 88, 1, 1, {1, 1, 1, 1}, {1, 1, 1, 1}, 1},
    {33,
     68,
     50,
     86,
     0.5,
     9,
     {5.822697, 5.822697, 5.822697, 5.822697},
     {4.628571, 4.628571, 4.628571, 4.628571},
     4.75},
    {30,
     52,
     50,
     86,
     0,
     1,
     {0.258328, 0.258328, 0.258328, 0.258328},
     {0.090909, 0.090909, 0.090909, 0.090909},
     0.5},
    {4, 16, 10, 30, 0, 3, {1.909859, 1.909859, 1.909859, 1.909859}, {1.5, 1.5, 1.5, 1.5}, 1.5},
    {12, 24, 10, 30, 8, 8, {8, 8, 8, 8}, {8, 8, 8, 8}, 8},
    {8,
     34,
     10,
     30,
     11,
     10,
     {11.237279, 10.560615, 9.883950, 5.428733},
     {11.076923, 10.769231, 10.461538, 7.692308},
     11.5},
    {22, 36, 10, 30, 19, 16, {19, 17.249055, 15.498111, 8.161634}, {19, 17.714286, 16.428571, 9.142857}, 19},
    {-2,
     9,
     0,
     25,
     3.5,
     4.5,
     {3.868942, 3.868942, 3.868942, 3.868942},
     {3.681818, 3.681818, 3.681818, 3.681818},
     4},
    {31, 38, 10, 30, 24.5, 20, {24.5, 20, 15.5, 0}, {24.5, 20, 15.5, 0}, 24.5},
    {5, 9, 10, 30, 0, 0, {0, 0, 0, 0}, {0, 0, 0, 0}, 0},
    {9.9,
     10.1,
     10,
     30,
     0,
     0.05,
     {0.031831, 0.031831, 0.031831, 0.031831},
     {0.025, 0.025, 0.025, 0.025},
     0.025},
    {-5,
     40,
     10,
     30,
     7.5,
     10,
     {11.313673, 9.264961, 7.216248, 3.014848},
     {10, 8.888889, 7.777778, 4.444444},
     11.25},
    {15, 29, 10, 30, 12, 12, {12, 12, 12, 12}, {12, 12, 12, 12}, 12},
    {16, 34, 13, 21, 12, 5.5, {12, 6.847308, 1.694616, 1.674517}, {12, 7.305556, 2.611111, 1.527778}, 12},
    {40, 90, 50, 60, 15, 5, {16.938689, 6.321250, -4.296189, 0.680308}, {16, 7, -2, 1}, 17.5},
    {65, 95, 50, 60, 30, 10, {30, 10, -10, 0}, {30, 10, -10, 0}, 30},
    {58, 62, 50, 60, 10, 9, {10, 9.363380, 8.726760, 4.363380}, {10, 9.5, 9, 4.5}, 10},
};

constexpr Cutoff all_cutoffs[]{Cutoff::none, Cutoff::horizontal, Cutoff::intermediate, Cutoff::vertical};

}  // namespace

TEST_CASE("every method and cutoff gives the numbers of the 24 check rows") {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& r = rows[i];
    CAPTURE(i + 1);
    const auto value = [&](Method method, Cutoff cutoff) {
      return day_value(method, cutoff, r.minimum, r.maximum, r.lower, r.upper, false);
    };
    CHECK(value(Method::average, Cutoff::none) == Approx(r.average).margin(row_tolerance));
    CHECK(value(Method::clamped, Cutoff::horizontal) == Approx(r.clamped).margin(row_tolerance));
    CHECK(value(Method::four_case, Cutoff::none) == Approx(r.four_case).margin(row_tolerance));
    for (std::size_t c = 0; c < 4; ++c) {
      CAPTURE(std::string{name(all_cutoffs[c])});
      CHECK(value(Method::sine, all_cutoffs[c]) == Approx(r.sine[c]).margin(row_tolerance));
      CHECK(value(Method::triangle, all_cutoffs[c]) == Approx(r.triangle[c]).margin(row_tolerance));
    }
  }
}

TEST_CASE("the zero floor of the intermediate cutoff changes only the three hottest rows") {
  const std::vector<std::pair<double, double>> floored{
      {2.847308, 3.305556}, {1.321250, 2.0}, {0.881608, 0.416667}};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& r = rows[i];
    CAPTURE(i + 1);
    const bool hottest = i >= 20 && i <= 22;
    const double sine = hottest ? floored[i - 20].first : r.sine[2];
    const double triangle = hottest ? floored[i - 20].second : r.triangle[2];
    CHECK(day_value(Method::sine, Cutoff::intermediate, r.minimum, r.maximum, r.lower, r.upper) ==
          Approx(sine).margin(row_tolerance));
    CHECK(day_value(Method::triangle, Cutoff::intermediate, r.minimum, r.maximum, r.lower, r.upper) ==
          Approx(triangle).margin(row_tolerance));
  }
}

TEST_CASE("the double methods give the numbers of the five check days") {
  struct DoubleRow {
    double minimum, maximum, next, lower, upper;
    double sine[4];
    double triangle[4];
  };
  const std::vector<DoubleRow> days{
      {45,
       75,
       55,
       50,
       88,
       {12.940804, 12.940804, 12.940804, 12.940804},
       {12.708333, 12.708333, 12.708333, 12.708333}},
      {40,
       90,
       48,
       50,
       86,
       {18.062407, 17.555823, 17.049238, 10.674778},
       {17.523810, 17.348571, 17.173333, 14.194286}},
      {4, 20, 11, 10, 30, {4.563240, 4.563240, 4.563240, 4.563240}, {4.3125, 4.3125, 4.3125, 4.3125}},
      {12, 33, 18, 10, 30, {14, 13.464970, 12.929941, 8.045781}, {14, 13.742857, 13.485714, 10.314286}},
      {55,
       60,
       38,
       50,
       88,
       {5.257944, 5.257944, 5.257944, 5.257944},
       {4.886364, 4.886364, 4.886364, 4.886364}}};
  for (const DoubleRow& r : days) {
    CAPTURE(r.minimum, r.maximum, r.next);
    for (std::size_t c = 0; c < 4; ++c) {
      CHECK(day_value(Method::double_sine, all_cutoffs[c], r.minimum, r.maximum, r.lower, r.upper, false,
                      r.next) == Approx(r.sine[c]).margin(row_tolerance));
      CHECK(day_value(Method::double_triangle, all_cutoffs[c], r.minimum, r.maximum, r.lower, r.upper, false,
                      r.next) == Approx(r.triangle[c]).margin(row_tolerance));
    }
  }
}

TEST_CASE("published worked examples come out as printed") {
  const auto fahrenheit_day = [](Method method, double minimum, double maximum, double lower,
                                 std::optional<double> upper) {
    DegreeDayRule rule{method, Temperature::from_fahrenheit(lower), {}, Cutoff::none, true};
    if (upper) rule.upper = Temperature::from_fahrenheit(*upper);
    const auto value = degree_days_of_day(rule, Temperature::from_fahrenheit(minimum),
                                          Temperature::from_fahrenheit(maximum));
    REQUIRE(value.has_value());
    return value->value.fahrenheit_days();
  };
  SECTION("a university pest management page: mean 64 F over base 53 F is 11") {
    CHECK(fahrenheit_day(Method::average, 60, 68, 53, {}) == Approx(11.0));
  }
  SECTION("a university agronomy course page: 70 and 50 F over base 50 is 10, a day gives at most 36") {
    CHECK(fahrenheit_day(Method::average, 50, 70, 50, {}) == Approx(10.0));
    CHECK(fahrenheit_day(Method::clamped, 50, 70, 50, 86.0) == Approx(10.0));
    CHECK(fahrenheit_day(Method::clamped, 90, 110, 50, 86.0) == Approx(36.0));
  }
  SECTION("a county extension column of 2018, 50 and 86 F clamped first") {
    CHECK(fahrenheit_day(Method::clamped, 65, 90, 50, 86.0) == Approx(25.5));
    CHECK(fahrenheit_day(Method::clamped, 46, 72, 50, 86.0) == Approx(11.0));
    CHECK(fahrenheit_day(Method::clamped, 42, 63, 50, 86.0) == Approx(6.5));
  }
}

TEST_CASE("24 hourly readings give the day's mean rate") {
  // T = 64 + 14 sin(2 pi (h - 9) / 24) F; base 50 is never undercut, so the value is the mean less the base.
  std::vector<Reading> readings;
  for (int hour = 0; hour < 24; ++hour) {
    const double value = 64.0 + 14.0 * std::sin(2.0 * std::numbers::pi * (hour - 9) / 24.0);
    readings.push_back({hour * 60, Temperature::from_fahrenheit(value)});
  }
  const auto value = [&](double lower) {
    const DegreeDayRule rule{Method::hourly, Temperature::from_fahrenheit(lower),
                             Temperature::from_fahrenheit(86.0), Cutoff::horizontal, true};
    const auto sum = degree_days_of_readings(rule, readings);
    REQUIRE(sum.has_value());
    return sum->fahrenheit_days();
  };
  CHECK(value(50.0) == Approx(14.0).margin(row_tolerance));
  CHECK(value(55.0) == Approx(9.920568).margin(row_tolerance));
}
