// SPDX-License-Identifier: MIT
#include "emergence/sum_curve.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "rapidcheck/catch.h"
#include "support/drawn_models.hpp"

using namespace soilclock;
using namespace soilclock::emergence;

namespace {

Temperature celsius(double value) { return Temperature::from_celsius(value); }

/// Lead-in days at 40 C, which must not count, then the values.
std::vector<Temperature> with_lead_in(const std::vector<double>& values) {
  std::vector<Temperature> daily(lead_in_days, celsius(40.0));
  for (const double value : values) daily.push_back(celsius(value));
  return daily;
}

std::vector<double> numbers(const std::vector<DegreeDays>& sum) {
  std::vector<double> result;
  for (const DegreeDays& one : sum) result.push_back(one.celsius_days());
  return result;
}

std::vector<DegreeDays> ramp(double per_day, int days) {
  std::vector<DegreeDays> sum;
  for (int d = 1; d <= days; ++d) sum.push_back(DegreeDays::from_celsius_days(per_day * d));
  return sum;
}

}  // namespace

TEST_CASE("running sums give the rows worked by hand") {
  // Cooling below 21 C of daily air means, and warmth above 12 C of daily soil means.
  CHECK(numbers(cooling_sum(with_lead_in({24, 22, 20.5, 19, 21, 17.5}), celsius(21.0), 0)) ==
        std::vector<double>{0, 0, 0.5, 2.5, 2.5, 6.0});
  CHECK(numbers(warmth_sum(with_lead_in({9, 11.5, 13, 15.5, 18, 12}), celsius(12.0), 0)) ==
        std::vector<double>{0, 0, 1.0, 4.5, 10.5, 10.5});
}

TEST_CASE("a sum starts on its day and a gate leaves cold days out whole") {
  const auto daily = with_lead_in({20, 20, 14.5, 20, 15});
  CHECK(numbers(warmth_sum(daily, celsius(10.0), 2)) == std::vector<double>{0, 0, 4.5, 14.5, 19.5});
  CHECK(numbers(gated_warmth_sum(daily, celsius(10.0), celsius(15.0), 0)) ==
        std::vector<double>{10, 20, 20, 30, 35});
}

TEST_CASE("smooth crabgrass comes up along its sum as worked from the curve") {
  // Gompertz k 0.0175, m 158.7: 24.98 % at 140 and 75.04 % at 230 degree-days, "major emergence" of
  // Fidanza et al. 1996, Crop Sci 36:990-996, read as 25 to 75 percent.
  const EmergenceModel smooth = tests::shipped_model("DIGIS_maryland_25_75");
  const EmergenceCurve emerged =
      run_curve(ramp(10.0, 200), *response_curve(smooth, central_parameters(smooth)));
  CHECK(100.0 * emerged.at(13) == Approx(24.9787).margin(0.001));
  CHECK(100.0 * emerged.at(22) == Approx(75.0399).margin(0.001));
  CHECK(emerged.at(199) == 1.0);
}

TEST_CASE("a summer too cool to finish the curve is still a whole season of its own") {
  const EmergenceModel smooth = tests::shipped_model("DIGIS_maryland_25_75");
  const EmergenceCurve cool = run_curve(ramp(1.0, 200), *response_curve(smooth, central_parameters(smooth)));
  CHECK(cool.at(199) == 1.0);
  CHECK(cool.at(139) > 0.3);  // 0.25 of the curve's whole, more of what comes at all
}

TEST_CASE("a curve hung onto an onset starts there with the sum it is given") {
  const EmergenceModel smooth = tests::shipped_model("DIGIS_maryland_25_75");
  const Curve curve = *response_curve(smooth, central_parameters(smooth));
  const EmergenceCurve emerged =
      run_curve_from_onset(ramp(10.0, 200), curve, 50, DegreeDays::from_celsius_days(40.0));
  CHECK(emerged.at(49) == 0.0);
  CHECK(emerged.at(50) == Approx(curve.value(40.0)).margin(1e-9));
  CHECK(emerged.at(60) == Approx(curve.value(140.0)).margin(1e-9));
  CHECK(run_curve_from_onset(ramp(10.0, 200), curve, std::nullopt, DegreeDays{}).at(199) == 0.0);
}

