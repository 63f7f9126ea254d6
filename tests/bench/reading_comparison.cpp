// SPDX-License-Identifier: MIT
// A century of hourly readings (876,480 rows) made up in the build folder, read by ours, by sqlite3's import
// and by a plain pass over the bytes.
#include <fmt/format.h>

#include <array>
#include <charconv>
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

std::string bytes_of(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// To days only, as inspect reads.
weather::ParsedFile read_ours(const std::string& bytes, const std::string& path) {
  weather::ReadingOptions options;
  options.keep_hours = false;
  return weather::read_weather_text(bytes, path, options);
}

/// The least a program can do with these bytes, knowing all about them: cuts the lines, reads the numbers
/// with std::from_chars and sums the maximum of each day. Nothing is checked or kept.
double plain_pass(std::string_view text) {
  double sum = 0.0;
  double maximum = -1e9;
  std::string_view day;
  text.remove_prefix(text.find('\n') + 1);
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(line.size() + 1);
    if (line.substr(0, 10) != day) {
      sum += day.empty() ? 0.0 : maximum;
      maximum = -1e9;
      day = line.substr(0, 10);
    }
    std::array<double, 3> values{};
    const char* at = line.data() + 17;
    for (double& value : values) at = std::from_chars(at, line.data() + line.size(), value).ptr + 1;
    maximum = std::max(maximum, values[0]);
  }
  return sum + maximum;
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
  const std::string job = "hourly CSV, 876480 rows, to daily series";
  Comparison import{job, "sqlite3 .import as text, one max", 0.0, {}, "not run: no sqlite3", true};
  Comparison pass{job, "from_chars pass over the bytes", 0.0, {}, "", true};
  const std::string command =
      "sqlite3 :memory: '.mode csv' '.import " + written.path +
      " readings' 'select count(*), max(cast(air_temperature_c as real)) from readings'";
  std::vector<double> our_times;
  std::vector<double> our_times_in_memory;
  std::vector<double> import_times;
  std::vector<double> pass_times;
  for (int i = 0; i < repeats; ++i) {
    weather::ParsedFile reading;
    std::string bytes;
    const double loaded = seconds_of([&] { bytes = bytes_of(written.path); });
    our_times_in_memory.push_back(seconds_of([&] { reading = read_ours(bytes, written.path); }));
    our_times.push_back(loaded + our_times_in_memory.back());
    double sum = 0.0;
    pass_times.push_back(seconds_of([&] { sum = plain_pass(bytes); }));
    if (!right(reading, written) || std::abs(sum - written.sum_of_maxima) > 1e-6 * days) {
      import.answers_agree = pass.answers_agree = false;
      import.note = pass.note = reading.refusal ? describe(*reading.refusal)
                                                : fmt::format("{} days with data", reading.days_with_data);
    }
    std::optional<std::string> output;
    const double seconds = seconds_of([&] { output = output_of(command); });
    if (output && output->starts_with(std::to_string(days * hours))) import_times.push_back(seconds);
  }
  import.ours_s = middle(our_times);
  pass.ours_s = middle(our_times_in_memory);
  if (pass.answers_agree) {
    pass.other_s = middle(pass_times);
    pass.note = "both from memory; the other knows the layout and checks nothing";
  }
  if (import.answers_agree && import_times.size() == static_cast<std::size_t>(repeats)) {
    import.other_s = middle(import_times);
    import.note = "the other with its start; ours also checks and makes days";
  }
  std::remove(written.path.c_str());
  return {import, pass};
}

}  // namespace soilclock::bench
