// SPDX-License-Identifier: MIT
#include "advice/futures/futures.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"
#include "rapidcheck/catch.h"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Day outlook_start = make_day(2020, 10, 20);
const Day season_end = make_day(2021, 6, 21);

/// Every day's temperature is its date as a number: 20191020 on 20 October 2019; rain its day of the month.
weather::DailyWeather dated_record(Day first, Day end) {
  const auto number = [](Day day) {
    const CivilDate date = civil(day);
    return date.year * 10000.0 + date.month * 100.0 + date.day;
  };
  weather::DailyWeather record = air_of({first, end}, number);
  for (Day day = first; day < end; day += Days{1}) {
    record.rain.set(day, Rain::from_mm(civil(day).day), Quality::measured);
  }
  return record;
}

double mean_of(const Future& future, Day day, Day from) {
  const auto i = static_cast<std::size_t>((day - from).count());
  return midpoint(future.air_min.at(i), future.air_max.at(i)).celsius();
}

const Future& labeled(const Futures& futures, const std::string& label) {
  for (const Future& future : futures.all) {
    if (future.label == label) return future;
  }
  FAIL("no future " << label);
  return futures.all.front();
}

bool same(const Futures& a, const Futures& b) {
  if (a.all.size() != b.all.size()) return false;
  for (std::size_t i = 0; i < a.all.size(); ++i) {
    if (a.all[i].air_min != b.all[i].air_min || a.all[i].air_max != b.all[i].air_max) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("with five past seasons each of them is a future, day for day") {
  const Futures futures = possible_futures(dated_record(make_day(2015, 10, 1), outlook_start), carolina,
                                           outlook_start, season_end, shipped_catalogue().futures, 1);
  CHECK(futures.past_seasons == 5);
  CHECK(futures.all.size() == 5);
  CHECK(futures.remarks.empty());
  const Future& of_2017 = labeled(futures, "2017");
  CHECK(of_2017.air_min.size() == static_cast<std::size_t>((season_end - outlook_start).count()));
  CHECK(mean_of(of_2017, outlook_start, outlook_start) == 20171020.0);
  CHECK(mean_of(of_2017, make_day(2021, 1, 1), outlook_start) == 20180101.0);
  CHECK(mean_of(of_2017, season_end - Days{1}, outlook_start) == 20180620.0);
  CHECK(of_2017.rain.front().mm() == 20.0);
}

TEST_CASE("29 February of the season ahead takes the 28th of years that have none") {
  const Day leap_seam = make_day(2019, 10, 20);
  const Futures futures = possible_futures(dated_record(make_day(2010, 1, 1), leap_seam), carolina, leap_seam,
                                           make_day(2020, 6, 21), shipped_catalogue().futures, 1);
  CHECK(mean_of(labeled(futures, "2016"), make_day(2020, 2, 29), leap_seam) == 20170228.0);
  CHECK(mean_of(labeled(futures, "2015"), make_day(2020, 2, 29), leap_seam) == 20160229.0);
  CHECK(mean_of(labeled(futures, "2016"), make_day(2020, 3, 1), leap_seam) == 20170301.0);
}

TEST_CASE("a past season that lacks a temperature is no future, one that lacks rain is") {
  auto record = dated_record(make_day(2013, 1, 1), outlook_start);
  record.air_max.clear(make_day(2016, 2, 3));  // within the season from October 2015
  record.rain.clear(make_day(2017, 2, 3));
  const Futures futures =
      possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 1);
  CHECK(futures.past_seasons == 6);
  for (const Future& future : futures.all) CHECK(future.label != "2015");
  const Future& of_2016 = labeled(futures, "2016");
  CHECK(!of_2016.rain.at(static_cast<std::size_t>((make_day(2021, 2, 3) - outlook_start).count())).known());
}

TEST_CASE("no day on or after the outlook start is looked at") {
  const auto record = dated_record(make_day(2012, 1, 1), outlook_start);
  auto longer = dated_record(make_day(2012, 1, 1), outlook_start + Days{400});
  for (Day day = outlook_start; day < outlook_start + Days{400}; day += Days{1}) {
    longer.air_min.set(day, celsius(-80.0), Quality::measured);
    longer.air_max.set(day, celsius(-70.0), Quality::measured);
  }
  // A horizon beyond a year would reach the outlook start from behind: the latest season is then left out.
  for (const Day horizon : {season_end, outlook_start + Days{370}}) {
    const Futures honest =
        possible_futures(record, carolina, outlook_start, horizon, shipped_catalogue().futures, 1);
    CHECK(same(possible_futures(longer, carolina, outlook_start, horizon, shipped_catalogue().futures, 1),
               honest));
    for (const Future& future : honest.all) CHECK(future.air_min.front() > celsius(20000000.0));
  }
  CHECK(possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 1)
            .all.front()
            .label == "2019");
  CHECK(possible_futures(record, carolina, outlook_start, outlook_start + Days{370},
                         shipped_catalogue().futures, 1)
            .all.front()
            .label == "2018");
}

TEST_CASE("how many past seasons may stand alone follows the loaded file") {
  const auto record = dated_record(make_day(2015, 10, 1), outlook_start);
  FutureRules rules = shipped_catalogue().futures;
  rules.past_seasons_least = 6;
  rules.made_up = 7;
  const Futures made_up = possible_futures(record, carolina, outlook_start, season_end, rules, 1);
  CHECK(made_up.all.size() == 7);
  REQUIRE(made_up.remarks.size() == 1);
  CHECK(made_up.remarks.front().text.find("six are needed to draw") != std::string::npos);
  rules.past_seasons_least = rules.past_seasons_most = 3;
  CHECK(possible_futures(record, carolina, outlook_start, season_end, rules, 1).all.size() == 3);
}

