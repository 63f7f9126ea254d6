// SPDX-License-Identifier: MIT
// What was noted changes the answer; what was noted for later does not.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "app/course_desk.hpp"
#include "support/command_run.hpp"
#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const std::vector<std::string> residual{"--active", "prodiamine", "--purpose", "pre", "--watering-in", "6mm"};

const std::vector<std::string> mixture{"--active",  "prodiamine", "--active",      "simazine",
                                       "--purpose", "pre+post",   "--watering-in", "6mm"};
const std::vector<std::string> foliar{"--active", "glyphosate", "--purpose", "post"};

/// Expected control of this week by kind.
double control_now(const Json& target, const char* kind) {
  return target.at("weeks")[0].at("expected_control").at(kind).get<double>();
}

const Json& decision(const Json& target) { return target.at("decision"); }

/// Everything a reader of the short answer sees about one grass, on one line.
std::string words_of(const Json& target) {
  std::string words = target.at("decision").at("headline").get<std::string>();
  for (const Json& line : target.at("brief")) words += " " + line.at("text").get<std::string>();
  return words;
}

/// What nobody may be told after a residual, nor of a place where nothing is.
void check_nothing_is_below(const std::string& text) {
  CHECK(!holds(text, "below"));
  CHECK(!holds(text, "urvivors"));
}

}  // namespace

TEST_CASE("a residual put down lately leaves a new one less to do") {
  const CourseDesk desk;
  const double without = control_now(desk.target("2025-09-20"), "pre");
  desk.note("application", "2025-09-05", residual);
  const double with = control_now(desk.target("2025-09-20"), "pre");
  CHECK(without > 50.0);
  CHECK(with < 0.5 * without);
}

TEST_CASE("after a residual the answer says what it covers and when it ends, and nothing of survivors") {
  const CourseDesk desk;
  desk.note("application", "2025-08-01", residual);
  double left = 100.0;
  for (const std::string on : {"2025-08-20", "2025-09-20", "2025-10-08"}) {
    const Json target = desk.target(on);
    const Json& applied = target.at("applied");
    CAPTURE(on, words_of(target));
    REQUIRE(applied.is_object());
    CHECK(applied.at("residual_on") == "2025-08-01");
    CHECK(applied.at("foliar_on").is_null());
    CHECK(applied.at("look_from").is_null());
    // The dose runs down, and its end lies ahead until it is spent.
    CHECK(applied.at("dose_left_percent").get<double>() < left);
    left = applied.at("dose_left_percent").get<double>();
    CHECK(left > 0.0);
    REQUIRE(applied.at("residual_ends").is_string());
    CHECK(applied.at("residual_ends") > on);
    const Day ends = *parse_iso_day(applied.at("residual_ends").get<std::string>());
    CHECK(holds(words_of(target), "residual of Aug 1"));
    CHECK(holds(words_of(target), short_date(ends)));
    CHECK(decision(target).at("action") != "hold-after-treatment");
    check_nothing_is_below(words_of(target));
    check_nothing_is_below(desk.advise(on, "text").out);
  }
}

TEST_CASE(
    "a residual that outlasts the weeks in which anything is timed is said to last, and has no successor") {
  const CourseDesk desk;
  desk.note("application", "2025-09-05", residual);
  const Json target = desk.target("2025-10-12");
  CAPTURE(words_of(target));
  CHECK(target.at("applied").at("residual_on") == "2025-09-05");
  CHECK(target.at("applied").at("dose_left_percent").get<double>() > 40.0);
  CHECK(target.at("applied").at("residual_ends").is_null());
  CHECK(decision(target).at("second_pre").is_null());
  CHECK(holds(words_of(target), "residual of Sep 5 lasts"));
}

TEST_CASE("the second residual is given a date with its reason, and is due when the first is spent") {
  const CourseDesk desk;
  const Json untreated = desk.target("2025-11-15");
  CHECK(decision(untreated).at("second_pre").is_null());
  desk.note("application", "2025-07-01", residual);
  const Json target = desk.target("2025-11-15");
  const Json& second = decision(target).at("second_pre");
  CAPTURE(words_of(target));
  REQUIRE(second.is_object());
  const Day due = *parse_iso_day(second.at("date").get<std::string>());
  const Day ends = *parse_iso_day(target.at("applied").at("residual_ends").get<std::string>());
  CHECK(due >= monday_of(make_day(2025, 11, 15)));
  CHECK(due <= std::max(ends, make_day(2025, 11, 15)));
  const std::string why = second.at("why").get<std::string>();
  CHECK(holds(why, "Jul 1"));
  CHECK(holds(why, "a second pre is due"));
  CHECK(holds(why, "still to come"));
  CHECK(holds(words_of(target), why));
  // No mark of a split application is needed for it.
  CHECK(holds(decision(target).at("headline").get<std::string>(), "second"));
}

