// SPDX-License-Identifier: MIT
#include "advice/site/probe_readings.hpp"

#include <catch2/catch.hpp>

#include "advice/futures/scenarios.hpp"
#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Day readings_on = make_day(2021, 10, 15);
const soil::ProbeRules& probe_rules() { return shipped_catalogue().probe; }

/// Air of 12 K between low and high up to the day before `end`.
SiteWeather site_until(Day end) {
  SiteWeather site =
      site_with(air_of({make_day(2020, 10, 1), end}, [](Day day) { return annual_wave(day, 14.0, 11.0); }),
                readings_on);
  return site;
}

LoggedReading reading(Day day, std::optional<int> minute, double fahrenheit, double inches = 2.0) {
  return {day, minute, 0, Depth::from_inches(inches), Temperature::from_fahrenheit(fahrenheit)};
}

ProbeEvidence taken(const std::vector<LoggedReading>& readings,
                    const SiteWeather& site = site_until(readings_on), bool us = true) {
  return take_readings({}, readings, site, probe_rules(), us);
}

std::string text_of(const ProbeEvidence& taken, const std::string& code) {
  for (const Remark& remark : taken.remarks) {
    if (remark.code == code) return remark.text;
  }
  return "";
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

constexpr int dawn = 6 * 60;

}  // namespace

TEST_CASE("a reading of this very morning counts, and the answer says how it was taken") {
  // 0.19 of 12 K (21.6 F) is 4.1 F; the range is that of the day before, since today's is not over.
  const ProbeEvidence today = taken({reading(readings_on, dawn, 62.0)});
  REQUIRE(today.spots.size() == 1);
  CHECK(today.spots.front().day == readings_on);
  CHECK(today.spots.front().mean.fahrenheit() == Approx(66.1).margin(0.01));
  CHECK(holds(text_of(today, "reading-used"),
              "62.0 F at 06:00, 2 in, taken as a day mean of 66.1 F with the air range of the day before."));
  CHECK(holds(text_of(today, "reading-used"), "near 11 a.m. standard time"));
  const std::string metric =
      text_of(taken({reading(readings_on, dawn, 62.0)}, site_until(readings_on), false), "reading-used");
  CHECK(holds(metric, "16.7 C at 06:00, 5.1 cm, taken as a day mean of 18.9 C"));
  CHECK(holds(metric, "11:00 standard time"));
}

TEST_CASE("near the best hour nothing is corrected and nothing explained") {
  const ProbeEvidence late = taken({reading(readings_on, 11 * 60, 64.0)});
  CHECK(late.spots.front().mean.fahrenheit() == Approx(64.0).margin(0.01));
  CHECK(!holds(text_of(late, "reading-used"), "standard time"));
  CHECK(taken({reading(readings_on, 14 * 60, 64.0, 4.0)}).spots.front().mean.fahrenheit() ==
        Approx(64.0).margin(0.01));
}

TEST_CASE("summer time is taken out of the clock") {
  LoggedReading summer = reading(readings_on, dawn + 60, 62.0);
  summer.minutes_ahead = 60;
  const ProbeEvidence both = taken({summer});
  CHECK(both.spots.front().mean.fahrenheit() == Approx(66.1).margin(0.01));
  CHECK(holds(text_of(both, "reading-used"), "at 07:00"));
}

TEST_CASE("without its hour a reading of today is left out and one of yesterday is the mean of its day") {
  const ProbeEvidence today = taken({reading(readings_on, {}, 62.0)});
  CHECK(today.spots.empty());
  CHECK(holds(text_of(today, "reading-needs-hour"), "62.0 F, 2 in"));
  CHECK(text_of(today, "reading-used").empty());
  const ProbeEvidence before = taken({reading(readings_on - Days{1}, {}, 62.0)});
  CHECK(before.spots.front().mean.fahrenheit() == Approx(62.0));
  CHECK(holds(text_of(before, "reading-used"), "taken as the mean of the day because no hour was noted"));
  const ProbeEvidence timed = taken({reading(readings_on - Days{1}, dawn, 62.0)});
  CHECK(timed.spots.front().variance_k2 < before.spots.front().variance_k2);
}

