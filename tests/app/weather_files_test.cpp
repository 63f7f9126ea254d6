// SPDX-License-Identifier: MIT
// Weather files of every bad shape, at the command line: one clear message that names the file, and the right
// exit code.
#include <sys/stat.h>
#include <catch2/catch.hpp>

#include <fstream>
#include <thread>

#include "support/command_run.hpp"
#include "support/record_files.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const char* heading = "date,tmin_c,tmax_c,rain_mm\n";

Run advise(const Desk& desk, const std::string& path, const std::vector<std::string>& more = {}) {
  return desk.run(joined(with_place({"advise", "--weather", path, "--format", "json"}), more));
}

struct BadText {
  std::string name;
  std::string text;
  std::string said;
};

/// A table of so many days with one row exchanged.
std::string spoilt(const std::string& row) {
  return heading + std::string{"2026-10-01,5,15,0\n"} + row + "\n2026-10-03,5,15,0\n";
}

}  // namespace

TEST_CASE("every weather text that cannot be used gives one message with its file, and exit code 3") {
  const Desk desk;
  const BadText bad = GENERATE(values<BadText>({
      {"empty.csv", "", "empty"},
      {"blank.csv", "\n\n  \n", "blank.csv"},
      {"header.csv", heading, "header.csv"},
      {"page.csv", "<!DOCTYPE html><html><body>Not found</body></html>\n", "web page"},
      {"workbook.xlsx", std::string{"PK\x03\x04\x14\0\6\0", 8} + "xl/worksheets/sheet1.xml", "workbook"},
      {"packed.gz", std::string{"\x1f\x8b\x08\0\0\0\0\0\0\3", 10} + std::string(50, '\7'), "binary"},
      {"nul.csv", heading + std::string(200, '\0') + "\2\3\n2026-10-01,5,15,0\n", "binary"},
      {"impossible.csv", spoilt("2026-02-30,5,15,0"), "impossible.csv:3"},
      {"ambiguous.csv", "date,tmin_c,tmax_c\n5/6/2026,5,15\n", "ambiguous.csv"},
      {"contradiction.csv", "date,tmin_c,tmax_c\n13/1/2026,5,15\n1/14/2026,5,15\n", "contradiction.csv"},
      {"conflict.csv", spoilt("2026-10-01,6,19,0"), "conflict.csv"},
      {"nameless.csv", "20230315,3.1,14.2,0.0\n20230316,4.1,15.2,0.0\n", "--columns"},
      {"prose.txt", "Dear superintendent,\nplease find the weather attached.\n", "prose.txt"},
      {"json.json", "{\"error\":true,\"reason\":\"limit\"}", "json.json"},
  }));
  const std::string path = desk.file(bad.name, bad.text);
  const Run run = advise(desk, path);
  CAPTURE(bad.name, run.err);
  CHECK(run.code == 3);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, path));
  CHECK(holds(run.err, bad.said));
  CHECK(run.err.size() < 500);
  CHECK(run.json().at("sites")[0].at("problems").size() == 1);

  const Run inspected = desk.run({"inspect", path, "--format", "json"});
  CHECK(inspected.code == 3);
  CHECK(inspected.problems() == 1);
  CHECK(inspected.json().at("files")[0].at("outcome") == "error");
}

TEST_CASE("every error shape of the collected files gives one message and exit code 3", "[records]") {
  const auto folder = record_folder("csv_shapes");
  const Desk desk;
  int refused = 0;
  for (const auto& row : csv_rows([&] {
         std::ifstream in{folder / "expected.csv", std::ios::binary};
         return std::string{std::istreambuf_iterator<char>{in}, {}};
       }())) {
    if (row.size() < 2 || row[1] == "outcome") continue;
    const Run run = desk.run(
        {"inspect", (folder / row[0]).string(), "--time-zone", "America/New_York", "--format", "json"});
    CAPTURE(row[0], run.err);
    CHECK(run.json().at("files")[0].at("outcome") == row[1]);
    CHECK(run.code == (row[1] == "error" ? 3 : 0));
    CHECK(run.problems() == (row[1] == "error" ? 1 : 0));
    refused += run.code == 3 ? 1 : 0;
  }
  CHECK(refused >= 8);
}

