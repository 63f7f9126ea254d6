// SPDX-License-Identifier: MIT
// The program's command line called inside the test, with a desk of its own: a folder for files, no records
// of the person who runs the tests, and a day that is today.
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "app/command_line.hpp"
#include "support/source_texts.hpp"
#include "support/temporary_folder.hpp"

namespace soilclock::tests {

using Json = nlohmann::json;

/// What one command line gave.
struct Run {
  int code = -1;
  std::string out;
  std::string err;
  Json json() const { return Json::parse(out); }
  /// Lines of the error stream that name a problem.
  int problems() const {
    int count = 0;
    std::istringstream lines{err};
    for (std::string line; std::getline(lines, line);) count += line.starts_with("soilclock: ") ? 1 : 0;
    return count;
  }
};

class Desk {
 public:
  Desk() {
    setenv("XDG_DATA_HOME", folder_.file("own-records").c_str(), 1);
    setenv("XDG_CONFIG_HOME", folder_.file("own-settings").c_str(), 1);
  }

  Run run(const std::vector<std::string>& arguments, const std::string& input = "") const {
    std::istringstream in{input};
    std::ostringstream out;
    std::ostringstream err;
    app::Streams streams{in,
                         out,
                         err,
                         date::floor<Days>(now),
                         [this] { return now; },
                         [this](std::chrono::milliseconds length) { pauses.push_back(length); },
                         false,
                         one_screen};
    Run result;
    result.code = app::run_command_line(arguments, streams);
    result.out = out.str();
    result.err = err.str();
    keep_document(result.out);
    return result;
  }

  bool one_screen = false;
  Instant now = Instant{make_day(2026, 10, 15)} + std::chrono::hours{12};
  mutable std::vector<std::chrono::milliseconds> pauses;  ///< asked for and not waited for

  /// Writes a file on the desk and gives its path.
  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream out{folder_.file(name), std::ios::binary};
    out << text;
    return folder_.file(name);
  }
  std::string path(const std::string& name) const { return folder_.file(name); }

  /// A sample of the source tree, copied to the desk.
  std::string sample(const std::string& name) const {
    return file(name, source_text("weather_samples/" + name));
  }

 private:
  /// JSON goes into the folder $SOILCLOCK_KEEP_DOCUMENTS, where one is named: another test holds it against
  /// the schemas.
  static void keep_document(const std::string& text) {
    const char* folder = std::getenv("SOILCLOCK_KEEP_DOCUMENTS");
    if (folder == nullptr || !text.starts_with('{')) return;
    std::filesystem::create_directories(folder);
    const std::string name = std::to_string(std::hash<std::string>{}(text)) + ".json";
    std::ofstream{std::filesystem::path{folder} / name, std::ios::binary} << text;
  }

  TemporaryFolder folder_;
};

/// The place of the samples' first course, as options.
inline std::vector<std::string> with_place(std::vector<std::string> arguments) {
  arguments.insert(arguments.end(), {"--latitude", "35.6", "--longitude", "-83.1", "--irrigated", "yes"});
  return arguments;
}

inline std::vector<std::string> joined(std::vector<std::string> first, const std::vector<std::string>& more) {
  first.insert(first.end(), more.begin(), more.end());
  return first;
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// A table of daily weather: a smooth made-up year, warmest in July, from `first` for so many days.
inline std::string made_up_weather(Day first, int days) {
  std::string text = "date,tmin_c,tmax_c,rain_mm\n";
  for (int i = 0; i < days; ++i) {
    const Day day = first + Days{i};
    const double mean = 14.0 - 12.0 * std::cos((day_of_year(day) - 20) * 2.0 * 3.14159265 / 365.25);
    char row[64];
    std::snprintf(row, sizeof row, "%s,%.1f,%.1f,%.1f\n", iso(day).c_str(), mean - 5.0 + i % 3,
                  mean + 5.0 + i % 4, i % 5 == 0 ? 6.0 : 0.0);
    text += row;
  }
  return text;
}

/// One site as a line of JSON.
inline std::string site_line(const std::string& id, const std::string& weather_file) {
  return Json{{"id", id},
              {"latitude", 35.6},
              {"longitude", -83.1},
              {"turf", {{"irrigated", true}}},
              {"weather", {{{"file", weather_file}}}}}
      .dump();
}

/// The rows of comma-separated values as RFC 4180 has them, read by a second, short route.
inline std::vector<std::vector<std::string>> csv_rows(const std::string& text) {
  std::vector<std::vector<std::string>> rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"')
        rows.back().back() += c;
      else if (i + 1 < text.size() && text[i + 1] == '"')
        rows.back().back() += text[++i];
      else
        quoted = false;
    } else if (c == '"')
      quoted = true;
    else if (c == ',')
      rows.back().emplace_back();
    else if (c == '\n')
      rows.push_back({""});
    else
      rows.back().back() += c;
  }
  rows.pop_back();  // what follows the last line end
  return rows;
}

}  // namespace soilclock::tests