TEST_CASE("nothing of a later day is used, not even with its hour") {
  const ProbeEvidence later =
      taken({reading(readings_on + Days{1}, dawn, 62.0), reading(readings_on + Days{9}, {}, 62.0)});
  CHECK(later.spots.empty());
  CHECK(later.remarks.empty());
}

TEST_CASE("four spots of one morning are one mean that is surer than one spot") {
  const ProbeEvidence one = taken({reading(readings_on, dawn, 62.0)});
  const ProbeEvidence four =
      taken({reading(readings_on, dawn, 60.0), reading(readings_on, dawn + 10, 64.0),
             reading(readings_on, dawn + 20, 61.0), reading(readings_on, dawn + 30, 63.0)});
  REQUIRE(four.spots.size() == 1);
  CHECK(four.spots.front().mean.fahrenheit() == Approx(66.1).margin(0.1));
  const double spots_apart = 1.2 * 1.2 - 0.8 * 0.8;
  CHECK(one.spots.front().variance_k2 - four.spots.front().variance_k2 == Approx(spots_apart));
  CHECK(holds(text_of(four, "reading-used"), "62.0 F (mean of 4 readings) between 06:00 and 06:30"));
  CHECK(taken({reading(readings_on, dawn, 60.0), reading(readings_on, dawn, 62.0, 4.0)}).spots.size() == 2);
}

TEST_CASE(
    "the range is the day's own, else the forecast's, the day before's or the usual one, and is named") {
  const auto words = [](const SiteWeather& site, Day day) {
    return text_of(taken({reading(day, dawn, 62.0)}, site), "reading-used");
  };
  CHECK(holds(words(site_until(readings_on), readings_on - Days{1}), "66.1 F."));
  SiteWeather ahead = site_until(readings_on + Days{3});
  ahead.daily.air_max.set(readings_on,
                          *ahead.daily.air_min.at(readings_on) + TemperatureDelta::from_kelvin(5.0),
                          Quality::forecast);
  CHECK(holds(words(ahead, readings_on), "63.7 F with the air range of the forecast"));
  CHECK(holds(words(site_until(readings_on - Days{3}), readings_on), "with a usual air range of 22 F"));
  // The longer ago the air ends, the less a reading of today says about the estimate.
  const auto variance = [](Day end) {
    return taken({reading(readings_on, dawn, 62.0)}, site_until(end)).spots.front().variance_k2;
  };
  CHECK(variance(readings_on) > variance(readings_on + Days{1}));
  CHECK(variance(readings_on - Days{3}) > variance(readings_on));
}

TEST_CASE("only the newest readings are shown, and none that are older than a week") {
  const ProbeEvidence two =
      taken({reading(readings_on - Days{4}, dawn, 60.0), reading(readings_on - Days{2}, dawn, 62.0)});
  CHECK(two.spots.size() == 2);
  CHECK(two.remarks.size() == 1);
  CHECK(holds(text_of(two, "reading-used"), "62.0 F on Oct 13 at 06:00"));
  CHECK(taken({reading(readings_on - Days{8}, dawn, 60.0)}).remarks.empty());
}

TEST_CASE("a reading of this morning moves the soil of the days before it toward what was read") {
  SiteWeather site = site_until(readings_on);
  const SiteSoil without = site_soil(site, shipped_catalogue().soil);
  const Temperature last = *without.best_5cm.at(readings_on - Days{1});
  site.spots =
      taken({reading(readings_on, 11 * 60, (last + TemperatureDelta::from_kelvin(4.0)).fahrenheit())}).spots;
  const SiteSoil with = site_soil(site, shipped_catalogue().soil);
  CHECK(*with.best_5cm.at(readings_on - Days{1}) > last);
  CHECK(*with.best_5cm.at(readings_on - Days{1}) < last + TemperatureDelta::from_kelvin(4.0));
  CHECK(with.at_5cm.expected_error < without.at_5cm.expected_error);
}

TEST_CASE("the hours for the help come from the file") {
  CHECK(hours_without_correction(probe_rules()) == "11 a.m. at 2 in and 2 p.m. at 4 in (standard time)");
}
