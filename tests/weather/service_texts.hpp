// SPDX-License-Identifier: MIT
// Answers of weather services in tests: reading them, asking what came out, and making invented ones.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "weather/services/service_answer.hpp"
#include "weather_texts.hpp"

namespace service_texts {

using soilclock::Day;
using soilclock::Instant;
using soilclock::TimeZone;
using soilclock::weather::AnswerSeries;
using soilclock::weather::read_service_answer;
using soilclock::weather::ServiceAnswer;

inline soilclock::Result<ServiceAnswer> answer(std::string_view text,
                                               const soilclock::weather::ReadingOptions& options = {}) {
  return read_service_answer(text, "answer.json", options);
}

/// The refusal as one line, empty when the answer is read.
inline std::string refusal(std::string_view text, const soilclock::weather::ReadingOptions& options = {}) {
  const auto result = answer(text, options);
  return result ? std::string{} : soilclock::describe(result.error());
}

inline soilclock::weather::ReadingOptions in_zone(std::string_view name) {
  soilclock::weather::ReadingOptions options;
  options.time_zone = *TimeZone::named(name);
  return options;
}

inline bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// Everything that was read, as text: equal texts are equal readings.
inline std::string signature(const soilclock::weather::ParsedFile& reading) {
  using soilclock::Day;
  using soilclock::Days;
  std::string all = reading.step + "|" + reading.daily.day_definition + "|";
  if (reading.first_date) {
    for (Day day = *reading.first_date - Days{1}; day <= *reading.last_date; day += Days{1}) {
      const auto low = reading.daily.air_min.at(day);
      const auto high = reading.daily.air_max.at(day);
      const auto rain = reading.daily.rain.at(day);
      all +=
          fmt::format("{} {:.6f} {:.6f} {:.6f}\n", soilclock::iso(day), low ? low->celsius() : std::nan(""),
                      high ? high->celsius() : std::nan(""), rain ? rain->mm() : std::nan(""));
    }
  }
  for (const auto& hour : reading.hours) {
    all += fmt::format("{} {} {:.6f} {:.6f} {:.6f} {:.6f}\n", soilclock::iso(hour.day), hour.minute_of_day,
                       hour.air ? hour.air->celsius() : std::nan(""),
                       hour.humidity_percent.value_or(std::nan("")), hour.wind_m_per_s.value_or(std::nan("")),
                       hour.rain ? hour.rain->mm() : std::nan(""));
  }
  for (const auto& column : reading.columns)
    all += column.header + "=" + column.quantity + column.unit + "\n";
  return all + weather_texts::said(reading);
}

inline std::string number_or_null(double value) {
  return std::isnan(value) ? "null" : fmt::format("{:.2f}", value);
}

inline std::string list(const std::vector<double>& values) {
  std::string text;
  for (const double value : values) text += (text.empty() ? "" : ",") + number_or_null(value);
  return "[" + text + "]";
}

/// "2024-05-01T07:00" of an instant, on the clock of UTC.
inline std::string hour_text(Instant at) {
  const auto day = date::floor<soilclock::Days>(at);
  return soilclock::iso(day) + fmt::format("T{:02}:00", (at - day) / std::chrono::hours{1});
}

/// The head of an invented point in Ohio, without braces.
inline std::string point_head(int offset_seconds, const std::string& zone) {
  return fmt::format(
      R"("latitude":39.97,"longitude":-82.98,"utc_offset_seconds":{},"timezone":"{}","elevation":247.0)",
      offset_seconds, zone);
}

/// An invented hourly answer in UTC from an instant on; rain may be empty.
inline std::string hourly_answer(Instant from, const std::vector<double>& air,
                                 const std::vector<double>& rain = {}) {
  std::string times;
  for (std::size_t i = 0; i < air.size(); ++i) {
    times += (i == 0 ? "\"" : ",\"") + hour_text(from + std::chrono::hours{static_cast<int>(i)}) + "\"";
  }
  const bool wet = !rain.empty();
  return "{" + point_head(0, "GMT") + R"(,"hourly_units":{"time":"iso8601","temperature_2m":"°C")" +
         (wet ? R"(,"precipitation":"mm")" : "") + R"(},"hourly":{"time":[)" + times +
         R"(],"temperature_2m":)" + list(air) + (wet ? R"(,"precipitation":)" + list(rain) : "") + "}}";
}

/// An invented daily answer of three days from 1 May 2024 on; `columns` and `units` as JSON members.
inline std::string daily_answer(const std::string& units, const std::string& columns,
                                int offset_seconds = -18000, const std::string& zone = "America/New_York") {
  return "{" + point_head(offset_seconds, zone) + R"(,"daily_units":{"time":"iso8601",)" + units +
         R"(},"daily":{"time":["2024-05-01","2024-05-02","2024-05-03"],)" + columns + "}}";
}

inline const std::string extremes_units = R"("temperature_2m_max":"°C","temperature_2m_min":"°C")";
inline const std::string extremes_columns =
    R"("temperature_2m_max":[20,21,22],"temperature_2m_min":[10,11,12])";

}  // namespace service_texts
