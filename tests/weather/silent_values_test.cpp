// SPDX-License-Identifier: MIT
// No silent wrong value: thousands of made files and pairs of headings, each read to its true values,
// refused, or read with a doubt about the very column.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "slow_reader.hpp"
#include "weather_texts.hpp"

using namespace weather_texts;
using slow_reader::Column;
using slow_reader::Dress;
using slow_reader::Weather;

namespace {

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_{seed} {}
  int below(int end) { return static_cast<int>(engine_() % static_cast<unsigned>(end)); }
  bool one_in(int n) { return below(n) == 0; }
  double uniform() { return static_cast<double>(engine_() >> 8) / 16777216.0; }
  double bell() { return (uniform() + uniform() + uniform() + uniform() - 2.0) * std::sqrt(3.0); }
  const std::string& of(const std::vector<std::string>& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }

 private:
  std::mt19937 engine_;
};

// "@" stands for the unit.
const std::vector<std::string> low_headings{"Tmin (@)",
                                            "Min Temp (@)",
                                            "Low (@)",
                                            "Low Temp, @",
                                            "tmin_@",
                                            "Temperature minimum [@]",
                                            "2m T min (@)",
                                            "Air Temperature Min (@)",
                                            "Temperatura m\xC3\xADnima (@)",
                                            "Temp\xC3\xA9rature minimale (@)",
                                            "Tiefsttemperatur [@]",
                                            "Temperatura minima (@)",
                                            "Min (@)",
                                            "Daily Min Temp (@)"};
const std::vector<std::string> high_headings{"Tmax (@)",
                                             "Max Temp (@)",
                                             "High (@)",
                                             "High Temp, @",
                                             "tmax_@",
                                             "Temperature maximum [@]",
                                             "2m T max (@)",
                                             "Air Temperature Max (@)",
                                             "Temperatura m\xC3\xA1xima (@)",
                                             "Temp\xC3\xA9rature maximale (@)",
                                             "H\xC3\xB6"
                                             "chsttemperatur [@]",
                                             "Temperatura massima (@)",
                                             "Max (@)",
                                             "Daily Max Temp (@)"};
const std::vector<std::string> rain_headings{"Rain (@)",
                                             "Precip (@)",
                                             "Precipitation [@]",
                                             "Rainfall, @",
                                             "rain_@",
                                             "Niederschlag [@]",
                                             "Pluie (@)",
                                             "Lluvia (@)",
                                             "Pioggia (@)",
                                             "Chuva (@)",
                                             "Daily Rain (@)",
                                             "Rain Total (@)",
                                             "Precipitation 24 h (@)"};
const std::vector<std::string> date_headings{
    "Date", "date", "Datum", "Fecha", "Data", "Day", "Observation date", "DATE", "Obs Date", "Timestamp"};
const std::vector<std::string> qualifiers{
    "Forecast",     "Previous day",   "Normal",       "Average",    "Departure", "Record",
    "Yesterday",    "Historical",     "Predicted",    "Expected",   "Last year", "Last 7 days",
    "Past 30 days", "Month to date",  "Year to date", "Monthly",    "Annual",    "Median",
    "Percentile",   "Anomaly",        "Trend",        "Heat index", "Dew point", "Wet bulb",
    "Wind chill",   "Set point",      "Target",       "Battery",    "Logger",    "Indoor",
    "Panel",        "Water",          "Leaf",         "Grass",      "Surface",   "Hour of",
    "Time of",      "Number of days", "Threshold",    "Alarm",      "Plonk",     "Zed 9",
    "Greenhouse",   "Tomorrow",       "10 m",         "5 cm"};
const std::vector<std::string> other_dates{"Issue date",    "Download date", "Sunrise",       "Printed",
                                           "Created on",    "Entry date",    "Modified date", "Export date",
                                           "Forecast date", "Planting date", "Last service",  "Plonk date"};
const std::vector<std::string> temperature_units{"C", "F", "tenths of C", "tenths of F", "K"};
const std::vector<std::string> celsius_names{"C",
                                             "\xC2\xB0"
                                             "C",
                                             "deg C", "Celsius"};
