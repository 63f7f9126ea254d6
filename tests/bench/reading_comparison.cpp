// SPDX-License-Identifier: MIT
// A century of hourly readings (876,480 rows) made up in the build folder, read by ours and by sqlite3's
// import.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <numbers>
#include <sstream>

#include "bench/comparison.hpp"
#include "core/random.hpp"
#include "weather/read_weather.hpp"

namespace soilclock::bench {

namespace {

constexpr int days = 36520;
constexpr int hours = 24;
constexpr int repeats = 3;
const Day first = make_day(1920, 1, 1);

/// What the file says, known from its making.
struct Written {
  std::string path;
  double sum_of_maxima = 0.0;
};

Written write_century() {
  Written written{in_build_folder("hourly_century.csv"), 0.0};
  const RandomField noise{11};
  std::string text = "timestamp,air_temperature_c,precipitation_mm,relative_humidity\n";
  for (int d = 0; d < days; ++d) {
    const Day day = first + Days{d};
    double maximum = -1e9;
    for (int hour = 0; hour < hours; ++hour) {
      const auto index = static_cast<std::uint64_t>(d * hours + hour);
      const double wave = 13.0 - 10.0 * std::cos(2.0 * std::numbers::pi * d / 365.25) -
                          5.0 * std::cos(2.0 * std::numbers::pi * (hour - 3) / 24.0);
      const double value = std::round(10.0 * (wave + 2.0 * (noise.uniform(0, index) - 0.5))) / 10.0;
      maximum = std::max(maximum, value);
      const double rain = noise.uniform(1, index) > 0.95 ? 1.2 : 0.0;
      text += fmt::format("{} {:02}:00,{:.1f},{:.1f},{:.0f}\n", iso(day), hour, value, rain,
                          40.0 + 50.0 * noise.uniform(2, index));
    }
    written.sum_of_maxima += maximum;
  }
  std::ofstream{written.path, std::ios::binary} << text;
  return written;
}

weather::ParsedFile read_ours(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return weather::read_weather_text(bytes.str(), path, {});
}

/// Whether every day is there and the maxima are those written.
bool right(const weather::ParsedFile& reading, const Written& written) {
  double sum = 0.0;
  for (const Temperature value : reading.daily.air_max.values()) sum += value.celsius();
  return reading.days_with_data == days && std::abs(sum - written.sum_of_maxima) < 1e-6 * days;
}

}  // namespace

std::vector<Comparison> compare_hourly_reading() {
  const Written written = write_century();
  Comparison row{"hourly CSV, 876480 rows, to daily series",
                 "sqlite3 .import as text, one max",
                 0.0,
                 {},
                 "not run: no sqlite3",
                 true};
  const std::string command =
      "sqlite3 :memory: '.mode csv' '.import " + written.path +
      " readings' 'select count(*), max(cast(air_temperature_c as real)) from readings'";
  std::vector<double> our_times;
  std::vector<double> other_times;
  for (int i = 0; i < repeats; ++i) {
    weather::ParsedFile reading;
    our_times.push_back(seconds_of([&] { reading = read_ours(written.path); }));
    if (!right(reading, written)) {
      row.answers_agree = false;
      row.note = reading.refusal ? describe(*reading.refusal)
                                 : fmt::format("{} days with data", reading.days_with_data);
    }
    std::optional<std::string> output;
    const double seconds = seconds_of([&] { output = output_of(command); });
    if (output && output->starts_with(std::to_string(days * hours))) other_times.push_back(seconds);
  }
  row.ours_s = middle(our_times);
  if (row.answers_agree && other_times.size() == static_cast<std::size_t>(repeats)) {
    row.other_s = middle(other_times);
    row.note = "the other with its start; ours also checks and makes days";
  }
  std::remove(written.path.c_str());
  return {row};
}

}  // namespace soilclock::bench
