// SPDX-License-Identifier: MIT
// Laws: a table written in any dress reads back the same; no bytes crash the reader.
#include <fmt/format.h>
#include <rapidcheck.h>
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "weather_texts.hpp"

using namespace weather_texts;
using soilclock::Days;

namespace {

/// A day in tenths, so that every dress can print it exactly; Fahrenheit files hold tenths of F.
struct WrittenRow {
  int low;
  int high;
  int rain;
};

struct ShapeDress {
  char delimiter;
  int dates;
  bool decimal_comma;
  bool us_units;
  const char* newline;
  bool mark;
  bool newest_first;
};

std::string tenths(int value, bool comma) {
  std::string text = fmt::format("{}{}.{}", value < 0 ? "-" : "", std::abs(value) / 10, std::abs(value) % 10);
  if (comma) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

std::string date_text(Day day, int form) {
  const auto date = soilclock::civil(day);
  switch (form) {
    case 0:
      return soilclock::iso(day);
    case 1:
      return fmt::format("{:02}/{:02}/{}", date.day, date.month, date.year);
    case 2:
      return fmt::format("{}/{}/{}", date.month, date.day, date.year);
    case 3:
      return fmt::format("{:02}.{:02}.{}", date.day, date.month, date.year);
    default:
      return fmt::format("{}{:02}{:02}", date.year, date.month, date.day);
  }
}

std::string written(const std::vector<WrittenRow>& rows, Day first, const ShapeDress& dress) {
  const char d = dress.delimiter;
  std::string text = dress.mark ? "\xEF\xBB\xBF" : "";
  text += dress.us_units ? fmt::format("Date{}Low (F){}High (F){}Rain (in)", d, d, d)
                         : fmt::format("date{}tmin_c{}tmax_c{}rain_mm", d, d, d);
  text += dress.newline;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::size_t i = dress.newest_first ? rows.size() - 1 - k : k;
    text += date_text(first + Days{static_cast<int>(i)}, dress.dates);
    for (const int value : {rows[i].low, rows[i].high, rows[i].rain})
      text += d + tenths(value, dress.decimal_comma);
    text += dress.newline;
  }
  return text;
}

ShapeDress any_dress() {
  ShapeDress dress{};
  dress.delimiter = *rc::gen::element(',', ';', '\t');
  dress.dates = *rc::gen::inRange(0, 5);
  dress.decimal_comma = dress.delimiter != ',' && *rc::gen::arbitrary<bool>();
  dress.us_units = *rc::gen::arbitrary<bool>();
  dress.newline = *rc::gen::element("\n", "\r\n", "\r");
  dress.mark = *rc::gen::arbitrary<bool>();
  dress.newest_first = *rc::gen::arbitrary<bool>();
  return dress;
}

}  // namespace

TEST_CASE("a daily table in any dress reads back the same") {
  rc::prop("any mix of delimiter, date form, decimal mark, unit, line end and mark", [] {
    const ShapeDress dress = any_dress();
    // Spring, so that these temperatures can be in their unit.
    const Day first =
        soilclock::make_day(2020 + *rc::gen::inRange(0, 4), 4, 1) + Days{*rc::gen::inRange(0, 30)};
    const auto count = *rc::gen::inRange<std::size_t>(40, 80);
    std::vector<WrittenRow> rows;
    for (std::size_t i = 0; i < count; ++i) {
      const int low = *rc::gen::inRange(dress.us_units ? 450 : 0, dress.us_units ? 600 : 150);
      rows.push_back({low, low + *rc::gen::inRange(dress.us_units ? 200 : 1, dress.us_units ? 300 : 150),
                      *rc::gen::inRange(0, dress.us_units ? 30 : 400)});
    }
    const auto reading = read(written(rows, first, dress));
    RC_LOG() << said(reading) << dress.delimiter << dress.dates << dress.us_units;
    RC_ASSERT(reading.outcome != Outcome::error);
    RC_ASSERT(reading.days_with_data == static_cast<int>(count));
    for (std::size_t i = 0; i < count; ++i) {
      const std::string day = soilclock::iso(first + Days{static_cast<int>(i)});
      const auto celsius = [&](int value) {
        return dress.us_units ? (value / 10.0 - 32.0) / 1.8 : value / 10.0;
      };
      RC_ASSERT(std::abs(low(reading, day) - celsius(rows[i].low)) < 1e-9);
      RC_ASSERT(std::abs(high(reading, day) - celsius(rows[i].high)) < 1e-9);
      RC_ASSERT(std::abs(rain(reading, day) - rows[i].rain / 10.0 * (dress.us_units ? 25.4 : 1.0)) < 1e-9);
    }
  });
}

