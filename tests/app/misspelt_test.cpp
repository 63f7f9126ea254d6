// SPDX-License-Identifier: MIT
// What a hurried person types: one clear line back, and what was probably meant.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// A request that is refused at once, with all of these parts in its single line.
void check_misspelt(const Run& run, const std::vector<std::string>& parts) {
  CAPTURE(run.err);
  CHECK(run.code == 2);
  CHECK(run.problems() == 1);
  for (const std::string& part : parts) CHECK(holds(run.err, part));
}

const Desk& desk() {
  static const Desk one;
  return one;
}

std::string desk_weather() {
  static const std::string path = desk().file("course.csv", made_up_weather(make_day(2025, 6, 1), 500));
  return path;
}

Run advise(const std::vector<std::string>& more) {
  return desk().run(joined(with_place({"advise", "--weather", desk_weather()}), more));
}

}  // namespace

TEST_CASE("a misspelled target is met with the nearest one") {
  check_misspelt(advise({"--target", "P0AAN"}), {"'P0AAN'", "did you mean 'POAAN'?"});
  check_misspelt(advise({"--target", "anual bluegrass"}), {"did you mean 'annual bluegrass'?"});
  check_misspelt(advise({"--target", "POAAN,DIGIS"}), {"one target at a time"});
  CHECK(advise({"--target", "poaan"}).code == 0);
  CHECK(advise({"--target", "Annual Bluegrass"}).code == 0);
}

TEST_CASE("a day written in another order is refused and the days it can mean are named") {
  check_misspelt(advise({"--on", "15/10/2026"}), {"--on is not a date", "did you mean 2026-10-15?"});
  check_misspelt(advise({"--on", "10-15-2026"}), {"did you mean 2026-10-15?"});
  check_misspelt(advise({"--on", "5.10.2026"}), {"did you mean 2026-10-05 or 2026-05-10?"});
  check_misspelt(advise({"--on", "2026-2-9"}), {"did you mean 2026-02-09?"});
  check_misspelt(advise({"--on", "2026-02-29"}), {"a day that does not exist"});
  check_misspelt(advise({"--on", "today"}), {"leave --on out for today"});
  check_misspelt(advise({"--on", "next week"}), {"expected YYYY-MM-DD"});
  check_misspelt(desk().run({"soil", "--weather", desk_weather(), "--from", "1/2/2026"}),
                 {"--from is not a date", "2026-02-01 or 2026-01-02"});
  check_misspelt(
      desk().run({"soil", "--weather", desk_weather(), "--from", "2026-02-01", "--to", "2026-01-01"}),
      {"--to lies before --from"});
}

TEST_CASE("misspelled words of options are met with the nearest one, and capitals do not matter") {
  check_misspelt(advise({"--units", "ud"}), {"did you mean 'us'?"});
  check_misspelt(advise({"--format", "jsn"}), {"did you mean 'json'?"});
  CHECK(advise({"--units", "US", "--format", "JSON"}).code == 0);
  check_misspelt(advise({"--time-zone", "America/NewYork"}), {"did you mean 'America/New_York'?"});
  check_misspelt(advise({"--dates", "dayfirst"}), {"day-first, month-first or year-first"});
  check_misspelt(desk().run({"advise", "--weather", desk_weather(), "--irrigated", "maybe"}),
                 {"yes, no or millimeters a week"});
  check_misspelt(advise({"--irrigated", "no"}), {"--irrigated is given more than once"});
  check_misspelt(advise({"--targets", "POAAN"}), {"'--targets' is not an option", "did you mean --target?"});
  check_misspelt(advise({"--targets=POAAN"}), {"did you mean --target?"});
  check_misspelt(desk().run({"adivse"}), {"did you mean 'advise'?"});
  check_misspelt(desk().run({"help"}), {"soilclock --help"});
  check_misspelt(desk().run({"models", "POAAN_relaese"}), {"did you mean 'POAAN_release'?"});
}

TEST_CASE("words in the wrong order or without their option are answered by the right order") {
  check_misspelt(desk().run({"--sites", "courses.json", "advise"}),
                 {"'--sites' stands before the command", "soilclock advise --sites"});
  check_misspelt(desk().run({"advise", "courses.json"}), {"--sites courses.json"});
  check_misspelt(desk().run({"advise", "course.csv"}), {"--weather course.csv"});
  check_misspelt(advise({"second.csv"}), {"--weather second.csv"});
  check_misspelt(desk().run({"course.csv"}), {"is not a command", "advise"});
  check_misspelt(desk().run({"-v"}), {"options stand behind the command"});
  check_misspelt(desk().run({"advise", "--on"}), {"--on needs a value"});
  check_misspelt(desk().run({"advise"}), {"no site is named", "--sites FILE"});
  check_misspelt(desk().run({"inspect"}), {"no file is named"});
}

