// SPDX-License-Identifier: MIT
// Seasons of a record that are over: each is judged by its own weather and earlier years, as the answer is.
#include "advice/hindcast/past_seasons.hpp"

#include <catch2/catch.hpp>

#include "advice/answer/windows.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/season_in_hindsight.hpp"
#include "decision_tables.hpp"
#include "made_up_season.hpp"
#include "plain_decision.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

const Day past_seasons_on = make_day(2020, 10, 20);
const Season now = season_of(past_seasons_on, SeasonKind::fall, Hemisphere::north);

struct Asked {
  TurfFacts turf_facts;
  treatment::TankPlan plan;
  treatment::ResistantShares resistant;

  std::vector<SeasonSummary> of(const SiteHistory& history) const {
    const std::array targets{&shipped_catalogue().targets.at("POAAN")};
    return past_seasons(history, now, targets, shipped_catalogue(), {&turf_facts, &plan, &resistant, 1})
        .front();
  }
};

SiteHistory history(weather::DailyWeather daily) {
  return history_of(site_with(std::move(daily), past_seasons_on));
}

const std::vector<SeasonSummary>& usual_answer() {
  static const std::vector<SeasonSummary> seasons = Asked{}.of(history(wavy_record(past_seasons_on)));
  return seasons;
}

const SeasonSummary& of_year(const std::vector<SeasonSummary>& seasons, int year) {
  for (const SeasonSummary& season : seasons) {
    if (civil(season.season_start).year == year) return season;
  }
  throw std::runtime_error{"no such season"};
}

/// The record with each day's air moved.
weather::DailyWeather moved(const std::function<double(Day)>& by_k) {
  weather::DailyWeather daily = wavy_record(past_seasons_on);
  for (auto* series : {&daily.air_min, &daily.air_max}) {
    for (Day day = series->days().begin(); day < series->days().end(); day += Days{1})
      series->set(day, *series->at(day) + TemperatureDelta::from_kelvin(by_k(day)), Quality::measured);
  }
  return daily;
}

}  // namespace

TEST_CASE("every season of the record that is over is there, oldest first, with its Mondays") {
  const auto& seasons = usual_answer();
  // Seven years back from October 2020: the record begins in October 2013.
  REQUIRE(seasons.size() == 6);
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    const SeasonSummary& season = seasons[i];
    CHECK(season.season_start == make_day(2014 + static_cast<int>(i), 6, 21));
    REQUIRE(season.weekly.size() >= 52);
    double before = 0.0;
    for (const CurvePoint& point : season.weekly) {
      CHECK(monday_of(point.day) == point.day);
      CHECK(point.emerged_percent >= before);
      before = point.emerged_percent;
    }
    CHECK(season.weekly.front().day >= season.season_start);
    CHECK(season.weekly.back().day >= season.season_start + Days{358});
    CHECK(season.weekly.back().emerged_percent == Approx(100.0).margin(0.5));
    // Half up lies between the Mondays on which the weekly curve passes half.
    REQUIRE(season.reached(50));
    const auto passes = std::find_if(season.weekly.begin(), season.weekly.end(),
                                     [](const CurvePoint& point) { return point.emerged_percent >= 50.0; });
    CHECK(*season.reached(50) <= passes->day + Days{2});
    CHECK(*season.reached(50) >= passes->day - Days{9});
    REQUIRE(season.best_week);
    REQUIRE(season.best_kind);
    CHECK(monday_of(*season.best_week) == *season.best_week);
  }
}

TEST_CASE("a past season's young and old plants are those that are up, and its soil rules have their days") {
  for (const SeasonSummary& season : usual_answer()) {
    double most_young = 0.0;
    for (const CurvePoint& point : season.weekly) {
      CHECK(point.young_percent + point.older_percent == Approx(point.emerged_percent).margin(12.0));
      most_young = std::max(most_young, point.young_percent);
    }
    CHECK(most_young > 20.0);
    CHECK(season.weekly.back().young_percent < 10.0);
    REQUIRE(season.up.size() == 6);
    for (std::size_t i = 1; i < season.up.size(); ++i) CHECK(season.up[i - 1].day <= season.up[i].day);
    // The wavy record falls through 70 F and 66 F in September and October.
    REQUIRE(season.rule_days.size() == 3);
    for (const RuleDay& rule : season.rule_days) {
      INFO(rule.id);
      REQUIRE(rule.day);
      CHECK(*rule.day > make_day(civil(season.season_start).year, 8, 1));
      CHECK(*rule.day < make_day(civil(season.season_start).year, 11, 15));
    }
  }
}

TEST_CASE("a past season does not see the years after it") {
  weather::DailyWeather daily = wavy_record(past_seasons_on);
  const Day cut = make_day(2018, 6, 21);
  for (auto* series : {&daily.air_min, &daily.air_max}) *series = series->slice({series->first(), cut});
  const auto fewer = Asked{}.of(history(daily));
  REQUIRE(fewer.size() == 4);
  for (std::size_t i = 0; i < fewer.size(); ++i) {
    const SeasonSummary& all = usual_answer()[i];
    CHECK(fewer[i].reached(50) == all.reached(50));
    CHECK(fewer[i].best_week == all.best_week);
    CHECK(fewer[i].best_kind == all.best_kind);
    for (std::size_t week = 0; week < all.weekly.size(); ++week)
      CHECK(fewer[i].weekly[week].emerged_percent == all.weekly[week].emerged_percent);
  }
}

