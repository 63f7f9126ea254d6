// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

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

TEST_CASE("every option stands under one of four headings, in words and not in types of values") {
  const Desk desk;
  const std::vector<std::string> headings{"Site:", "Weather file:", "Answer:", "Advanced:"};
  std::map<std::string, std::string> value_of;
  for (const auto& command : app::all_commands()) {
    const std::string name = command->name();
    std::istringstream lines{desk.run({name, "--help"}).out};
    std::size_t under = headings.size();
    int options = 0;
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(name, line);
      for (const char* jargon : {"TEXT", "NUMBER", "FLOAT", " ... ", "manual"}) CHECK(!holds(line, jargon));
      const auto heading = std::find(headings.begin(), headings.end(), line);
      if (heading != headings.end()) {
        const auto next = static_cast<std::size_t>(heading - headings.begin());
        CHECK((under == headings.size() || next > under));  // in this order, each once
        under = next;
      } else if (!line.empty() && line.front() != ' ') {
        under = headings.size();
      }
      if (!line.starts_with("  -")) continue;
      ++options;
      CHECK(under < headings.size());
      CHECK(line.size() <= 110);
      // A name stands for one thing in all commands; the fields of a note are read as the note has them.
      std::istringstream words{line};
      std::string option;
      std::string value;
      words >> option >> value;
      const bool capitals =
          std::all_of(value.begin(), value.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
      if (!capitals || value == "VALUE") continue;
      CHECK(value_of.emplace(option, value).first->second == value);
    }
    CHECK(options >= 4);
  }
  CHECK(value_of.at("--from") == "DAY");
  CHECK(value_of.at("--below") == "TEMPERATURE");
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
