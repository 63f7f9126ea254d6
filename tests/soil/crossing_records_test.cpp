// SPDX-License-Identifier: MIT
// The band of dates on which soil passes a threshold, against the measured dates: a threshold date is what
// people act on, and a bias of a degree around a plateau moves it by weeks.
#include <catch2/catch.hpp>
#include <cstdio>

#include "eastern_records.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

struct Threshold {
  const char* words;
  double celsius;
  bool rising;
  DayRange looked_at;
};

const DayRange spring{make_day(2020, 2, 15), make_day(2020, 7, 1)};
const DayRange fall{make_day(2020, 8, 1), make_day(2020, 12, 25)};

const Threshold thresholds[] = {{"spring 10.0", 10.0, true, spring}, {"spring 12.8", 12.8, true, spring},
                                {"spring 15.6", 15.6, true, spring}, {"fall 21.1", 21.1, false, fall},
                                {"fall 18.9", 18.9, false, fall},    {"fall 15.6", 15.6, false, fall},
                                {"fall 12.8", 12.8, false, fall}};

/// First day on which the mean of it and the four days before has passed; days after the range count as the
/// range's end. Nothing when the first day has passed already: then no crossing is there to predict.
std::optional<int> crossing(const std::vector<double>& daily, const Threshold& threshold) {
  for (std::size_t i = 4; i < daily.size(); ++i) {
    double mean = 0.0;
    for (std::size_t j = i - 4; j <= i; ++j) mean += daily[j] / 5.0;
    const bool passed = threshold.rising ? mean >= threshold.celsius : mean <= threshold.celsius;
    if (!passed) continue;
    if (i == 4) return std::nullopt;
    return static_cast<int>(i);
  }
  return static_cast<int>(daily.size());
}

struct Tally {
  int cases = 0;
  int covered = 0;
  double width = 0.0;
};

void judge(const tests::ReferenceStation& station, int cm, const Threshold& threshold, bool weekly,
           Tally& tally) {
  const auto estimate = estimated(station, cm);
  std::vector<double> measured;
  std::vector<double> middle;
  std::vector<SoilReading> readings;
  for (Day day = threshold.looked_at.begin(); day < threshold.looked_at.end(); day += Days{1}) {
    const auto seen = station.soil.at(cm).at(day);
    const auto expected = estimate.at(day);
    if (!seen || !expected) return;  // a date found beside a hole is no date
    measured.push_back(seen->celsius());
    middle.push_back(expected->celsius());
    if (weekly && (day - threshold.looked_at.begin()).count() % 7 == 0)
      readings.push_back({day, *expected - *seen, 0.05});
  }
  const auto truth = crossing(measured, threshold);
  if (!truth || *truth == static_cast<int>(measured.size())) return;
  const ConditionedSoilError error{error_model(cm), Hemisphere::north, threshold.looked_at, readings};
  const RandomField random{7};
  constexpr int members = 200;
  std::vector<int> days;
  for (int member = 0; member < members; ++member) {
    const auto drawn = error.draw(random, static_cast<std::uint64_t>(member));
    std::vector<double> soil = middle;
    for (std::size_t i = 0; i < soil.size(); ++i) soil[i] -= drawn[i].kelvin();
    days.push_back(crossing(soil, threshold).value_or(4));
  }
  std::sort(days.begin(), days.end());
  const int low = days[members / 10];
  const int high = days[members - 1 - members / 10];
  ++tally.cases;
  tally.covered += low <= *truth && *truth <= high ? 1 : 0;
  tally.width += high - low;
}

}  // namespace

TEST_CASE("the bands of threshold dates hold most measured dates", "[records]") {
  for (const bool weekly : {false, true}) {
    for (const int cm : {5, 10}) {
      Tally tally;
      for (const Threshold& threshold : thresholds) {
        for (const auto& station : eastern_stations()) judge(station, cm, threshold, weekly, tally);
      }
      const double share = static_cast<double>(tally.covered) / tally.cases;
      std::printf("%d cm, %s: 80 %% band holds %.2f of %d threshold dates, %.0f days wide on average\n", cm,
                  weekly ? "a reading a week" : "no probe", share, tally.cases, tally.width / tally.cases);
      REQUIRE(tally.cases > 120);
      // Dates come in whole days and both ends count, so narrow bands hold a little more than 80 percent.
      CHECK(share >= 0.72);
      CHECK(share <= 0.94);
    }
  }
}

TEST_CASE("in each season the band of the daily value holds its share", "[records]") {
  const std::pair<const char*, DayRange> seasons[] = {
      {"Feb-Mar", {make_day(2020, 2, 1), make_day(2020, 4, 1)}},
      {"Apr-Jun", {make_day(2020, 4, 1), make_day(2020, 7, 1)}},
      {"Jul-Sep", {make_day(2020, 7, 1), make_day(2020, 10, 1)}},
      {"Oct-Dec", {make_day(2020, 10, 1), make_day(2021, 1, 1)}}};
  for (const auto& [words, days] : seasons) {
    for (const int cm : {5, 10}) {
      const ConditionedSoilError error{error_model(cm), Hemisphere::north, days, {}};
      int within = 0;
      int count = 0;
      for (const auto& station : eastern_stations()) {
        const auto estimate = estimated(station, cm);
        for (Day day = days.begin(); day < days.end(); day += Days{1}) {
          const auto seen = station.soil.at(cm).at(day);
          const auto expected = estimate.at(day);
          if (!seen || !expected) continue;
          within += std::abs((*expected - *seen).kelvin()) <= 1.2815516 * error.sd(day).kelvin() ? 1 : 0;
          ++count;
        }
      }
      const double share = static_cast<double>(within) / count;
      std::printf("%s, %d cm: 80 %% band holds %.2f of %d station-days\n", words, cm, share, count);
      CHECK(share >= 0.65);
      CHECK(share <= 0.92);
    }
  }
}