TEST_CASE("half a dose is spent earlier than a whole one") {
  const auto ends = [](const std::vector<std::string>& more) {
    const CourseDesk desk;
    desk.note("application", "2025-08-01", joined(residual, more));
    return desk.target("2025-09-20").at("applied").at("residual_ends").get<std::string>();
  };
  CHECK(ends({"--split-part", "1"}) < ends({}));
}

TEST_CASE("after a foliar treatment the answer says when to look, and afterwards no more") {
  const CourseDesk desk;
  desk.note("application", "2025-10-10", foliar);
  const Json held = desk.target("2025-10-20");
  CAPTURE(words_of(held));
  CHECK(decision(held).at("action") == "hold-after-treatment");
  CHECK(held.at("applied").at("foliar_on") == "2025-10-10");
  CHECK(held.at("applied").at("residual_on").is_null());
  const auto& rules = shipped_catalogue().practice.decision;
  const Day from = make_day(2025, 10, 10) + Days{rules.look_from_days};
  const Day to = make_day(2025, 10, 10) + Days{rules.look_to_days};
  CHECK(held.at("applied").at("look_from") == iso(from));
  CHECK(held.at("applied").at("look_to") == iso(to));
  const std::string headline = decision(held).at("headline").get<std::string>();
  CHECK(holds(headline, "Oct 10"));
  CHECK(holds(headline, short_date(from)));
  CHECK(holds(headline, short_date(to)));
  CHECK(decision(held).at("next_look").at("date") == iso(from));
  const Json later = desk.target("2025-11-20");
  CHECK(later.at("applied").at("look_from").is_null());
  CHECK(decision(later).at("action") != "hold-after-treatment");
}

TEST_CASE("a mixture is answered with both: when to look, and what its residual still covers") {
  const CourseDesk desk;
  const double before = control_now(desk.target("2025-10-25"), "pre+post");
  desk.note("application", "2025-10-14", mixture);
  const Json target = desk.target("2025-10-25");
  CAPTURE(words_of(target));
  CHECK(decision(target).at("action") == "hold-after-treatment");
  CHECK(target.at("applied").at("residual_on") == "2025-10-14");
  CHECK(target.at("applied").at("foliar_on") == "2025-10-14");
  CHECK(holds(words_of(target), "residual of Oct 14"));
  // Expected control is what comes on top of it.
  CHECK(control_now(target, "pre+post") < 0.4 * before);
}

TEST_CASE("whatever is called for after an application is called second") {
  const CourseDesk desk;
  desk.note("application", "2025-07-01", residual);
  for (const std::string on : {"2025-10-08", "2025-11-15"}) {
    const Json target = desk.target(on);
    const std::string action = decision(target).at("action").get<std::string>();
    CAPTURE(on, words_of(target));
    REQUIRE((action == "treat" || action == "any-week" || action == "wait"));
    CHECK(holds(decision(target).at("headline").get<std::string>(), "a second treatment"));
  }
  const Json untreated = CourseDesk{}.target("2025-10-08");
  CHECK(!holds(decision(untreated).at("headline").get<std::string>(), "second"));
}

TEST_CASE("a residual that is spent was spent on one day, whenever one asks") {
  const CourseDesk desk;
  desk.note("application", "2025-07-01", residual);
  const auto ends = [&](const std::string& on) {
    return *parse_iso_day(desk.target(on).at("applied").at("residual_ends").get<std::string>());
  };
  CHECK(std::abs((ends("2025-11-15") - ends("2025-10-20")).count()) <= 7);
}

TEST_CASE("no second pre is named for a time in which nothing is timed any more") {
  const CourseDesk desk;
  desk.note("application", "2025-09-05", residual);
  const Json target = desk.target("2025-10-12");
  const Json& second = decision(target).at("second_pre");
  CHECK((second.is_null() || second.at("date") <= target.at("last_useful_week")));
}

