// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "advice/answer/windows.hpp"
#include "advice/hindcast/hindcast_crossing.hpp"
#include "advice/hindcast/hindcast_milestones.hpp"
#include "core/random.hpp"
#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using tests::shipped_catalogue;

namespace {

/// Seasons with dates made by hand; the program always says the days given.
class HandMade : public HindcastSubject {
 public:
  std::map<int, std::optional<Outcome>> dates;  // by year
  std::vector<std::optional<int>> says;
  bool pools = false;
  mutable std::vector<int> asked;

  std::vector<Event> events() const override { return {{"event", "something comes", pools}}; }
  SeasonKind kind() const override { return SeasonKind::fall; }
  int after_window() const override { return 200; }
  std::vector<std::optional<Outcome>> outcome(const Season& season) const override {
    const auto found = dates.find(civil(season.first).year);
    return {found == dates.end() ? std::optional<Outcome>{} : found->second};
  }
  std::vector<IssuedForecast> issued(const Season& season, Day) const override {
    asked.push_back(civil(season.first).year);
    return {{DayEnsemble::even(says), DayEnsemble::even({})}};
  }
  std::vector<Remark> remarks() const override { return {}; }
};

/// Judged on 1 September, season day 72, after so many earlier seasons.
EventHindcast judged(const HandMade& subject, int earlier) {
  return hindcast(subject, {{{9, 1}},
                            make_day(2020, 1, 1),
                            make_day(1990, 7, 1),
                            Hemisphere::north,
                            earlier,
                            shipped_catalogue().practice.hindcast})
      .front();
}

double score(const HindcastCase& one, Forecaster who) { return one.crps_days[static_cast<std::size_t>(who)]; }

/// Daily weather with an annual wave of its own in every year; soil at 10 cm lags the air.
SiteHistory wavy_history(int first_year, int last_year, double extra_k_from_last_year) {
  const RandomField random{11};
  SiteHistory history;
  history.place = {45.0, -85.0, {}};
  auto& soil = history.daily.soil[Depth::from_cm(10.0)];
  double spell = 0.0;
  double memory = 5.0;
  for (Day day = make_day(first_year, 1, 1); day < make_day(last_year + 1, 1, 1); day += Days{1}) {
    const auto number = static_cast<std::uint64_t>((day - make_day(1900, 1, 1)).count());
    spell = 0.8 * spell + 1.8 * random.normal(1, number);
    const double extra = civil(day).year >= last_year ? extra_k_from_last_year : 0.0;
    const double air =
        10.0 - 12.0 * std::cos(2.0 * 3.14159265 * (day_of_year(day) - 20) / 365.25) + spell + extra;
    memory += 0.2 * (air - memory);
    history.daily.air_min.set(day, Temperature::from_celsius(air - 5.0), Quality::measured);
    history.daily.air_max.set(day, Temperature::from_celsius(air + 5.0), Quality::measured);
    soil.set(day, Temperature::from_celsius(memory), Quality::measured);
  }
  history.end = make_day(last_year + 1, 1, 1);
  return history;
}

const SoilCrossing falls_to_12{Temperature::from_celsius(12.0), Depth::from_cm(10.0),
                               thermal::Side::at_or_below};

EventHindcast wavy_hindcast(const SiteHistory& history, HindcastRun run = {true, 0, 60, 1}) {
  const CrossingSubject subject{history, shipped_catalogue(), falls_to_12, run};
  return hindcast(subject, {{{9, 15}},
                            history.end,
                            make_day(1990, 1, 1),
                            Hemisphere::north,
                            5,
                            shipped_catalogue().practice.hindcast})
      .front();
}

}  // namespace

TEST_CASE("a season is judged only by the dates of earlier ones") {
  HandMade subject;
  for (int year = 1991; year <= 1996; ++year) subject.dates[year] = Outcome{100 + year - 1991};
  subject.says = {100, 102, 104};
  const EventHindcast event = judged(subject, 3);
  REQUIRE(event.cases.size() == 3);
  CHECK(event.cases[0].year == 1994);
  CHECK(event.cases[0].past_dates == 3);
  CHECK(score(event.cases[0], Forecaster::mean_date) ==
        Approx(2.0));                                                // 103 against the mean of 100, 101, 102
  CHECK(std::isnan(score(event.cases[0], Forecaster::past_dates)));  // three are no distribution
  CHECK(event.cases[0].days_off == -1);
  CHECK(event.cases[0].held);
  CHECK_FALSE(event.cases[2].held);  // 105
  CHECK(event.scores.front().coverage == Approx(2.0 / 3.0));
  CHECK(event.scores.front().band_days == 5.0);
}

