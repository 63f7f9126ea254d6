// SPDX-License-Identifier: MIT
#include "advice/answer/season_notes.hpp"

#include <catch2/catch.hpp>

#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Day notes_on = make_day(2026, 10, 15);
const Season noted_season = season_of(notes_on, SeasonKind::fall, Hemisphere::north);

treatment::PlanEntry entry(const std::string& text) {
  const auto read = treatment::read_plan_entry(text, shipped_catalogue().actives);
  if (!read) FAIL(describe(read.error()));
  return *read;
}

SiteLog whole_log() {
  SiteLog log;
  log.applications = {{make_day(2026, 9, 8), treatment::Kind::pre, {entry("prodiamine"), entry("5")}, 0.5, 1},
                      {make_day(2025, 9, 8), treatment::Kind::post, {}, 1.0, {}},  // last season
                      {notes_on, treatment::Kind::post, {}, 1.0, {}}};  // not yet known this morning
  log.counts = {{make_day(2026, 10, 12), "POAAN", "green 7", true, {4, 8}, {}, {}, SeenStage::leaves_1_3},
                {make_day(2026, 10, 1), "POAAN", "", false, {}, {}, Fraction::from_percent(2.5), {}},
                {make_day(2026, 10, 12), "DIGIS", "", false, {1}, {}, {}, {}}};
  log.first_seen = {{make_day(2026, 9, 30), "POAAN"}};
  log.readings = {{notes_on, 370, 60, Depth::from_inches(2.0), Temperature::from_fahrenheit(62.0)},
                  {notes_on, {}, 0, Depth::from_inches(2.0), Temperature::from_fahrenheit(80.0)},
                  {make_day(2026, 10, 3), {}, 0, Depth::from_cm(10.0), Temperature::from_celsius(18.0)}};
  log.seen = treatment::EyeCheck{make_day(2026, 10, 14), treatment::TurfState::semi_dormant};
  return log;
}

std::vector<std::string> lines(bool us_units) {
  std::vector<std::string> result;
  for (const NoteShown& note : notes_of_season(whole_log(), noted_season, "POAAN", notes_on, us_units))
    result.push_back(iso(note.day) + " " + std::string{name(note.kind)} + ": " + note.text);
  return result;
}

}  // namespace

TEST_CASE("the notes of this season and grass are there, oldest first, in the user's units") {
  CHECK(lines(true) ==
        std::vector<std::string>{
            "2026-09-08 application: pre, prodiamine (3), group 5, 50% of a dose, watered in after 1 day",
            "2026-09-30 first-seen: first seedlings seen", "2026-10-01 count: 2.5% of the ground",
            "2026-10-03 reading: 64.4 F, 3.9 in",
            "2026-10-12 count: 12 new seedlings in 2 plots, most with one to three leaves, green 7",
            "2026-10-14 turf-check: turf semi-dormant", "2026-10-15 reading: 62.0 F at 06:10, 2 in"});
  CHECK(lines(false)[3] == "2026-10-03 reading: 18.0 C, 10 cm");
  CHECK(lines(false)[6] == "2026-10-15 reading: 16.7 C at 06:10, 5.1 cm");
}

TEST_CASE("an empty log has no notes") {
  CHECK(notes_of_season({}, noted_season, "POAAN", notes_on, true).empty());
}