TEST_CASE("a treatment noted in fall does not open last spring's grass again") {
  const CourseDesk desk;
  const auto crabgrass = [&] {
    return desk
        .run({"advise", "--sites", desk.path("s.json"), "--on", "2025-10-20", "--format", "json", "--target",
              "DIGIS", "--records", desk.path("log.db")})
        .json()
        .at("sites")[0]
        .at("targets")[0]
        .at("decision")
        .at("action");
  };
  desk.note("application", "2025-10-10", foliar);
  CHECK(crabgrass() == "nothing-left");
}

TEST_CASE("a group noted without its active counts as what the group is") {
  const CourseDesk desk;
  desk.note("application", "2025-10-10", {"--group", "9"});
  const Json target = desk.target("2025-10-20");
  CHECK(target.at("applied").at("residual_on").is_null());
  CHECK(target.at("applied").at("foliar_on") == "2025-10-10");
}

TEST_CASE("a close call is one between two treatments that are worth it") {
  const CourseDesk desk;
  desk.note("application", "2025-10-14", mixture);
  const Json target = desk.target("2025-11-20");
  const Json& close = decision(target).at("close_call");
  CHECK((close.is_null() || close.at("expected_control").at("percent").get<double>() >= 5.0));
}

TEST_CASE("what was noted for another site or for a later day changes nothing") {
  const CourseDesk desk;
  const Json without = desk.site("2025-10-15");
  desk.note("application", "2025-09-05", residual, "millrace-nine");
  CHECK(desk.site("2025-10-15") == without);
  desk.note("application", "2025-10-20", residual);
  desk.note("check", "2026-01-18", {"--state", "dormant"});
  desk.note("reading", "2025-10-20", {"--depth", "5cm", "--temperature", "35C"});
  CHECK(desk.site("2025-10-15") == without);
}

TEST_CASE("a turf state that was noted is said to be noted, and a later look does not hide it") {
  const CourseDesk desk;
  const auto turf = [&](const std::string& on) { return desk.site(on).at("turf"); };
  CHECK(turf("2026-01-20").at("noted") == false);
  desk.note("check", "2026-01-18", {"--state", "dormant"});
  CHECK(turf("2026-01-20").at("noted") == true);
  CHECK(turf("2026-01-20").at("state") == "dormant");
  CHECK(turf("2026-01-20").at("since") == "2026-01-18");
  desk.note("check", "2026-03-25", {"--state", "greening"});
  CHECK(turf("2026-01-20").at("state") == "dormant");
  desk.note("check", "2026-01-19", {"--state", "semi-dormant"});
  CHECK(turf("2026-01-20").at("state") == "semi-dormant");
  // Seen long ago it overrides no more.
  CHECK(turf("2026-02-20").at("noted") == false);
}

TEST_CASE("turf seen green is not told to look whether it is dormant") {
  const CourseDesk desk;
  const auto reasons = [&] {
    const Json target = desk.target("2026-01-20");
    std::string named;
    for (const Json& gate : target.at("weeks")[0].at("gates"))
      named += gate.at("reason").get<std::string>() + " ";
    return named;
  };
  CHECK(holds(reasons(), "dormant-turf"));
  desk.note("check", "2026-01-18", {"--state", "green"});
  CHECK(!holds(reasons(), "dormant-turf"));
}

TEST_CASE("turf noted as green or greening overrides what the temperatures say") {
  const CourseDesk desk;
  const auto state = [&](const std::string& on) { return desk.site(on).at("turf").at("state"); };
  CHECK(state("2026-01-20") != "greening");
  desk.note("check", "2026-01-18", {"--state", "greening"});
  CHECK(state("2026-01-20") == "greening");
  desk.note("check", "2026-01-19", {"--state", "semi-dormant"});
  CHECK(state("2026-01-20") == "semi-dormant");
}

TEST_CASE("soil readings from the log count: warmer soil than was thought puts the season off") {
  const CourseDesk desk;
  const Json before = desk.site("2025-10-15");
  const double without = before.at("soil").at("mean_7d_c").get<double>();
  for (const char* day : {"2025-10-05", "2025-10-09", "2025-10-13"}) {
    desk.note("reading", day, {"--depth", "5cm", "--temperature", std::to_string(without + 4.0) + "C"});
  }
  const Json after = desk.site("2025-10-15");
  CHECK(after.at("soil").at("origin") == "mixed");
  const auto emerged = [](const Json& site) {
    return site.at("targets")[0].at("emerged").at("percent").get<double>();
  };
  CHECK(emerged(after) < emerged(before) - 2.0);
}