TEST_CASE("a file that is not there, a folder and a name that goes through a file are wrong requests") {
  const Desk desk;
  const std::string file = desk.file("course.csv", made_up_weather(make_day(2026, 1, 1), 100));
  struct Name {
    std::string path;
    std::string said;
  };
  for (const Name& name :
       {Name{desk.path("absent.csv"), "there is no such file"}, Name{desk.path("."), "this is a folder"},
        Name{file + "/x", "there is no such file"},
        Name{"C:\\Users\\me\\course.csv", "there is no such file"}, Name{std::string(5000, 'x'), ""}}) {
    for (const std::string option : {"--weather", "--forecast", "--probe"}) {
      std::vector<std::string> words{"advise", "--weather", file, option, name.path};
      const Run run = desk.run(with_place(words));
      CAPTURE(run.err);
      CHECK((run.code == 2 || name.said.empty()));
      CHECK(run.code != 70);
      CHECK(run.problems() == 1);
      CHECK(holds(run.err, name.said));
    }
  }
}

TEST_CASE("devices and pipes are read like files") {
  const Desk desk;
  const Run nothing = advise(desk, "/dev/null");
  CHECK(nothing.code == 3);
  CHECK(holds(nothing.err, "/dev/null: the file is empty"));
  const std::string pipe = desk.path("pipe");
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  std::thread writer{[&] {
    std::ofstream out{pipe};
    out << made_up_weather(make_day(2025, 6, 1), 501);
  }};
  const Run piped = advise(desk, pipe);
  writer.join();
  CHECK(piped.code == 0);
}

TEST_CASE("a huge line does not stop the reading of a file") {
  const Desk desk;
  const std::string path =
      desk.file("huge.csv", made_up_weather(make_day(2025, 6, 1), 501) + std::string(3'000'000, 'x') + "\n");
  const Run run = advise(desk, path);
  CHECK(run.code == 0);
  CHECK(run.out.size() < 200'000);
}

TEST_CASE("one file given twice changes nothing, and files that contradict each other are said") {
  const Desk desk;
  const std::string path = desk.file("one.csv", made_up_weather(make_day(2025, 6, 1), 501));
  const auto target = [](const Run& run) { return run.json().at("sites")[0].at("targets")[0]; };
  const Run twice = advise(desk, path, {"--weather", path});
  CHECK(target(twice) == target(advise(desk, path)));
  std::string other = made_up_weather(make_day(2025, 6, 1), 501);
  const auto row = other.find("2026-09-01,");
  other.replace(row, other.find('\n', row) - row, "2026-09-01,12.0,31.0,0.0");
  const std::string warmer = desk.file("warmer.csv", other);
  const Run differing = advise(desk, path, {"--weather", warmer});
  CHECK(differing.code == 0);
  CHECK(holds(differing.out, "differs from the files named before it on 1 day"));
}

TEST_CASE("weather that ends too long ago, or has not begun, is refused by its dates") {
  const Desk desk;
  struct Span {
    Day first;
    int days;
    int code;
    std::string said;
  };
  const Day today = make_day(2026, 10, 15);
  const Span span = GENERATE_COPY(values<Span>({
      {today - Days{500}, 490, 0, ""},  // ends eleven days before: ten days are not known
      {today - Days{500}, 489, 3, "the weather ends on 2026-10-03"},
      {today - Days{14}, 1, 3, "the weather ends on 2026-10-01"},
      {today, 30, 3, "no day before 2026-10-15"},
      {make_day(1900, 1, 1), 400, 3, "the weather ends on 1901-02-04"},
  }));
  const Run run = advise(desk, desk.file("span.csv", made_up_weather(span.first, span.days)));
  CAPTURE(run.err, span.days);
  CHECK(run.code == span.code);
  CHECK(run.problems() == (span.code == 0 ? 0 : 1));
  CHECK(holds(run.err, span.said));
}

TEST_CASE("on one screen a problem is said once, elsewhere on both streams") {
  Desk desk;
  const std::string old = desk.file("old.csv", made_up_weather(make_day(2020, 1, 1), 400));
  const auto text = [&] { return desk.run(with_place({"advise", "--weather", old})); };
  const Run apart = text();
  CHECK(holds(apart.err, "the weather ends on"));
  CHECK(holds(apart.out, "the weather ends on"));
  desk.one_screen = true;
  const Run together = text();
  CHECK(together.err.empty());
  CHECK(holds(together.out, "the weather ends on"));
  CHECK(together.code == apart.code);
  CHECK(!advise(desk, old).err.empty());  // JSON
}

TEST_CASE("a forecast alone is no record") {
  const Desk desk;
  const std::string forecast = desk.file("forecast.csv", made_up_weather(make_day(2026, 10, 15), 10));
  const Run named = advise(desk, forecast);
  CHECK(named.code == 3);
  const Json site{{"id", "a"},
                  {"latitude", 35.6},
                  {"longitude", -83.1},
                  {"weather", {{{"file", forecast}, {"role", "forecast"}}}}};
  const Run run = desk.run({"advise", "--sites", desk.file("s.json", site.dump())});
  CAPTURE(run.err);
  CHECK(run.code == 3);
  CHECK(run.problems() == 1);
}
