// SPDX-License-Identifier: MIT
#include "app/fetch_plan.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <numeric>

#include "app/fetch_jobs.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::app;

namespace {

const TimeZone eastern = TimeZone::named("America/New_York").value();
const Day plan_day = make_day(2026, 11, 25);
const DayRange wanted{make_day(2024, 1, 1), plan_day};
const PlanRules by_year{10, 1};

records::StoredDay stored(Day day, Day asked, bool known = true) {
  records::StoredDay result;
  result.day = day;
  if (known) {
    result.minimum = Temperature::from_celsius(5.0);
    result.maximum = Temperature::from_celsius(15.0);
  }
  result.asked = result.known_since = Instant{asked} + std::chrono::hours{18};
  return result;
}

/// Every day of `wanted` as a fetch on `asked` left it.
std::vector<records::StoredDay> all_kept(Day asked) {
  std::vector<records::StoredDay> days;
  for (Day day = wanted.begin(); day < std::min(wanted.end(), asked); day += Days{1})
    days.push_back(stored(day, asked));
  return days;
}

int days_in(const std::vector<DayRange>& pieces) {
  return std::accumulate(pieces.begin(), pieces.end(), 0,
                         [](int sum, const DayRange& piece) { return sum + piece.size(); });
}

}  // namespace

TEST_CASE("history that was never asked for comes in pieces that end with the year") {
  const auto pieces = days_to_ask({}, wanted, eastern, by_year);
  REQUIRE(pieces.size() == 3);
  CHECK((pieces[0] == DayRange{make_day(2024, 1, 1), make_day(2025, 1, 1)}));
  CHECK((pieces[1] == DayRange{make_day(2025, 1, 1), make_day(2026, 1, 1)}));
  CHECK((pieces[2] == DayRange{make_day(2026, 1, 1), plan_day}));
  CHECK(days_to_ask({}, wanted, eastern, {10, 10}).size() == 1);
}

TEST_CASE("a second fetch asks only for the days that may have changed") {
  const auto same_day = days_to_ask(all_kept(plan_day), wanted, eastern, by_year);
  REQUIRE(same_day.size() == 1);
  CHECK((same_day[0] == DayRange{plan_day - Days{10}, plan_day}));
  const auto next_day = days_to_ask(all_kept(plan_day - Days{1}), wanted, eastern, by_year);
  REQUIRE(next_day.size() == 1);
  CHECK((next_day[0] == DayRange{plan_day - Days{11}, plan_day}));
}

TEST_CASE("a fetch that was interrupted goes on where it stopped") {
  auto days = all_kept(make_day(2025, 1, 12));  // the first year, and the second just begun
  const auto pieces = days_to_ask(days, wanted, eastern, by_year);
  REQUIRE(pieces.size() == 2);
  CHECK((pieces[0] == DayRange{make_day(2025, 1, 2), make_day(2026, 1, 1)}));
}

TEST_CASE("a hole is asked for again until it is four months old") {
  const auto holed = [](Day hole) {
    auto days = all_kept(plan_day);
    days[static_cast<std::size_t>((hole - wanted.begin()).count())] = stored(hole, plan_day, false);
    return days_to_ask(days, wanted, eastern, by_year);
  };
  CHECK(holed(plan_day - Days{120}).size() == 2);
  CHECK(holed(plan_day - Days{121}).size() == 1);
}

TEST_CASE("rain that is late is asked for again, unless the series has none") {
  const auto with_rain = [](bool any) {
    auto days = all_kept(plan_day);
    for (records::StoredDay& day : days) {
      if (any && day.day != plan_day - Days{60}) day.rain = Rain::from_mm(0.0);
    }
    return days_to_ask(days, wanted, eastern, by_year).size();
  };
  CHECK(with_rain(true) == 2);
  CHECK(with_rain(false) == 1);
}

TEST_CASE("hundreds of sites are asked for in requests a service can answer") {
  const TemporaryFolder folder;
  auto store = records::Store::open(folder.file("records.db"), records::Access::create).value();
  records::WeatherStore weather{store};
  net::Service service;
  service.id = "open-meteo";
  service.hosts = {{"history", "https://a"}, {"forecast", "https://b"}};
  service.points_a_call = 100;
  std::vector<Site> sites(680);
  std::vector<ServedSite> served;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    sites[i].id = "s" + std::to_string(i);
    sites[i].place = {30.0 + 0.01 * static_cast<double>(i), -83.0, 100.0};
    sites[i].time_zone = eastern;
    served.push_back({i, &sites[i], {"open-meteo", "", false, false}});
  }
  const auto jobs =
      plan_jobs(service, served, weather, {0, false}, Instant{plan_day} + std::chrono::hours{18});
  REQUIRE(jobs);
  std::size_t history = 0;
  std::size_t forecast = 0;
  for (const FetchJob& job : *jobs) {
    const bool past = job.part == records::WeatherPart::history;
    CHECK(job.sites.size() <= (past ? 20U : 100U));
    (past ? history : forecast) += job.sites.size();
  }
  CHECK(jobs->size() == 34 + 7);
  CHECK(history == 680);
  CHECK(forecast == 680);
}

TEST_CASE("needed days a week apart are asked for together, farther ones apart") {
  auto days = all_kept(plan_day);
  const auto forget = [&](Day day) {
    std::erase_if(days, [&](const records::StoredDay& stored) { return stored.day == day; });
  };
  forget(make_day(2025, 6, 1));
  forget(make_day(2025, 6, 9));
  CHECK(days_to_ask(days, wanted, eastern, by_year).size() == 2);
  forget(make_day(2025, 6, 20));
  CHECK(days_to_ask(days, wanted, eastern, by_year).size() == 3);
}

TEST_CASE("a day ends by the clock of the site, not by that of Greenwich") {
  // 18 h UTC on the 25th is the 26th in the far east of the Pacific rim: the 15th is eleven days old there.
  const TimeZone auckland = TimeZone::named("Pacific/Auckland").value();
  const auto pieces = days_to_ask(all_kept(plan_day), wanted, auckland, by_year);
  REQUIRE(pieces.size() == 1);
  CHECK(pieces[0].begin() == plan_day - Days{9});
}

TEST_CASE("whatever is kept, the pieces hold every day that is lacking and no piece spans two years") {
  rc::prop("complete, disjoint, in order", [] {
    std::vector<records::StoredDay> days;
    std::vector<Day> lacking;
    for (Day day = wanted.begin(); day < wanted.end(); day += Days{1}) {
      if (*rc::gen::inRange(0, 40) == 0)
        lacking.push_back(day);
      else
        days.push_back(stored(day, day + Days{30}));
    }
    const auto pieces = days_to_ask(days, wanted, eastern, by_year);
    for (const Day day : lacking) {
      RC_ASSERT(std::any_of(pieces.begin(), pieces.end(), [&](const auto& p) { return p.contains(day); }));
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      RC_ASSERT(civil(pieces[i].begin()).year == civil(pieces[i].end() - Days{1}).year);
      if (i > 0) RC_ASSERT(pieces[i - 1].end() <= pieces[i].begin());
    }
    RC_ASSERT(days_in(pieces) <= static_cast<int>(lacking.size()) * 8);
  });
}