TEST_CASE("an offset rule follows its leader late and not before the soil is warm") {
  EmergenceCurve leader;
  for (int d = 0; d < 100; ++d) leader.up.push_back(std::min(1.0, d / 50.0));
  std::vector<double> soil;
  for (int d = 0; d < 100; ++d) soil.push_back(d < 40 ? 10.0 : 20.0);
  // Seven-day mean of 10 C with days of 20 C coming in passes 15.6 C with the fourth: 15.7 C on day 43.
  const EmergenceCurve emerged = run_offset_rule(leader, 21, with_lead_in(soil), celsius(15.6), 10);
  CHECK(emerged.at(42) == 0.0);
  CHECK(emerged.at(43) == Approx(leader.at(22)));
  CHECK(emerged.at(60) == Approx(leader.at(39)));
  CHECK(emerged.at(99) == 1.0);
  // A warm spell before the date from which the gate is watched does not open it.
  std::vector<double> warm_winter(100, 10.0);
  for (int d = 0; d < 12; ++d) warm_winter[static_cast<std::size_t>(d)] = 20.0;
  CHECK(run_offset_rule(leader, 21, with_lead_in(warm_winter), celsius(15.6), 20).at(99) == 0.0);
}

TEST_CASE("the Maryland calendar gives its worked dates in any year") {
  // 10 % 25 Sep, 25 % 1 Oct, 50 % 8 Oct, 75 % 26 Oct, 80 % 6 Dec, 90 % 24 Feb, from the curve; whole days may
  // be one later.
  const EmergenceModel calendar = tests::shipped_model("POAAN_calendar_maryland");
  const Curve curve = *response_curve(calendar, central_parameters(calendar));
  for (const int year : {2020, 2021, 2023}) {
    const Season season = season_of(make_day(year, 8, 1), SeasonKind::fall, Hemisphere::north);
    const EmergenceCurve emerged = run_calendar(season, season.length(), curve, 0.0);
    const auto lag = [&](double share, Day worked) {
      return season.first + Days{*emerged.first_day_reaching(share)} - worked;
    };
    const std::vector<std::pair<double, Day>> rows{
        {0.10, make_day(year, 9, 25)},  {0.25, make_day(year, 10, 1)}, {0.50, make_day(year, 10, 8)},
        {0.75, make_day(year, 10, 26)}, {0.80, make_day(year, 12, 6)}, {0.90, make_day(year + 1, 2, 24)}};
    for (const auto& [share, worked] : rows) {
      CAPTURE(year, share);
      CHECK(lag(share, worked).count() >= 0);
      CHECK(lag(share, worked).count() <= 1);
    }
    const EmergenceCurve late = run_calendar(season, season.length(), curve, 7.0);
    CHECK(*late.first_day_reaching(0.5) - *emerged.first_day_reaching(0.5) == 7);
  }
}

TEST_CASE("laws of sums") {
  rc::prop("sums never fall, and a higher base never adds warmth", [](std::vector<int> tenths) {
    std::vector<double> values;
    for (const int t : tenths) values.push_back(t % 400 / 10.0);
    const auto daily = with_lead_in(values);
    const auto low = numbers(warmth_sum(daily, celsius(5.0), 0));
    const auto high = numbers(warmth_sum(daily, celsius(9.0), 0));
    const auto gated = numbers(gated_warmth_sum(daily, celsius(5.0), celsius(12.0), 0));
    for (std::size_t i = 0; i < low.size(); ++i) {
      if (i > 0) RC_ASSERT(low[i] >= low[i - 1]);  // the macro would read both sides of an "or"
      RC_ASSERT(high[i] <= low[i]);
      RC_ASSERT(gated[i] <= low[i]);
    }
  });
  rc::prop("the day reaching a value has it, the day before has not", [] {
    const auto sum = ramp(*rc::gen::inRange(1, 50) / 10.0, 100);
    const DegreeDays value = DegreeDays::from_celsius_days(*rc::gen::inRange(1, 600) / 1.0);
    const auto day = day_reaching(sum, value);
    RC_ASSERT(day.has_value() == (sum.back() >= value));
    if (day) {
      RC_ASSERT(sum[static_cast<std::size_t>(*day)] >= value);
      if (*day > 0) RC_ASSERT(sum[static_cast<std::size_t>(*day) - 1] < value);
    }
  });
}
