// SPDX-License-Identifier: MIT
// A stand-in for the service of hourly grid weather: answers requests in the shape of its answers with
// invented weather (a smooth year, colder to the north), for any places and days.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "support/loopback_server.hpp"

namespace soilclock::tests {

inline std::vector<double> numbers_of(const std::string& list) {
  std::vector<double> numbers;
  std::istringstream text{list};
  for (std::string item; std::getline(text, item, ',');) numbers.push_back(std::stod(item));
  return numbers;
}

/// Invented air temperature of an hour of UTC, Celsius: warmest in late July at 20 h UTC.
inline double invented_air(double latitude, Day day, int hour, int member = 0) {
  constexpr double two_pi = 6.283185307179586;
  const double season = std::cos((day_of_year(day) - 205) * two_pi / 365.25);
  const double clock = std::cos((hour - 20) * two_pi / 24.0);
  const int unrest = static_cast<int>((day.time_since_epoch().count() * 7919) % 13) - 6;
  return 50.0 - latitude + 11.0 * season + 5.0 * clock + 0.4 * unrest + 0.5 * member;
}

/// One point's answer over [begin, end), hours of UTC.
inline std::string stand_in_point(double latitude, double longitude, Day begin, Day end, int members,
                                  bool spraying) {
  std::string times;
  std::vector<std::string> air(static_cast<std::size_t>(members) + 1);
  std::string rain;
  std::string wet;
  std::string wind;
  for (Day day = begin; day < end; day += Days{1}) {
    for (int hour = 0; hour < 24; ++hour) {
      const char* comma = times.empty() ? "" : ",";
      times += fmt::format("{}\"{}T{:02}:00\"", comma, iso(day), hour);
      for (std::size_t m = 0; m < air.size(); ++m)
        air[m] += fmt::format("{}{:.1f}", comma, invented_air(latitude, day, hour, static_cast<int>(m)));
      rain += fmt::format("{}{:.2f}", comma, hour == 3 && day_of_year(day) % 4 == 0 ? 6.0 : 0.0);
      wet += fmt::format("{}{}", comma, 60 + hour);
      wind += fmt::format("{}{:.1f}", comma, 2.0 + hour % 5);
    }
  }
  std::string units = R"("time":"iso8601","temperature_2m":"°C","precipitation":"mm")";
  std::string block =
      fmt::format(R"("time":[{}],"temperature_2m":[{}],"precipitation":[{}])", times, air[0], rain);
  for (std::size_t m = 1; m < air.size(); ++m) {
    units += fmt::format(R"(,"temperature_2m_member{:02}":"°C","precipitation_member{:02}":"mm")", m, m);
    block += fmt::format(R"(,"temperature_2m_member{:02}":[{}],"precipitation_member{:02}":[{}])", m, air[m],
                         m, rain);
  }
  if (spraying) {
    units += R"(,"relative_humidity_2m":"%","wind_speed_10m":"m/s")";
    block += fmt::format(R"(,"relative_humidity_2m":[{}],"wind_speed_10m":[{}])", wet, wind);
  }
  return fmt::format(
      R"({{"latitude":{:.2f},"longitude":{:.2f},"generationtime_ms":0.1,"utc_offset_seconds":0,"timezone":"GMT",)"
      R"("timezone_abbreviation":"GMT","elevation":300.0,"hourly_units":{{{}}},"hourly":{{{}}}}})",
      std::round(latitude * 10.0) / 10.0, std::round(longitude * 10.0) / 10.0, units, block);
}

/// The answer to a request for history, forecast or members, as of `today`.
inline Reply stand_in_answer(const SeenRequest& request, Day today) {
  const auto& asked = request.parameters;
  const bool history = request.path == "/v1/archive";
  const bool members = request.path == "/v1/ensemble";
  Day begin = today;
  Day end = today;
  if (history) {
    begin = *parse_iso_day(asked.at("start_date"));
    end = *parse_iso_day(asked.at("end_date")) + Days{1};
  } else {
    begin -= Days{asked.contains("past_days") ? std::stoi(asked.at("past_days")) : 0};
    end += Days{std::stoi(asked.at("forecast_days"))};
  }
  const auto latitudes = numbers_of(asked.at("latitude"));
  const auto longitudes = numbers_of(asked.at("longitude"));
  std::string body;
  for (std::size_t i = 0; i < latitudes.size(); ++i) {
    body += (i == 0 ? "" : ",") +
            stand_in_point(latitudes[i], longitudes[i], begin, end, members ? 30 : 0, !history && !members);
  }
  Reply reply;
  reply.body = latitudes.size() == 1 ? body : "[" + body + "]";
  return reply;
}

/// Service settings that send all requests of that service to a server of the test.
inline std::string settings_for(const LoopbackServer& server) {
  return fmt::format(
      R"({{"contact":"turf@club.example","services":{{"open-meteo":{{"hosts":{{"history":"{0}","forecast":"{0}",)"
      R"("members":"{0}"}}}},"nws":{{"hosts":{{"forecast":"{0}"}}}},"ncei":{{"hosts":{{"history":"{0}"}}}},)"
      R"("power":{{"hosts":{{"history":"{0}"}}}}}}}})",
      server.url());
}

}  // namespace soilclock::tests