TEST_CASE("a file of futures with a slip is refused at its place") {
  constexpr const char* futures_path = "models/weather/futures.json";
  const auto place = [&](const std::string& part, const std::string& by) {
    const auto read = read_future_rules(exchanged(source_text(futures_path), part, by), futures_path);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"past_seasons_most\": {\"value\": 40", "\"past_seasons_most\": {\"value\": 4") ==
        "/past_seasons_most/value");
  CHECK(place("\"rain_block\": {\"value\": 5", "\"rain_block\": {\"value\": 5.5") == "/rain_block/value");
  CHECK(place("\"unit\": \"K\"", "\"unit\": \"F\"") == "/half_range_least/unit");
  CHECK(place("\"around_gap\"", "\"around_gaps\"") == "/around_gap");
}

TEST_CASE("a short record gives its usual year plus noise, and says so") {
  const Noise noise{make_day(2018, 1, 1), 1100, 4.0, 0.7};
  const auto record = air_of({make_day(2018, 1, 1), outlook_start},
                             [&](Day day) { return annual_wave(day, 13.0, 11.0) + noise.on(day); });
  const Futures futures =
      possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 1);
  CHECK(futures.past_seasons == 0);
  REQUIRE(futures.remarks.size() == 1);
  CHECK(futures.remarks.front().code == "few-past-seasons");
  CHECK(futures.remarks.front().text.find("holds two whole past seasons; ") != std::string::npos);
  REQUIRE(futures.all.size() == 40);
  // In mid-January the futures scatter about the normal as the record does: 40 of them know the mean to 0.7
  // C.
  const Day january = make_day(2021, 1, 15);
  double sum = 0.0;
  double squares = 0.0;
  for (const Future& future : futures.all) {
    const double off = mean_of(future, january, outlook_start) - annual_wave(january, 13.0, 11.0);
    sum += off;
    squares += off * off;
  }
  CHECK(sum / 40.0 == Approx(0.0).margin(2.0));
  CHECK(std::sqrt(squares / 40.0) == Approx(4.0).margin(1.3));
}

TEST_CASE("normals begin at the anomaly of the last known day") {
  const auto usual = [](Day day) { return annual_wave(day, 13.0, 11.0); };
  const Noise noise{make_day(2018, 1, 1), 1100, 3.0, 0.8};
  auto warm =
      air_of({make_day(2018, 1, 1), outlook_start}, [&](Day day) { return usual(day) + noise.on(day); });
  for (int back = 1; back <= 3; ++back) {
    warm.air_min.set(outlook_start - Days{back}, celsius(usual(outlook_start) + 9.0 - 6.0),
                     Quality::measured);
    warm.air_max.set(outlook_start - Days{back}, celsius(usual(outlook_start) + 9.0 + 6.0),
                     Quality::measured);
  }
  double first_day = 0.0;
  for (const Future& future :
       possible_futures(warm, carolina, outlook_start, season_end, shipped_catalogue().futures, 1).all) {
    first_day += (mean_of(future, outlook_start, outlook_start) - usual(outlook_start)) / 40.0;
  }
  CHECK(first_day > 4.0);  // 0.8 of 9 C, less what chance takes
}

TEST_CASE("the same seed gives the same futures, another seed others") {
  const auto record = dated_record(make_day(2018, 1, 1), outlook_start);
  const Futures once =
      possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 5);
  CHECK(same(possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 5),
             once));
  CHECK(!same(possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 6),
              once));
}

TEST_CASE("rain of a short record's futures is rain that fell at that time of year") {
  auto record =
      air_of({make_day(2018, 1, 1), outlook_start}, [](Day day) { return annual_wave(day, 13.0, 11.0); });
  for (Day day = make_day(2018, 1, 1); day < outlook_start; day += Days{1}) {
    record.rain.set(day, Rain::from_mm(civil(day).month == 12 || civil(day).month <= 2 ? 1.0 : 0.0),
                    Quality::measured);
  }
  const auto in_january = static_cast<std::size_t>((make_day(2021, 1, 15) - outlook_start).count());
  const auto in_may = static_cast<std::size_t>((make_day(2021, 5, 15) - outlook_start).count());
  for (const Future& future :
       possible_futures(record, carolina, outlook_start, season_end, shipped_catalogue().futures, 1).all) {
    CHECK(future.rain.at(in_january).mm() == 1.0);
    CHECK(future.rain.at(in_may).mm() == 0.0);
  }
}

TEST_CASE("laws of futures") {
  rc::prop("futures are whole and in order of minimum and maximum, however short the record", [] {
    const int days = *rc::gen::inRange(1, 2500);
    const auto record = air_of({outlook_start - Days{days}, outlook_start},
                               [](Day day) { return annual_wave(day, 13.0, 11.0); });
    const Futures futures = possible_futures(record, carolina, outlook_start, outlook_start + Days{120},
                                             shipped_catalogue().futures, 1);
    RC_ASSERT(!futures.all.empty());
    RC_ASSERT(futures.remarks.empty() ==
              (futures.past_seasons >= shipped_catalogue().futures.past_seasons_least));
    for (const Future& future : futures.all) {
      RC_ASSERT(future.air_min.size() == 120U && future.air_max.size() == 120U && future.rain.size() == 120U);
      for (std::size_t i = 0; i < 120; ++i) RC_ASSERT(future.air_min[i] < future.air_max[i]);
    }
  });
}
