// SPDX-License-Identifier: MIT
// What holds for any answer: cutting, joining, order of keys, damage.
#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "service_texts.hpp"

using namespace weather_texts;
using namespace service_texts;
using soilclock::Days;

namespace {

const Instant first_hour{soilclock::make_day(2023, 10, 20)};

/// Temperatures in tenths, now and then missing.
std::vector<double> some_hours(int count) {
  std::vector<double> values;
  for (int i = 0; i < count; ++i) {
    const int tenths = *rc::gen::inRange(-250, 400);
    values.push_back(*rc::gen::inRange(0, 40) == 0 ? std::nan("") : tenths / 10.0);
  }
  return values;
}

std::vector<double> part(const std::vector<double>& values, std::size_t from, std::size_t to) {
  return {values.begin() + static_cast<std::ptrdiff_t>(from),
          values.begin() + static_cast<std::ptrdiff_t>(to)};
}

bool any_number(const std::vector<double>& values) {
  return std::any_of(values.begin(), values.end(), [](double value) { return !std::isnan(value); });
}

ParsedFile only(const std::string& text) {
  auto read = answer(text, in_zone("America/New_York"));
  RC_ASSERT(read.has_value());
  return std::move(read->series.front().reading);
}

/// The members of a JSON object in an order of their own.
std::string shuffled(std::vector<std::string> members) {
  std::string text;
  while (!members.empty()) {
    const auto at =
        members.begin() + *rc::gen::inRange<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(members.size()));
    text += (text.empty() ? "" : ",") + *at;
    members.erase(at);
  }
  return "{" + text + "}";
}

}  // namespace

TEST_CASE("an answer fetched in two parts loses at most the day of the cut") {
  rc::prop("days of the parts are days of the whole", []() {
    const std::vector<double> air = some_hours(24 * 6);
    const std::vector<double> wet(air.size(), 0.25);
    const auto cut = static_cast<std::size_t>(*rc::gen::inRange(1, 24 * 6 - 1));
    const auto first_air = part(air, 0, cut);
    const auto second_air = part(air, cut, air.size());
    RC_PRE(any_number(first_air) && any_number(second_air));
    const ParsedFile whole = only(hourly_answer(first_hour, air, wet));
    const ParsedFile first = only(hourly_answer(first_hour, first_air, part(wet, 0, cut)));
    const ParsedFile second = only(hourly_answer(first_hour + std::chrono::hours{static_cast<int>(cut)},
                                                 second_air, part(wet, cut, wet.size())));
    int lost = 0;
    int lost_rain = 0;
    for (Day day = *whole.first_date; day <= *whole.last_date; day += Days{1}) {
      const auto expected = whole.daily.air_min.at(day);
      const auto found =
          first.daily.air_min.at(day) ? first.daily.air_min.at(day) : second.daily.air_min.at(day);
      if (found) RC_ASSERT(found == expected);
      lost += expected && !found ? 1 : 0;
      const auto wet_day = first.daily.rain.at(day) ? first.daily.rain.at(day) : second.daily.rain.at(day);
      if (wet_day) RC_ASSERT(wet_day == whole.daily.rain.at(day));
      lost_rain += whole.daily.rain.at(day) && !wet_day ? 1 : 0;
    }
    RC_ASSERT(lost <= 1);
    RC_ASSERT(lost_rain <= 1);
    RC_ASSERT(first.hours.size() + second.hours.size() == whole.hours.size());
  });
}

TEST_CASE("the order of the keys of an answer changes nothing") {
  rc::prop("any order of the members reads alike", []() {
    const auto text = [](const auto& ordered) {
      const std::string units = ordered({R"("time":"iso8601")", R"("temperature_2m_max":"°C")",
                                         R"("temperature_2m_min":"°F")", R"("precipitation_sum":"mm")"});
      const std::string section =
          ordered({R"("time":["2024-02-28","2024-02-29"])", R"("temperature_2m_max":[9,8.5])",
                   R"("temperature_2m_min":[30,null])", R"("precipitation_sum":[0,1.5])"});
      return ordered({R"("latitude":40)", R"("longitude":-83)", R"("elevation":10)",
                      R"("utc_offset_seconds":-18000)", R"("timezone":"America/New_York")",
                      R"("daily_units":)" + units, R"("daily":)" + section});
    };
    const auto plain = [](const std::vector<std::string>& members) {
      std::string joined;
      for (const std::string& member : members) joined += (joined.empty() ? "" : ",") + member;
      return "{" + joined + "}";
    };
    const std::string first = signature(only(text(plain)));
    RC_ASSERT(signature(only(text(shuffled))) == first);
  });
}

TEST_CASE("an answer cut at any byte is refused as cut off") {
  const std::string text = daily_answer(extremes_units, extremes_columns);
  REQUIRE(refusal(text).empty());
  for (std::size_t size = 1; size < text.size(); ++size) {
    CAPTURE(size);
    const auto cut = answer(text.substr(0, size));
    REQUIRE_FALSE(cut.has_value());
    CHECK(has(cut.error().what, "cut off"));
    CHECK_FALSE(cut.error().remedy.empty());
  }
}

TEST_CASE("damaged recorded answers never crash, and what is read of them keeps its order", "[records]") {
  std::vector<std::string> texts;
  for (const char* name :
       {"open_meteo/archive_daily_nyc_leap_and_dst_2024.json", "open_meteo/forecast_hourly_brasilia_7d.json",
        "open_meteo/forecast_two_locations_array.json", "nws/gridpoint_tae_2022-02-04.json",
        "ncei/cdo_v2_ghcnd_prcp_mi_2013-09.json", "constructed/ncei_access_v1_daily_metric.json",
        "constructed/nasa_power_daily_point.json", "constructed/open_meteo_two_models.json"})
    texts.push_back(bytes_of(record_folder("api_samples") / name));
  rc::prop("any damage gives a refusal or a reading", [&]() {
    std::string text = texts[*rc::gen::inRange<std::size_t>(0, texts.size())];
    const int changes = *rc::gen::inRange(1, 4);
    for (int i = 0; i < changes; ++i) {
      const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
      switch (*rc::gen::inRange(0, 4)) {
        case 0:
          text.resize(at + 1);
          break;
        case 1:
          text[at] = static_cast<char>(*rc::gen::inRange(0, 256));
          break;
        case 2:
          text.erase(at, *rc::gen::inRange<std::size_t>(1, 40));
          break;
        default:
          text[at] = *rc::gen::element('0', '9', '-', '"', ',', '[', '}', 'e', ':');
      }
      if (text.empty()) text = " ";
    }
    const auto read = answer(text, in_zone("America/New_York"));
    if (!read) {
      RC_ASSERT(!read.error().what.empty());
      RC_ASSERT(read.error().family == soilclock::Family::data);
      return;
    }
    RC_ASSERT(!read->series.empty());
    for (const auto& series : read->series) {
      RC_ASSERT(series.reading.outcome != Outcome::error);
      RC_ASSERT(series.reading.first_date.has_value());
      const auto& low = series.reading.daily.air_min;
      for (Day day = low.days().begin(); day < low.days().end(); day += Days{1}) {
        const auto minimum = low.at(day);
        const auto maximum = series.reading.daily.air_max.at(day);
        if (minimum && maximum) RC_ASSERT(*minimum <= *maximum);
      }
    }
  });
}
