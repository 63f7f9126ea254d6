// SPDX-License-Identifier: MIT
// What was noted changes the answer; what was noted for later does not.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// The invented upland course without its forecast, asked about its season of 2025-26.
class CourseDesk : public Desk {
 public:
  CourseDesk() {
    const Json site{{"id", "copper-heron"},
                    {"latitude", 35.6},
                    {"longitude", -83.1},
                    {"time_zone", "America/New_York"},
                    {"turf", {{"species", "hybrid bermudagrass"}, {"irrigated", true}}},
                    {"weather", {{{"file", sample("copper_heron.csv")}}}}};
    file("s.json", site.dump());
  }
  void note(const std::string& kind, const std::string& date, const std::vector<std::string>& more,
            const std::string& site = "copper-heron") const {
    const Run run = this->run(
        joined({"log", "add", kind, "--records", path("log.db"), "--site", site, "--date", date}, more));
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
  }
  Run advise(const std::string& on, const std::string& format) const {
    std::vector<std::string> words{"advise", "--sites", path("s.json"), "--on", on, "--format", format};
    if (std::filesystem::exists(path("log.db"))) words = joined(words, {"--records", path("log.db")});
    return run(words);
  }
  Json site(const std::string& on) const {
    const Run run = advise(on, "json");
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    return run.json().at("sites")[0];
  }
  Json target(const std::string& on) const { return site(on).at("targets")[0]; }
};

const std::vector<std::string> residual{"--active", "prodiamine", "--purpose", "pre", "--watering-in", "6mm"};

double residual_adds(const Json& target) {
  return target.at("this_week").at("residual_would_add").get<double>();
}

}  // namespace

TEST_CASE("a residual put down lately leaves a new one less to do") {
  const CourseDesk desk;
  const double without = residual_adds(desk.target("2025-09-20"));
  desk.note("application", "2025-09-05", residual);
  const double with = residual_adds(desk.target("2025-09-20"));
  CHECK(without > 50.0);
  CHECK(with < 0.5 * without);
}

TEST_CASE("a residual put down in midsummer is spent in November, and a second one is called for") {
  const CourseDesk desk;
  CHECK(desk.target("2025-11-15").at("state") == "post");
  desk.note("application", "2025-07-01", residual);
  CHECK(desk.target("2025-11-15").at("state") == "second-pre");
  CHECK(holds(desk.advise("2025-11-15", "text").out, "a second pre"));
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

TEST_CASE("turf seen dormant opens the dormant season, and a later look does not hide it") {
  const CourseDesk desk;
  CHECK(desk.target("2026-01-20").at("state") != "dormant-season");
  desk.note("check", "2026-01-18", {"--state", "dormant"});
  CHECK(desk.target("2026-01-20").at("state") == "dormant-season");
  CHECK(desk.site("2026-01-20").at("turf").at("seen_dormant") == true);
  CHECK(holds(desk.advise("2026-01-20", "text").out, "dormancy"));
  desk.note("check", "2026-03-25", {"--state", "greening"});
  CHECK(desk.target("2026-01-20").at("state") == "dormant-season");
  desk.note("check", "2026-01-19", {"--state", "semi-dormant"});
  CHECK(desk.target("2026-01-20").at("state") != "dormant-season");
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
  CHECK(holds(taken("2025-10-15"), "16.7 C at 12:00, 5.1 cm, taken as a day mean of 16.7 C"));
  CHECK(!holds(taken("2025-12-15"), "taken as a day mean of 16.7 C"));
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
