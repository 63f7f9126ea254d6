// SPDX-License-Identifier: MIT
// Several sites at once: one that fails does not stop the others, and the exit code tells.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::vector<Json> json_lines(const std::string& text) {
  std::vector<Json> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(Json::parse(line));
  return lines;
}

std::string good_weather(const Desk& desk) {
  return desk.file("good.csv", made_up_weather(make_day(2025, 6, 1), 501));
}

}  // namespace

TEST_CASE("one site that fails leaves the others answered, and the exit code is 1") {
  const Desk desk;
  const std::string good = good_weather(desk);
  const std::string sites =
      desk.file("s.json", "[" + site_line("a", good) + "," + site_line("b", desk.path("absent.csv")) + "," +
                              site_line("c", desk.file("empty.csv", "")) + "," + site_line("d", good) + "]");
  const Run run = desk.run({"advise", "--sites", sites, "--format", "json"});
  CHECK(run.code == 1);
  CHECK(run.problems() == 2);
  CHECK(holds(run.err, "soilclock: b: "));
  CHECK(holds(run.err, "soilclock: c: "));
  const Json answer = run.json();
  REQUIRE(answer.at("sites").size() == 4);
  CHECK(answer.at("sites")[0].at("targets").size() == 1);
  CHECK(answer.at("sites")[3].at("targets").size() == 1);
  const Json& failed = answer.at("sites")[1];
  CHECK(failed.at("site") == "b");
  CHECK(failed.at("latitude") == 35.6);
  CHECK(failed.at("targets").empty());
  CHECK(holds(failed.at("problems")[0].at("file").get<std::string>(), "absent.csv"));
  CHECK(failed.at("soil").at("error_c").is_null());

  const Run table = desk.run({"advise", "--sites", sites, "--format", "csv"});
  CHECK(table.code == 1);
  const auto rows = csv_rows(table.out);
  REQUIRE(rows.size() == 5);
  for (const auto& row : rows) CHECK(row.size() == rows.front().size());
  // Those that failed come last, in the order of the input.
  CHECK(rows[3][1] == "b");
  CHECK(rows[4][1] == "c");
  CHECK(holds(rows[3][rows[3].size() - 2], "there is no such file"));
  CHECK(desk.run({"advise", "--sites", sites}).code == 1);
  CHECK(desk.run({"season", "--sites", sites, "--format", "csv"}).code == 1);
}

TEST_CASE("when no site is answered the exit code is that of the first failure") {
  const Desk desk;
  const std::string absent = desk.path("absent.csv");
  const std::string empty = desk.file("empty.csv", "");
  const auto code = [&](const std::string& first, const std::string& second) {
    return desk
        .run({"advise", "--sites",
              desk.file("s.json", "[" + site_line("a", first) + "," + site_line("b", second) + "]")})
        .code;
  };
  CHECK(code(absent, empty) == 2);
  CHECK(code(empty, absent) == 3);
}

TEST_CASE(
    "with sites on standard input each line in gives one line out, in order, and a bad line stops nothing") {
  const Desk desk;
  const std::string good = good_weather(desk);
  const std::string input = site_line("first", good) + "\n{\"id\":\"no place\"}\n{not json\n\n" +
                            site_line("absent", desk.path("no.csv")) + "\n[" + site_line("x", good) + "," +
                            site_line("y", good) + "]\n" + std::string(5, '\0') + "\n" +
                            site_line("last", good) + "\n";
  const Run run = desk.run({"advise", "--sites", "-", "--format", "json"}, input);
  CHECK(run.code == 1);
  const std::vector<Json> lines = json_lines(run.out);
  REQUIRE(lines.size() == 7);  // the blank line is none
  std::vector<std::string> ids;
  for (const Json& line : lines) {
    CHECK(line.at("format") == "soilclock-advice");
    REQUIRE(line.at("sites").size() == 1);
    ids.push_back(line.at("sites")[0].at("site").get<std::string>());
  }
  CHECK(ids == std::vector<std::string>{"first", "", "", "absent", "", "", "last"});
  CHECK(lines[0].at("sites")[0].at("targets").size() == 1);
  CHECK(lines[6].at("sites")[0].at("targets").size() == 1);
  // What is not known is null, never nought.
  CHECK(lines[1].at("sites")[0].at("latitude").is_null());
  CHECK(holds(lines[1].at("sites")[0].at("problems")[0].at("text").get<std::string>(),
              "standard input line 2"));
  CHECK(holds(lines[2].at("sites")[0].at("problems")[0].at("text").get<std::string>(),
              "standard input line 3"));
  CHECK(run.problems() == 5);
  CHECK(!holds(run.err, "soilclock: : "));
}

