// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "support/command_run.hpp"
#include "support/loopback_server.hpp"
#include "support/stand_in_weather.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// The words of a command line as a shell would cut them.
std::vector<std::string> shell_words(const std::string& line) {
  std::vector<std::string> words;
  std::string word;
  bool quoted = false;
  bool begun = false;
  for (const char c : line + " ") {
    if (c == '"') {
      quoted = !quoted;
      begun = true;
    } else if (c == ' ' && !quoted) {
      if (begun || !word.empty()) words.push_back(word);
      word.clear();
      begun = false;
    } else {
      word += c;
    }
  }
  return words;
}

/// The files the examples speak of, on a desk that is the working folder, and a service that answers.
class ExampleDesk : public Desk {
 public:
  ExampleDesk() : before_{std::filesystem::current_path()} {
    file("course.csv", source_text("weather_samples/millrace_nine.csv"));
    sample("copper_heron.csv");
    const Json sites{{{"id", "copper-heron"},
                      {"name", "Copper Heron"},
                      {"latitude", 35.6},
                      {"longitude", -83.1},
                      {"weather", {{{"file", "copper_heron.csv"}}, {{"service", "open-meteo"}}}}}};
    file("courses.json", sites.dump());
    file("counts.csv", "site,date,target,count\ncopper-heron,2026-10-12,POAAN,3\n");
    file("answer.json", stand_in_point(35.6, -83.1, make_day(2026, 9, 1), make_day(2026, 10, 14), 0, true));
    std::filesystem::create_directories(path("own-settings/soilclock"));
    file("own-settings/soilclock/services.json", settings_for(server_));
    std::filesystem::current_path(path("."));
  }
  ~ExampleDesk() { std::filesystem::current_path(before_); }

 private:
  LoopbackServer server_{
      [](const SeenRequest& request) { return stand_in_answer(request, make_day(2026, 10, 15)); }};
  std::filesystem::path before_;
};

}  // namespace

TEST_CASE("every command explains itself, with examples and exit codes") {
  const Desk desk;
  for (const auto& command : app::all_commands()) {
    CAPTURE(command->name());
    const Run help = desk.run({command->name(), "--help"});
    CHECK(help.code == 0);
    CHECK(help.err.empty());
    CHECK(holds(help.out, "soilclock " + command->name() + " "));
    CHECK(holds(help.out, command->purpose()));
    CHECK(holds(help.out, command->examples()));
    CHECK(holds(help.out, "Exit codes"));
  }
}

TEST_CASE("every example of every command works as it is printed") {
  const ExampleDesk desk;
  for (const auto& command : app::all_commands()) {
    std::istringstream examples{command->examples()};
    for (std::string line; std::getline(examples, line);) {
      CAPTURE(line);
      std::vector<std::string> words = shell_words(line);
      REQUIRE(words.size() > 1);
      CHECK(words.front() == "soilclock");
      words.erase(words.begin());
      const Run run = desk.run(words);
      CAPTURE(run.err);
      CHECK(run.code == 0);
      CHECK(!run.out.empty());
    }
  }
}

TEST_CASE("the program alone lists its commands") {
  const Desk desk;
  for (const std::vector<std::string>& words : {std::vector<std::string>{}, {"--help"}}) {
    const Run run = desk.run(words);
    CHECK(run.code == 0);
    for (const auto& command : app::all_commands()) CHECK(holds(run.out, command->name()));
  }
  CHECK(desk.run({"--version"}).out.starts_with("soilclock "));
}