TEST_CASE("a warm fall brings the seedlings of its own season later, and no other's") {
  const auto warm = Asked{}.of(history(
      moved([](Day day) { return day >= make_day(2017, 8, 1) && day < make_day(2017, 12, 1) ? 4.0 : 0.0; })));
  CHECK(*of_year(warm, 2017).reached(50) >= *of_year(usual_answer(), 2017).reached(50) + Days{7});
  CHECK(of_year(warm, 2015).reached(50) == of_year(usual_answer(), 2015).reached(50));
}

TEST_CASE("a season with a long hole is left out, the others stay") {
  weather::DailyWeather daily = wavy_record(past_seasons_on);
  for (auto* series : {&daily.air_min, &daily.air_max}) {
    for (Day day = make_day(2016, 9, 1); day < make_day(2016, 9, 20); day += Days{1}) series->clear(day);
  }
  const auto seasons = Asked{}.of(history(daily));
  CHECK(seasons.size() == 5);
  for (const SeasonSummary& season : seasons) CHECK(civil(season.season_start).year != 2016);
}

TEST_CASE("the best week is that of the plain rule over the season's own table") {
  const Asked asked;
  const std::array targets{&shipped_catalogue().targets.at("POAAN")};
  const SiteHistory record = history(wavy_record(past_seasons_on));
  const Season season = season_of(make_day(2016, 10, 1), SeasonKind::fall, Hemisphere::north);
  const auto seen = in_hindsight(record, season, targets, shipped_catalogue(),
                                 {shipped_catalogue().practice.past_seasons.members, 1});
  REQUIRE(seen);
  const TargetRun& run = seen->ensemble.runs.targets.front();
  const SeasonControl control{run, seen->ensemble.runs, seen->ensemble.scenarios, shipped_catalogue(), {}, 1};
  std::vector<Day> mondays;
  for (Day monday = make_day(2016, 6, 27); monday < make_day(2017, 3, 1); monday += one_week)
    mondays.push_back(monday);
  std::vector<std::size_t> members(run.members.size());
  for (std::size_t i = 0; i < members.size(); ++i) members[i] = i;
  const auto points =
      control.points(treatment::unnamed_parts(shipped_catalogue().control_of("POAAN")), mondays);
  Weeks table = weeks_of(points, mondays, members);
  // No gate stops a week before winter at this site; later weeks are far from the best.
  table.resize(24);
  const Decision plain = decided(table);
  const SeasonSummary& past = of_year(usual_answer(), 2016);
  CHECK(past.best_kind == plain.kind);
  CHECK(past.best_week == plain.best_week);
  double best = 0.0;
  for (const TreatmentWeek& week : table) best = std::max(best, week.score(*past.best_kind).value_or(0.0));
  const auto at_best = std::find_if(
      table.begin(), table.end(), [&](const TreatmentWeek& week) { return week.week_of == *past.best_week; });
  CHECK(*at_best->score(*past.best_kind) == best);
}

TEST_CASE("a plan without a foliar part has pre weeks only") {
  Asked asked;
  asked.plan.foliar = treatment::FoliarClass::none;
  for (const SeasonSummary& season : asked.of(history(wavy_record(past_seasons_on))))
    CHECK(season.best_kind == Kind::pre);
}

TEST_CASE("the usual season is the middle of the past ones, moved into this one") {
  const auto season = [](int year, unsigned month, unsigned day, unsigned best_day) {
    const Day start = make_day(year, 6, 21);
    SeasonSummary past;
    past.season_start = start;
    past.up = {{50, make_day(year, month, day)}};
    past.best_week = monday_of(make_day(year, 10, best_day));
    past.best_kind = Kind::pre;
    return past;
  };
  std::vector<SeasonSummary> past{season(2015, 10, 1, 5), season(2016, 10, 20, 17), season(2017, 10, 9, 9),
                                  season(2018, 10, 12, 29), season(2019, 11, 2, 14)};
  const PastSeasonRules rules{60, 5};
  const std::vector<Milestone> milestones{{25, {{}, make_day(2020, 10, 1), {}}},
                                          {50, {{}, make_day(2020, 10, 17), {}}}};
  const auto usual = usual_season(past, now, milestones, rules);
  REQUIRE(usual);
  CHECK(usual->seasons == 5);
  CHECK(usual->half_up_day == 113);  // October 12, the middle one of the five
  CHECK(usual->half_up == make_day(2020, 10, 12));
  CHECK(usual->days_against_usual == 5);
  // The best Mondays are Oct 5, 17, 9, 29 and 14; the middle one is the 14th, the nearest Monday the 12th.
  CHECK(usual->best_week == make_day(2020, 10, 12));
  past[4].up.front().day.reset();
  past[4].best_week.reset();
  past[4].best_kind.reset();
  const auto without = usual_season(past, now, {}, rules);
  REQUIRE(without);
  CHECK(without->half_up == make_day(2020, 10, 12));  // never counts as late
  CHECK(without->best_week == make_day(2020, 10, 12));
  CHECK(!without->days_against_usual);
  past.pop_back();
  CHECK(!usual_season(past, now, milestones, rules));
}
