// SPDX-License-Identifier: MIT
// Sites that share a file share its reading, and each gets what it would have read by itself.
#include "app/kept_readings.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "report/inspection.hpp"
#include "support/command_run.hpp"
#include "weather/read_weather.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// Days about a mean, in any unit; `heading` names the columns.
std::string days_about(const std::string& heading, double mean, double range, int days) {
  std::string text = heading + "\n";
  for (int i = 0; i < days; ++i) {
    const double at = mean + 2.0 * std::sin(i * 1.7);
    text += fmt::format("{},{:.1f},{:.1f}\n", iso(make_day(2026, 1, 1) + Days{i}), at - range / 2.0,
                        at + range / 2.0);
  }
  return text;
}

weather::ReadingOptions at_latitude(std::optional<double> latitude) {
  weather::ReadingOptions options;
  if (latitude) options.place = Place{*latitude, -83.1, 200.0};
  return options;
}

std::string shown(const weather::ParsedFile& file) { return report::inspection_json({file}, true); }

}  // namespace

TEST_CASE("a shared reading is what each site would have read, wherever it lies") {
  std::vector<std::string> texts{made_up_weather(make_day(2025, 6, 1), 501), "not weather at all\n", ""};
  for (const std::string unit : {"c", "f"}) {
    const std::string heading = "date,tmin_" + unit + ",tmax_" + unit;
    for (const int days : {3, 12, 40, 400}) {
      for (const double mean : {2.0, 12.0, 22.0, 32.0, 42.0, 60.0})
        texts.push_back(days_about(heading, mean, 9.0, days));
    }
    texts.push_back(days_about("date,tmin_" + unit + ",soil_5cm_" + unit, 30.0, 9.0, 40));
  }
  texts.push_back(days_about("date,tmin,tmax", 24.0, 9.0, 60));
  texts.push_back("# latitude: 35.6\n# longitude: -83.1\n" + days_about("date,tmin_c,tmax_c", 42.0, 9.0, 60));
  int judged_by_place = 0;
  std::size_t shared = 0;
  for (const std::string& text : texts) {
    app::KeptReadings readings;
    std::set<std::string> all;
    std::size_t asked = 0;
    for (const auto& latitude :
         {std::optional{35.6}, std::optional{35.7}, std::optional{25.0}, std::optional{48.0},
          std::optional{64.0}, std::optional{-35.6}, std::optional<double>{}, std::optional{36.0}}) {
      CAPTURE(text.substr(0, 60), latitude.value_or(0.0));
      const auto options = at_latitude(latitude);
      const std::string alone = shown(weather::read_weather_text(text, "t.csv", options));
      CHECK(shown(readings.read(text, "t.csv", options, "")) == alone);
      all.insert(alone);
      ++asked;
    }
    judged_by_place += all.size() > 1 ? 1 : 0;
    shared += asked - readings.times_read();
  }
  CHECK(judged_by_place > 5);
  CHECK(shared > texts.size());
}

TEST_CASE("sites on both sides of a small step read a file once, and other bytes or options read it anew") {
  app::KeptReadings readings;
  const std::string text = made_up_weather(make_day(2025, 6, 1), 501);
  for (int i = 0; i < 50; ++i) readings.read(text, "t.csv", at_latitude(35.6 + 0.01 * i), "");
  CHECK(readings.times_read() == 1);
  const std::string longer = made_up_weather(make_day(2025, 6, 1), 502);
  CHECK(readings.read(longer, "t.csv", at_latitude(35.6), "").days_with_data == 502);
  CHECK(readings.times_read() == 2);
  weather::ReadingOptions other = at_latitude(35.6);
  other.shift_morning_observations = true;
  readings.read(longer, "t.csv", other, "");
  CHECK(readings.times_read() == 3);
  readings.read(longer, "u.csv", other, "");
  CHECK(readings.times_read() == 4);
}

TEST_CASE("readings are kept while there is room, those asked for last the longest, and those of a course") {
  const std::string text = made_up_weather(make_day(2025, 6, 1), 501);
  const std::size_t one = text.size() + 501 * 40;
  const auto options = at_latitude(35.6);
  const auto times = [&](std::size_t room, const std::string& course, const std::vector<std::string>& names) {
    app::KeptReadings readings{room};
    for (const std::string& name : names) readings.read(text, name, options, course);
    return readings.times_read();
  };
  CHECK(times(3 * one, "", {"a", "b", "c", "a", "b", "c"}) == 3);
  CHECK(times(2 * one, "", {"a", "b", "a", "c", "a", "b"}) == 4);
  CHECK(times(one / 2, "", {"a", "a"}) == 2);
  CHECK(times(one / 2, "course", {"a", "b", "c", "a", "b", "c"}) == 3);

  app::KeptReadings readings{one};
  for (const char* name : {"a", "b"}) readings.read(text, name, options, "course");
  readings.read(text, "c", options, "");  // goes itself, or sends one of the earlier ones away
  for (const char* name : {"a", "b"}) readings.read(text, name, options, "other course");
  CHECK(readings.times_read() == 5);
}