TEST_CASE("standard input that holds no site, or another form than lines, is a wrong request") {
  const Desk desk;
  for (const std::string& nothing : {std::string{}, std::string{"\n  \n"}}) {
    const Run run = desk.run({"advise", "--sites", "-", "--format", "json"}, nothing);
    CHECK(run.code == 2);
    CHECK(holds(run.err, "standard input holds no site"));
  }
  CHECK(holds(desk.run({"advise", "--sites", "-"}, "{}").err, "--format json"));
  CHECK(desk.run({"advise", "--sites", "-", "--only", "a", "--format", "json"}, "{}").code == 2);
  for (const std::string command : {"season", "soil", "degree-days"}) {
    const Run run = desk.run({command, "--sites", "-"}, "{}");
    CHECK(run.code == 2);
    CHECK(holds(run.err, "only advise takes sites on standard input"));
  }
  CHECK(desk.run({"advise", "--sites", "-", "--format", "json"}, "{}").code == 2);  // all lines wrong
}

TEST_CASE("a line answers as its site does in a file") {
  const Desk desk;
  const std::string site = site_line("a", good_weather(desk));
  const Json line =
      json_lines(desk.run({"advise", "--sites", "-", "--format", "json"}, site + "\n").out).at(0);
  const Json file = desk.run({"advise", "--sites", desk.file("s.json", site), "--format", "json"}).json();
  CHECK(line == file);
}

TEST_CASE("sites answered at the same time give the same bytes, messages and exit code") {
  const Desk desk;
  const std::string good = good_weather(desk);
  const std::string warm = desk.file("warm.csv", made_up_weather(make_day(2024, 1, 1), 1020));
  const std::string absent = desk.path("no.csv");
  std::vector<std::string> lines;
  for (int i = 0; i < 9; ++i)
    lines.push_back(site_line("site-" + std::to_string(i), i % 4 == 3 ? absent : i % 2 == 0 ? good : warm));
  Json course = Json::parse(site_line("with areas", good));
  course["areas"] = {{{"name", "tee"}}, {{"name", "green"}, {"soil", {{"offset_c", -2.0}}}}};
  course["group"] = "north";
  lines.insert(lines.begin() + 4, course.dump());
  std::string input;
  std::string list;
  for (const std::string& line : lines) {
    input += line + "\n" + (line.size() % 2 == 0 ? "{not json\n\n" : "");
    list += (list.empty() ? "[" : ",") + line;
  }
  const std::string sites = desk.file("s.json", list + "]");
  for (const std::vector<std::string>& how : std::vector<std::vector<std::string>>{
           {"-", "json"}, {sites, "json"}, {sites, "csv"}, {sites, "text"}}) {
    CAPTURE(how[0], how[1]);
    const std::vector<std::string> words{"advise", "--sites", how[0], "--format", how[1]};
    const Run one = desk.run(words, input);
    CHECK(one.code == 1);
    CHECK(!one.out.empty());
    for (const char* jobs : {"1", "2", "7"}) {
      std::vector<std::string> together = words;
      together.insert(together.end(), {"--jobs", jobs});
      const Run several = desk.run(together, input);
      CHECK(several.code == one.code);
      CHECK(several.out == one.out);
      CHECK(several.err == one.err);
    }
  }
  for (const char* jobs : {"0", "-1", "257", "two"}) {
    const Run refused = desk.run({"advise", "--sites", sites, "--jobs", jobs});
    CHECK(refused.code == 2);
    CHECK(refused.problems() == 1);
    CHECK(holds(refused.err, "--jobs"));
  }
}

TEST_CASE("control characters of a site's id do not reach the terminal") {
  const Desk desk;
  const std::string sites = desk.file(
      "s.json", exchanged(site_line("a", desk.path("absent.csv")), R"("a")", R"("a\u001b[31m\nb")"));
  const Run run = desk.run({"advise", "--sites", sites});
  CHECK(!holds(run.err + run.out, "\x1b"));
  CHECK(run.problems() == 1);
  const std::string soil =
      desk.file("t.json", exchanged(site_line("a", good_weather(desk)), R"("a")", R"("a\u001b[31m\nb")"));
  for (const std::string command : {"soil", "degree-days", "season", "advise"}) {
    CAPTURE(command);
    CHECK(!holds(desk.run({command, "--sites", soil}).out, "\x1b"));
  }
}