TEST_CASE("a records file that is named but absent or none is a problem") {
  const CourseDesk desk;
  const auto with = [&](const std::string& records) {
    return desk.run({"advise", "--sites", desk.path("s.json"), "--records", records});
  };
  const Run absent = with(desk.path("absent.db"));
  CHECK(absent.code == 2);
  CHECK(absent.problems() == 1);
  const Run table = with(desk.path("copper_heron.csv"));
  CHECK(table.code == 3);
  CHECK(holds(table.err, "not a records file"));
}

TEST_CASE("a reading of the morning of the answer counts with its hour, and one of the next day does not") {
  const CourseDesk desk;
  const auto error = [&] { return desk.site("2025-10-15").at("soil").at("error_c").get<double>(); };
  const double without = error();
  desk.note("reading", "2025-10-16", {"--depth", "2in", "--temperature", "62F", "--time", "06:10"});
  CHECK(error() == without);
  desk.note("reading", "2025-10-15", {"--depth", "2in", "--temperature", "62F"});
  CHECK(error() == without);
  CHECK(holds(desk.site("2025-10-15").at("remarks").dump(), "reading-needs-hour"));
  desk.note("reading", "2025-10-15", {"--depth", "2in", "--temperature", "62F", "--time", "06:10"});
  CHECK(error() < without);
  const std::string remarks = desk.site("2025-10-15").at("remarks").dump();
  CHECK(holds(remarks, "reading-used"));
  const Run us = desk.run({"advise", "--sites", desk.path("s.json"), "--on", "2025-10-15", "--units", "us",
                           "--records", desk.path("log.db"), "--format", "json"});
  CHECK(holds(us.out, "62.0 F at 06:10, 2 in, taken as a day mean of"));
}

TEST_CASE("the clock of the site tells the hour of a reading: summer time is an hour ahead of the sun") {
  const CourseDesk desk;
  const auto taken = [&](const std::string& day) {
    desk.note("reading", day, {"--depth", "2in", "--temperature", "62F", "--time", "12:00"});
    const Json site = desk.site(day);
    for (const Json& remark : site.at("remarks")) {
      if (remark.at("code") == "reading-used") return remark.at("text").get<std::string>();
    }
    return std::string{};
  };
  // Noon in October is 11 in standard time, when nothing is added; noon in December is noon.
  CHECK(holds(taken("2025-10-15"), "62.0 F at 12:00, 2 in, taken as a day mean of 62.0 F"));
  CHECK(holds(taken("2025-12-15"), "62.0 F at 12:00"));
  CHECK(!holds(taken("2025-12-15"), "taken as a day mean of 62.0 F"));
}

TEST_CASE("notes under an id that differs only in case are not passed over in silence") {
  const CourseDesk desk;
  desk.note("application", "2025-09-05", residual, "Copper Heron");
  const std::string remarks = desk.site("2025-10-15").at("remarks").dump();
  CHECK(holds(remarks, "notes-of-a-similar-site"));
  CHECK(holds(remarks, "'Copper Heron'"));
  desk.note("application", "2025-09-05", joined(residual, {"--new-site"}));
  CHECK(!holds(desk.site("2025-10-15").at("remarks").dump(), "notes-of-a-similar-site"));
}

TEST_CASE("the first seedlings seen move the curve and are named as the reason") {
  const CourseDesk desk;
  const Json before = desk.target("2025-09-20");
  const auto five = [](const Json& target) {
    for (const Json& milestone : target.at("milestones")) {
      if (milestone.at("percent") == 5) return milestone.at("date").dump();
    }
    return std::string{};
  };
  desk.note("first-seen", "2025-08-25", {"--target", "annual bluegrass"});
  const Json after = desk.target("2025-09-20");
  const auto emerged = [](const Json& target) { return target.at("emerged").at("percent").get<double>(); };
  CHECK(emerged(after) > emerged(before));
  CHECK(five(after) != five(before));
  CHECK(holds(after.at("reasons").dump(), "Your first seedlings, seen on"));
  CHECK(!after.at("before_scouting").is_null());
}