TEST_CASE("a refusal comes with error and with nothing else, whatever the bytes") {
  rc::prop("random bytes", [] {
    const auto bytes = *rc::gen::container<std::string>(rc::gen::arbitrary<char>());
    const auto reading = read(bytes);
    RC_ASSERT((reading.outcome == Outcome::error) == reading.refusal.has_value());
  });
}

TEST_CASE("damaged files never crash and are answered in order") {
  const std::vector<std::string> originals{
      "date,tmin_c,tmax_c,rain_mm,flag\n2024-05-01,5.5,15.5,1.2,\n2024-05-02,6.5,16.5,0,A2\n2024-05-03,7,17,"
      "T,\n",
      "Lat 39.5 Lon -83\n\nDatum;Tmin [\xC2\xB0"
      "C];Tmax [\xC2\xB0"
      "C]\n25.09.2023;8,3;20,0\n26.09.2023;10,3;22,4\n",
      "time,temp_c,rh_pct,rain_today_mm\n2024-11-03T00:00:00-04:00,5,60,0\n2024-11-03T01:00:00-04:00,4,61,"
      "0\n2024-11-03T01:00:00-05:00,4,61,0.5\n",
      "id,Year,DOY,HHMM,AirT_C\n1,2023,364,100,1\n1,2023,364,200,2\n1,2023,364,2400,3\n",
      "45350.0,0.5\n45350.5,9.5\n",
      "03758 20200101  2.622  -79.09   35.97    11.6     0.2     5.9     5.6     0.0    10.15 C    21.0    "
      "-4.3     3.4    87.3    39.7    59.4   "
      "0.272   0.240   0.276   0.341   0.398     8.7     9.4     9.4    11.0    12.2\n",
      "latitude,longitude,utc_offset_seconds\n1,2,3600\n\ntime,temperature_2m_max (C),temperature_2m_min "
      "(C)\n2024-05-01,20,10\n",
  };
  rc::prop("cut, doubled, swapped and replaced bytes", [&] {
    std::string text = *rc::gen::elementOf(originals);
    const int changes = *rc::gen::inRange(1, 8);
    for (int i = 0; i < changes && !text.empty(); ++i) {
      const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
      switch (*rc::gen::inRange(0, 5)) {
        case 0:
          text.erase(at, *rc::gen::inRange<std::size_t>(1, 12));
          break;
        case 1:
          text.insert(at, text.substr(at / 2, *rc::gen::inRange<std::size_t>(1, 40)));
          break;
        case 2:
          text[at] = *rc::gen::arbitrary<char>();
          break;
        case 3:
          text.insert(at, *rc::gen::element(std::string{"\""}, std::string{","}, std::string{"\n"},
                                            std::string{"9999999999"}, std::string{"-"}, std::string{"1e308"},
                                            std::string{"\xC3"}, std::string{"31.02.2024"}));
          break;
        default:
          text.resize(at);
      }
    }
    ReadingOptions options;
    options.columns = *rc::gen::element(std::string{}, std::string{"date,tmin,tmax"},
                                        std::string{"date,soil 5 cm"}, std::string{"tmin_c=tmax"});
    if (*rc::gen::arbitrary<bool>()) options.time_zone = soilclock::TimeZone::fixed(std::chrono::hours{-5});
    const auto reading = read(text, options);
    RC_ASSERT((reading.outcome == Outcome::error) == reading.refusal.has_value());
    RC_ASSERT(reading.missing_days >= 0);
  });
}