TEST_CASE("seasons in which the event has passed, or whose date is not known, are not judged and not asked") {
  HandMade subject;
  for (int year = 1991; year <= 1995; ++year) subject.dates[year] = Outcome{100};
  subject.dates[1996] = Outcome{71};  // the day before the issue date
  subject.dates[1997] = Outcome{72};  // on it
  subject.dates[1998] = std::optional<Outcome>{};
  subject.says = {80};
  const EventHindcast event = judged(subject, 5);
  CHECK(subject.asked == std::vector<int>{1997});
  REQUIRE(event.cases.size() == 1);
  CHECK(event.cases[0].days_off == 8);
}

TEST_CASE("an event that never comes is judged as the end of the window") {
  HandMade subject;
  for (int year = 1991; year <= 2000; ++year) subject.dates[year] = Outcome{150};
  subject.dates[2001] = Outcome{};
  subject.says = {150, std::nullopt};
  const EventHindcast event = judged(subject, 10);
  REQUIRE(event.cases.size() == 1);
  CHECK_FALSE(event.cases[0].outcome);
  CHECK_FALSE(event.cases[0].days_off);
  CHECK(event.cases[0].held);
  CHECK(score(event.cases[0], Forecaster::program) == Approx(12.5));  // 50 wide, half of it wrong: 50 x 0.5^2
  CHECK(score(event.cases[0], Forecaster::past_dates) == Approx(50.0));
  CHECK(score(event.cases[0], Forecaster::mean_date) == Approx(50.0));
}

TEST_CASE("past dates before the issue date are no longer to come") {
  HandMade subject;
  for (int year = 1991; year <= 2002; ++year) subject.dates[year] = Outcome{year < 1993 ? 60 : 100};
  subject.dates[2003] = Outcome{100};
  subject.says = {100};
  const EventHindcast event = judged(subject, 12);
  REQUIRE(event.cases.size() == 1);
  CHECK(event.cases[0].past_dates == 10);
  CHECK(score(event.cases[0], Forecaster::past_dates) == 0.0);
  CHECK(score(event.cases[0], Forecaster::mean_date) > 5.0);
}

TEST_CASE("past dates are pooled in by the lead forecast, never by what happened") {
  const HindcastRules& rules = shipped_catalogue().practice.hindcast;
  CHECK(pooled_share(5.0, rules.pooling) == 0.0);
  CHECK(pooled_share(20.0, rules.pooling) == Approx(0.3));
  CHECK(pooled_share(90.0, rules.pooling) == Approx(0.6));
  HandMade subject;
  subject.pools = true;
  for (int year = 1991; year <= 2000; ++year) subject.dates[year] = Outcome{110};
  subject.dates[2001] = Outcome{110};
  subject.dates[2002] = Outcome{75};
  subject.says = {92};  // 20 days ahead
  const EventHindcast event = judged(subject, 10);
  REQUIRE(event.cases.size() == 2);
  for (const HindcastCase& one : event.cases) CHECK(one.pooled_share == Approx(0.3));
}

