// SPDX-License-Identifier: MIT
// Reads weather texts in tests: from the test itself, and from the folder of measured records.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include "support/record_files.hpp"
#include "weather/read_weather.hpp"

namespace weather_texts {

using soilclock::Day;
using soilclock::tests::record_folder;
using soilclock::tests::reference_file;
using soilclock::tests::reference_files;
using soilclock::weather::Outcome;
using soilclock::weather::ParsedFile;
using soilclock::weather::ReadingOptions;

inline ParsedFile read(std::string_view text, const ReadingOptions& options = {}) {
  return soilclock::weather::read_weather_text(text, "t.csv", options);
}

inline ReadingOptions with_columns(std::string columns) {
  ReadingOptions options;
  options.columns = std::move(columns);
  return options;
}

inline ReadingOptions with_units(std::string units) {
  ReadingOptions options;
  options.units_in = std::move(units);
  return options;
}

inline std::string word(Outcome outcome) {
  return outcome == Outcome::ok ? "ok" : outcome == Outcome::warn ? "warn" : "error";
}

/// All doubts and the refusal in one text, for searching and for messages of failed checks.
inline std::string said(const ParsedFile& reading) {
  std::string all;
  for (const auto& doubt : reading.doubts) {
    all += std::to_string(doubt.line.value_or(0)) + ":" + std::to_string(doubt.column.value_or(0)) + " " +
           doubt.text + "\n";
  }
  if (reading.refusal) all += soilclock::describe(*reading.refusal) + "\n";
  return all;
}

inline bool says(const ParsedFile& reading, std::string_view part) {
  return said(reading).find(part) != std::string::npos;
}

/// Celsius or millimeters of a day; not-a-number when missing.
inline double low(const ParsedFile& reading, std::string_view day) {
  return reading.daily.air_min.at(*soilclock::parse_iso_day(day))
      .value_or(soilclock::Temperature::unknown())
      .celsius();
}
inline double high(const ParsedFile& reading, std::string_view day) {
  return reading.daily.air_max.at(*soilclock::parse_iso_day(day))
      .value_or(soilclock::Temperature::unknown())
      .celsius();
}
inline double rain(const ParsedFile& reading, std::string_view day) {
  return reading.daily.rain.at(*soilclock::parse_iso_day(day)).value_or(soilclock::Rain::unknown()).mm();
}
inline double soil(const ParsedFile& reading, double depth_cm, std::string_view day) {
  for (const auto& [depth, series] : reading.daily.soil) {
    if (depth.cm() > depth_cm - 0.01 && depth.cm() < depth_cm + 0.01) {
      return series.at(*soilclock::parse_iso_day(day)).value_or(soilclock::Temperature::unknown()).celsius();
    }
  }
  return soilclock::Temperature::unknown().celsius();
}

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

inline ParsedFile read_file(const std::filesystem::path& path, const ReadingOptions& options = {}) {
  return soilclock::weather::read_weather_text(bytes_of(path), path.filename().string(), options);
}

}  // namespace weather_texts
