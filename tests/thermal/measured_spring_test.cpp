// SPDX-License-Identifier: MIT
// One measured spring, summed by every method: the choice of method alone moves a sum by a third.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "support/record_files.hpp"
#include "thermal/accumulation.hpp"

using namespace soilclock;
using namespace soilclock::thermal;

namespace {

struct Extremes {
  DailySeries<Temperature> minimum;
  DailySeries<Temperature> maximum;
};

/// Columns 2, 6 and 7 (date, maximum, minimum) of a US climate reference station file ("daily01" layout).
Extremes read_extremes(std::istream& file) {
  Extremes result;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words{line};
    std::string station, date, version, longitude, latitude;
    double high = 0.0;
    double low = 0.0;
    words >> station >> date >> version >> longitude >> latitude >> high >> low;
    const auto day = parse_iso_day(date.substr(0, 4) + "-" + date.substr(4, 2) + "-" + date.substr(6, 2));
    REQUIRE(day.has_value());
    if (high > -999.0) result.maximum.set(*day, Temperature::from_celsius(high), Quality::measured);
    if (low > -999.0) result.minimum.set(*day, Temperature::from_celsius(low), Quality::measured);
  }
  return result;
}

}  // namespace

TEST_CASE("the spring of 2020 at Crossville TN gives the sums computed apart for each method") {
  std::ifstream file{tests::reference_file("TN_Crossville_7_NW")};
  const Extremes air = read_extremes(file);
  const DayRange spring{make_day(2020, 2, 15), make_day(2020, 6, 1)};
  REQUIRE(spring.size() == 107);
  const auto total = [&](Method method, std::optional<double> upper_fahrenheit) {
    DegreeDayRule rule{method, Temperature::from_fahrenheit(50), {}, Cutoff::none, true};
    if (upper_fahrenheit) rule.upper = Temperature::from_fahrenheit(*upper_fahrenheit);
    const auto sum = accumulate(air.minimum, air.maximum, rule, spring);
    REQUIRE(sum.has_value());
    REQUIRE(sum->missing_days == 0);
    return sum->total();
  };
  const double tolerance = 5e-5;  // the sums are known to four decimals
  CHECK(total(Method::average, {}).celsius_days() == Approx(316.4000).margin(tolerance));
  CHECK(total(Method::clamped, {}).celsius_days() == Approx(426.8000).margin(tolerance));
  CHECK(total(Method::sine, {}).celsius_days() == Approx(373.7733).margin(tolerance));
  CHECK(total(Method::double_sine, {}).celsius_days() == Approx(375.4602).margin(tolerance));
  CHECK(total(Method::triangle, {}).celsius_days() == Approx(355.4540).margin(tolerance));
  CHECK(total(Method::four_case, {}).celsius_days() == Approx(371.6000).margin(tolerance));
  CHECK(total(Method::average, {}).fahrenheit_days() == Approx(569.520).margin(1e-4));
  CHECK(total(Method::clamped, 86.0).fahrenheit_days() == Approx(768.240).margin(1e-4));
}