TEST_CASE("what comes after a season changes nothing of what was said and found about it") {
  const EventHindcast as_it_was = wavy_hindcast(wavy_history(1990, 2004, 0.0));
  const EventHindcast other_end = wavy_hindcast(wavy_history(1990, 2004, 6.0));
  const EventHindcast cut = wavy_hindcast(wavy_history(1990, 2003, 0.0));
  int compared = 0;
  for (std::size_t i = 0; i < as_it_was.cases.size(); ++i) {
    const HindcastCase& one = as_it_was.cases[i];
    // The window of 2003 reaches to January 2004, but its date was known long before.
    if (one.year > 2003) continue;
    for (const EventHindcast* other : {&other_end, &cut}) {
      REQUIRE(i < other->cases.size());
      CHECK(other->cases[i].outcome == one.outcome);
      CHECK(other->cases[i].issued.low == one.issued.low);
      CHECK(other->cases[i].issued.middle == one.issued.middle);
      CHECK(other->cases[i].issued.high == one.issued.high);
      CHECK(score(other->cases[i], Forecaster::program) == score(one, Forecaster::program));
    }
    ++compared;
  }
  CHECK(compared >= 8);
  CHECK(as_it_was.cases.back().issued.middle !=
        other_end.cases.back().issued.middle);  // so the ends do differ
}

TEST_CASE("a level the soil is always below is never passed, one it stays above never comes") {
  const SiteHistory history = wavy_history(1990, 1992, 0.0);
  const Season season = season_of(make_day(1991, 8, 1), SeasonKind::fall, Hemisphere::north);
  const auto date_of = [&](double level) {
    const SoilCrossing crossing{Temperature::from_celsius(level), Depth::from_cm(10.0),
                                thermal::Side::at_or_below};
    return CrossingSubject{history, shipped_catalogue(), crossing, {}}.outcome(season).front();
  };
  CHECK_FALSE(date_of(40.0).has_value());
  REQUIRE(date_of(-40.0).has_value());
  CHECK_FALSE(date_of(-40.0)->has_value());
  REQUIRE(date_of(12.0).has_value());
  CHECK(date_of(12.0)->has_value());
}

TEST_CASE("what is known on a morning holds nothing of that day or later, but the days known ahead") {
  const SiteHistory history = wavy_history(1990, 1996, 0.0);
  const Day on = make_day(1995, 9, 15);
  const SiteWeather site = known_on(history, on, 3, shipped_catalogue().futures);
  CHECK(site.outlook_start == on + Days{3});
  CHECK(site.daily.air_min.quality(on) == Quality::forecast);
  CHECK(site.daily.air_min.quality(on - Days{1}) == Quality::measured);
  CHECK_FALSE(site.daily.air_min.at(on + Days{3}));
  CHECK_FALSE(site.daily.soil.at(Depth::from_cm(10.0)).at(on));
  CHECK(known_on(history, on, 0, shipped_catalogue().futures).outlook_start == on);
}

TEST_CASE("weather known ahead brings the said date nearer to what happened") {
  const SiteHistory history = wavy_history(1990, 2009, 0.0);
  const auto program = static_cast<std::size_t>(Forecaster::program);
  const HindcastScores blind = wavy_hindcast(history).scores.front();
  const HindcastScores seeing = wavy_hindcast(history, {true, 30, 60, 1}).scores.front();
  CHECK(seeing.crps_days[program] < 0.82 * blind.crps_days[program]);
}

TEST_CASE(
    "a date of emergence is judged as an answer names it, and a season the record does not reach through is "
    "left out") {
  const SiteHistory history = wavy_history(1996, 2001, 0.0);
  const emergence::Target& crabgrass = shipped_catalogue().targets.at("DIGIS");
  const MilestoneSubject subject{history, shipped_catalogue(), crabgrass, {true, 0, 60, 1}};
  const Season last = season_of(make_day(2001, 6, 1), SeasonKind::summer, Hemisphere::north);
  for (const auto& unknown : subject.outcome(last.next())) CHECK_FALSE(unknown);
  const auto happened = subject.outcome(last);
  const auto issued = subject.issued(last, make_day(2001, 4, 1));
  REQUIRE(happened.size() == issued.size());
  const std::array targets{&crabgrass};
  const auto seen = in_hindsight(history, last, targets, shipped_catalogue(), {60, 1});
  REQUIRE(seen);
  const TargetRun& run = seen->ensemble.runs.targets.front();
  const DateBand half = date_reaching(run, MiddleCurve{run}, 0.5);
  REQUIRE(half.middle);
  REQUIRE(happened[2]);
  CHECK(*happened[2] == last.day_of_season(*half.middle));
  REQUIRE(issued[2].band);
  CHECK(std::abs(*issued[2].band->middle - **happened[2]) < 30);
}