const std::vector<std::string> fahrenheit_names{"F",
                                                "\xC2\xB0"
                                                "F",
                                                "deg F", "Fahrenheit"};
const std::vector<std::string> rain_units{"mm", "in", "cm", "tenths of mm", "hundredths of in"};
const std::vector<std::string> strange_units{"furlong", "R", "points", "u", "old degrees", "dm", "mil"};

std::string with_unit(std::string heading, const std::string& unit) {
  const auto at = heading.find('@');
  if (at != std::string::npos) heading.replace(at, 1, unit);
  while (heading.back() == ' ' || heading.back() == ',') heading.pop_back();
  return heading;
}

std::vector<Weather> any_weather(Dice& dice, slow_reader::Date first, int count) {
  const double mean = 6.0 + 14.0 * dice.uniform();
  const double season = 5.0 + 10.0 * dice.uniform();
  const double spread = 2.5 + 2.5 * dice.uniform();
  const double range = 8.0 + 6.0 * dice.uniform();
  std::vector<Weather> days;
  days.reserve(static_cast<std::size_t>(count));
  double anomaly = dice.bell();
  for (int i = 0; i < count; ++i) {
    anomaly = 0.6 * anomaly + 0.8 * dice.bell();
    const double day_of_year = first.month * 30.4 - 30.4 + first.day + i;
    const double middle = mean - season * std::cos((day_of_year - 20.0) * 0.017202) + spread * anomaly;
    const double half = range * (0.6 + 0.8 * dice.uniform()) / 2.0;
    days.push_back({middle - half, middle + half, dice.one_in(3) ? 20.0 * dice.uniform() : 0.0});
  }
  return days;
}

/// A made file: its text, how it is truly dressed, and what is wrong with it, for the message.
struct MadeFile {
  Dress dress;
  std::string text;
  std::string about;
};

/// The unit as the headings say it: true, absent, of the other scale, or none that is known.
std::string said_temperature(Dice& dice, std::size_t scale, std::string& about) {
  const int kind = dice.below(12);
  const bool plain = scale < 2;
  if (plain && kind == 0) {
    about += " lying unit";
    return scale == 0 ? dice.of(fahrenheit_names) : dice.of(celsius_names);
  }
  if (kind == 1) {
    about += " no unit";
    return "";
  }
  if (kind == 2) {
    about += " strange unit";
    return dice.of(strange_units);
  }
  if (scale == 0) return dice.of(celsius_names);
  return scale == 1 ? dice.of(fahrenheit_names) : temperature_units[scale];
}

std::string said_rain(Dice& dice, std::size_t scale, std::string& about) {
  const int kind = dice.below(12);
  if (kind == 0) {
    about += " no rain unit";
    return "";
  }
  if (kind == 1) {
    about += " strange rain unit";
    return dice.of(strange_units);
  }
  return rain_units[scale];
}

Dress any_dress(Dice& dice, std::string& about) {
  Dress dress;
  dress.temperature = static_cast<std::size_t>(dice.one_in(2) ? dice.below(2) : dice.below(5));
  dress.rain = static_cast<std::size_t>(dice.one_in(2) ? dice.below(2) : dice.below(5));
  dress.separator = ",;\t|"[dice.below(4)];
  dress.decimal_comma = dress.separator != ',' && dice.one_in(3);
  dress.date_form = dice.below(slow_reader::date_forms);
  dress.missing = dice.of({"", "M", "-9999", "-99.9", "NA", "--"});
  dress.newline = dice.one_in(3) ? "\r\n" : "\n";
  const std::string temperature = said_temperature(dice, dress.temperature, about);
  dress.columns = {{'d', dice.of(date_headings)},
                   {'l', with_unit(dice.of(low_headings), temperature)},
                   {'h', with_unit(dice.of(high_headings), temperature)}};
  if (!dice.one_in(5)) {
    dress.columns.push_back({'r', with_unit(dice.of(rain_headings), said_rain(dice, dress.rain, about))});
  }
  for (int extra = dice.below(3); extra > 0; --extra) {
    const std::vector<std::string>& base = dice.one_in(2)   ? high_headings
                                           : dice.one_in(2) ? low_headings
                                                            : rain_headings;
    dress.columns.push_back({'x', dice.of(qualifiers) + " " + with_unit(dice.of(base), temperature)});
  }
  if (dice.one_in(6)) dress.columns.push_back({'y', dice.of(other_dates)});
  if (dice.one_in(25)) {
    about += " exchanged headings";
    std::swap(dress.columns[1].heading, dress.columns[2].heading);
  }
  if (dice.one_in(2)) {
    for (std::size_t i = dress.columns.size() - 1; i > 0; --i)
      std::swap(dress.columns[i],
                dress.columns[static_cast<std::size_t>(dice.below(static_cast<int>(i) + 1))]);
  }
  return dress;
}