TEST_CASE("an option that would have no effect is refused, not forgotten") {
  const std::string sites = desk().file("one.json", site_line("a", "course.csv"));
  desk_weather();
  for (const std::vector<std::string>& stray : {std::vector<std::string>{"--latitude", "20"},
                                                {"--name", "x"},
                                                {"--forecast", "x.csv"},
                                                {"--probe", "x.csv"},
                                                {"--irrigated", "no"},
                                                {"--columns", "date,tmin,tmax"},
                                                {"--units-in", "F"},
                                                {"--dates", "day-first"},
                                                {"--time-zone", "UTC"},
                                                {"--shift-morning"}}) {
    check_misspelt(desk().run(joined({"advise", "--sites", sites}, stray)),
                   {"--sites and " + stray.front() + " cannot be used together"});
  }
  check_misspelt(desk().run({"advise", "--sites", sites, "--weather", desk_weather()}),
                 {"--sites and --weather"});
  check_misspelt(advise({"--only", "a"}), {"--only chooses from a site file"});
  check_misspelt(desk().run({"advise", "--sites", sites, "--only", "b"}),
                 {"no site of the file has this id"});
}

TEST_CASE("a place that cannot be meant is refused with the slip named") {
  const auto at = [](const std::string& latitude, const std::string& longitude,
                     const std::vector<std::string>& more = {}) {
    return desk().run(joined(
        {"advise", "--weather", desk_weather(), "--latitude", latitude, "--longitude", longitude}, more));
  };
  check_misspelt(at("-83.1", "35.6"), {"are latitude and longitude exchanged?"});
  check_misspelt(at("-97.5", "35.6"), {"are latitude and longitude exchanged?"});
  check_misspelt(at("35.6", "83.1", {"--time-zone", "America/New_York"}), {"did you mean -83.1?"});
  check_misspelt(at("35.6", "-183.1"), {"-180 to 180"});
  check_misspelt(at("35,6", "-83.1"), {"'35,6' is not a number"});
  check_misspelt(at("35.6N", "-83.1"), {"is not a number"});
  check_misspelt(desk().run({"advise", "--weather", desk_weather(), "--latitude", "35.6"}),
                 {"--longitude is missing"});
  check_misspelt(desk().run({"advise", "--weather", desk_weather(), "--longitude", "-83.1"}),
                 {"--latitude is missing"});
  CHECK(at("35.6", "-83.1", {"--time-zone", "America/New_York"}).code == 0);
  CHECK(at("35.6", "-83.1", {"--time-zone", "UTC"}).code == 0);  // a logger kept on universal time
  CHECK(at("53.4", "-6.3", {"--time-zone", "Europe/Dublin"}).code == 0);
  CHECK(at("-36.9", "174.8", {"--time-zone", "Pacific/Auckland"}).code == 0);
  CHECK(at("39.5", "76.0", {"--time-zone", "Asia/Shanghai"}).code == 0);  // the widest stray of a clock
}

TEST_CASE("temperatures and depths need a unit and a sensible number") {
  const auto sum = [](const std::vector<std::string>& more) {
    return desk().run(joined({"degree-days", "--weather", desk_weather()}, more));
  };
  check_misspelt(sum({"--lower", "10"}), {"with its unit", "10C or 50F"});
  check_misspelt(sum({"--lower", "-400C"}), {"from -60C to 60C"});
  check_misspelt(sum({"--lower", "50F", "--upper", "40F", "--cutoff", "horizontal"}),
                 {"upper threshold must lie above"});
  check_misspelt(sum({"--cutoff", "vertical"}), {"needs an upper threshold"});
  check_misspelt(sum({"--start", "02-30"}), {"'02-30'"});
  check_misspelt(sum({"--soil", "30cm"}), {"2.5cm to 15cm"});
  check_misspelt(desk().run({"soil", "--weather", desk_weather(), "--depth", "5"}), {"with its unit"});
  CHECK(sum({"--lower", "50f", "--upper", "86 F", "--cutoff", "horizontal"}).code == 0);
}