std::string cell(const Dress& dress, const slow_reader::Scale& scale, double value) {
  std::string text = slow_reader::print(scale.form, slow_reader::number_in(scale, value));
  if (dress.decimal_comma) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

MadeFile any_file(Dice& dice) {
  MadeFile made;
  made.dress = any_dress(dice, made.about);
  const Dress& dress = made.dress;
  slow_reader::Date date{2004 + dice.below(20), 1 + dice.below(12), 1 + dice.below(28)};
  const int count = 20 + dice.below(60);
  const std::vector<Weather> days = any_weather(dice, date, count);
  const auto& warm = slow_reader::temperature_scales[dress.temperature];
  const auto& wet = slow_reader::rain_scales[dress.rain];
  std::vector<std::string> rows;
  rows.reserve(days.size());
  for (const Weather& day : days) {
    std::string row;
    for (const Column& column : dress.columns) {
      const bool absent = column.what != 'd' && dice.one_in(40);
      std::string text;
      slow_reader::Date later = date;
      for (int i = 0; i < 5; ++i) later = slow_reader::next(later);
      switch (column.what) {
        case 'd':
          text = slow_reader::write_date(date, dress.date_form);
          break;
        case 'l':
          text = cell(dress, warm, day.low);
          break;
        case 'h':
          text = cell(dress, warm, day.high);
          break;
        case 'r':
          text = cell(dress, wet, day.rain);
          break;
        case 'y':
          text = slow_reader::write_date(later, dress.date_form);
          break;
        default:
          text = cell(dress, warm, day.high + 6.0);
      }
      row += (absent ? dress.missing : text) + dress.separator;
    }
    row.pop_back();
    rows.push_back(row + dress.newline);
    date = slow_reader::next(date);
  }
  if (dice.one_in(5)) std::reverse(rows.begin(), rows.end());
  for (const Column& column : dress.columns) made.text += column.heading + dress.separator;
  made.text.pop_back();
  made.text += dress.newline;
  for (const std::string& row : rows) made.text += row;
  return made;
}

bool same(double a, double b, double margin) {
  return (std::isnan(a) && std::isnan(b)) || std::abs(a - b) <= margin;
}

/// What the reading has wrong: 'd' dates, 'l' minima, 'h' maxima, 'r' rain; empty when nothing is. A value
/// that is lost counts as wrong, too.
std::string wrong(const ParsedFile& reading, const MadeFile& made) {
  const auto truth = slow_reader::read(made.text, made.dress);
  if (!reading.first_date || soilclock::iso(*reading.first_date) != truth.begin()->first ||
      soilclock::iso(*reading.last_date) != truth.rbegin()->first)
    return "d";
  const bool has_rain = std::any_of(made.dress.columns.begin(), made.dress.columns.end(),
                                    [](const Column& column) { return column.what == 'r'; });
  std::string found;
  for (const auto& [day, weather] : truth) {
    if (!same(low(reading, day), weather.low, 0.06) && found.find('l') == std::string::npos) found += 'l';
    if (!same(high(reading, day), weather.high, 0.06) && found.find('h') == std::string::npos) found += 'h';
    const double fell = rain(reading, day);
    const bool right = has_rain ? same(fell, weather.rain, 0.06) : std::isnan(fell);
    if (!right && found.find('r') == std::string::npos) found += 'r';
  }
  return found;
}

/// A refusal, or a doubt that names a heading of the kind that is wrong.
bool loud_about(const ParsedFile& reading, const MadeFile& made, char what) {
  if (reading.outcome == Outcome::error) return true;
  for (const auto& doubt : reading.doubts) {
    if (what == 'd' && doubt.text.find("--dates") != std::string::npos) return true;
    if (what != 'r' && what != 'd' && doubt.text.find("--units-in") != std::string::npos) return true;
    if (what == 'r' && doubt.text.find("no rain is read") == 0) return true;
    for (const Column& column : made.dress.columns) {
      const bool named = doubt.text.find("'" + column.heading + "'") != std::string::npos;
      if (named && (column.what == what || column.what == 'x' || (what == 'd' && column.what == 'y')))
        return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("three thousand made files are read to their true values, refused, or doubted in the right place") {
  int right = 0;
  int refused = 0;
  int silent = 0;
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    Dice dice{seed};
    const MadeFile made = any_file(dice);
    const ParsedFile reading = read(made.text);
    if (reading.outcome == Outcome::error) {
      ++refused;
      continue;
    }
    const std::string faults = wrong(reading, made);
    right += faults.empty() ? 1 : 0;
    for (const char fault : faults) {
      if (loud_about(reading, made, fault)) continue;
      ++silent;
      CAPTURE(seed, fault, made.about, said(reading), made.text.substr(0, 600));
      CHECK(faults.empty());
      break;
    }
  }
  CAPTURE(right, refused);
  CHECK(silent == 0);
  // A reader that refuses everything is of no use: two files in three are whole and plain enough to read.
  CHECK(right >= 1700);
}

TEST_CASE("of a thousand pairs of headings the plain one is read, or the choice is asked or doubted") {
  int right = 0;
  int silent = 0;
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    Dice dice{seed * 31u};
    MadeFile made;
    const char what = "lhr"[dice.below(3)];
    const bool rain = what == 'r';
    const std::vector<std::string>& base = what == 'l' ? low_headings : rain ? rain_headings : high_headings;
    const std::string unit = rain ? "mm" : "C";
    const std::string plain = with_unit(dice.of(base), unit);
    std::string other = with_unit(dice.of(base), unit);
    const std::string& qualifier = dice.of(qualifiers);
    other = dice.one_in(3) ? other + " " + qualifier : qualifier + " " + other;
    const std::string low = what == 'l' ? plain : "Tmin (C)";
    const std::string high = what == 'h' ? plain : "Tmax (C)";
    made.dress.columns = {{'d', "Date"}, {'l', low}, {'h', high}, {'r', rain ? plain : "Rain (mm)"}};
    const std::size_t at = 1 + static_cast<std::size_t>(dice.below(4));
    made.dress.columns.insert(made.dress.columns.begin() + static_cast<std::ptrdiff_t>(at), {'x', other});
    for (const Column& column : made.dress.columns) made.text += column.heading + ";";
    made.text.back() = '\n';
    slow_reader::Date date{2021, 5, 1};
    made.dress.separator = ';';
    for (const Weather& day : any_weather(dice, date, 30)) {
      made.text += slow_reader::iso(date);
      for (const Column& column : made.dress.columns) {
        const double value = column.what == 'l'   ? day.low
                             : column.what == 'h' ? day.high
                             : column.what == 'r' ? day.rain
                             : what == 'l'        ? day.low - 3.0
                             : what == 'h'        ? day.high + 3.0
                                                  : day.rain + 3.0;
        if (column.what != 'd') made.text += slow_reader::print(";%.1f", value);
      }
      made.text += '\n';
      date = slow_reader::next(date);
    }
    const ParsedFile reading = read(made.text);
    const std::string faults = reading.outcome == Outcome::error ? "" : wrong(reading, made);
    right += reading.outcome != Outcome::error && faults.empty() ? 1 : 0;
    for (const char fault : faults) {
      if (loud_about(reading, made, fault)) continue;
      ++silent;
      CAPTURE(plain, other, said(reading));
      CHECK(faults.empty());
      break;
    }
  }
  CHECK(silent == 0);
  CHECK(right >= 900);
}
