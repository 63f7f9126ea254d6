// SPDX-License-Identifier: MIT
// Files with known truth: how one is dressed, how it is written, and a slow reader that is told the dress and
// reads the text line by line. It shares no code with the program.
#pragma once

#include <cmath>
#include <cstdio>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace slow_reader {

struct Date {
  int year;
  int month;
  int day;
};

inline bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

inline int days_in(int year, int month) {
  static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && is_leap(year) ? 29 : lengths[month - 1];
}

inline Date next(Date date) {
  if (++date.day > days_in(date.year, date.month)) {
    date.day = 1;
    if (++date.month > 12) {
      date.month = 1;
      ++date.year;
    }
  }
  return date;
}

inline std::string print(const char* form, double value) {
  char text[64];
  std::snprintf(text, sizeof text, form, value);
  return text;
}

inline std::string print(const char* form, int a, int b, int c) {
  char text[64];
  std::snprintf(text, sizeof text, form, a, b, c);
  return text;
}

inline std::string iso(const Date& date) { return print("%04d-%02d-%02d", date.year, date.month, date.day); }

/// Date forms: 0 ISO, 1 d/m/y, 2 m/d/y, 3 d.m.y, 4 yyyymmdd, 5 d-Mon-yy, 6 yy-m-d, 7 d/m/yy, 8 m/d/yy, 9 "Mon
/// d, y".
inline constexpr int date_forms = 10;
inline const char* const month_names[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                          "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

inline std::string write_date(const Date& d, int form) {
  const int yy = d.year % 100;
  const std::string month = month_names[d.month - 1];
  switch (form) {
    case 0:
      return iso(d);
    case 1:
      return print("%02d/%02d/%04d", d.day, d.month, d.year);
    case 2:
      return print("%d/%d/%04d", d.month, d.day, d.year);
    case 3:
      return print("%02d.%02d.%04d", d.day, d.month, d.year);
    case 4:
      return print("%04d%02d%02d", d.year, d.month, d.day);
    case 5:
      return print("%02d-", d.day, 0, 0) + month + print("-%02d", yy, 0, 0);
    case 6:
      return print("%02d-%02d-%02d", yy, d.month, d.day);
    case 7:
      return print("%02d/%02d/%02d", d.day, d.month, yy);
    case 8:
      return print("%02d/%02d/%02d", d.month, d.day, yy);
    default:
      return "\"" + month + print(" %d, %04d", d.day, d.year, 0) + "\"";
  }
}

inline Date read_date(const std::string& text, int form) {
  int a = 0;
  int b = 0;
  int c = 0;
  char word[4] = "";
  switch (form) {
    case 0:
    case 6:
      std::sscanf(text.c_str(), "%d-%d-%d", &a, &b, &c);
      return {a < 100 ? 2000 + a : a, b, c};
    case 1:
    case 7:
      std::sscanf(text.c_str(), "%d/%d/%d", &a, &b, &c);
      return {c < 100 ? 2000 + c : c, b, a};
    case 2:
    case 8:
      std::sscanf(text.c_str(), "%d/%d/%d", &a, &b, &c);
      return {c < 100 ? 2000 + c : c, a, b};
    case 3:
      std::sscanf(text.c_str(), "%d.%d.%d", &a, &b, &c);
      return {c, b, a};
    case 4:
      std::sscanf(text.c_str(), "%4d%2d%2d", &a, &b, &c);
      return {a, b, c};
    case 5:
      std::sscanf(text.c_str(), "%d-%3s-%d", &a, word, &c);
      c += 2000;
      break;
    default:
      std::sscanf(text.c_str(), "%3s %d, %d", word, &a, &c);
      break;
  }
  for (int month = 1; month <= 12; ++month) {
    if (std::string{month_names[month - 1]} == word) b = month;
  }
  return {c, b, a};
}

/// Celsius or millimeters of a number in a unit: value = (number - zero) * size.
struct Scale {
  const char* name;
  double zero;
  double size;
  const char* form;  ///< of printing
};

inline const std::vector<Scale> temperature_scales{{"C", 0.0, 1.0, "%.1f"},
                                                   {"F", 32.0, 1.0 / 1.8, "%.1f"},
                                                   {"tenths C", 0.0, 0.1, "%.0f"},
                                                   {"tenths F", 320.0, 0.1 / 1.8, "%.0f"},
                                                   {"K", 273.15, 1.0, "%.2f"}};
inline const std::vector<Scale> rain_scales{{"mm", 0.0, 1.0, "%.1f"},
                                            {"in", 0.0, 25.4, "%.2f"},
                                            {"cm", 0.0, 10.0, "%.2f"},
                                            {"tenths mm", 0.0, 0.1, "%.0f"},
                                            {"hundredths in", 0.0, 0.254, "%.0f"}};

inline double number_in(const Scale& scale, double value) { return value / scale.size + scale.zero; }

/// What a column holds: 'd' date, 'l' minimum, 'h' maximum, 'r' rain, 'x' something else.
struct Column {
  char what;
  std::string heading;
};

struct Dress {
  std::vector<Column> columns;
  char separator = ',';
  bool decimal_comma = false;
  int date_form = 0;
  std::size_t temperature = 0;  ///< the scale the numbers are in
  std::size_t rain = 0;
  std::string missing;
  const char* newline = "\n";
};

struct Weather {
  double low = std::nan("");
  double high = std::nan("");
  double rain = std::nan("");
};

inline bool is_missing(const std::string& cell) {
  return cell.empty() || cell == "M" || cell == "-9999" || cell == "-99.9" || cell == "NA" || cell == "--";
}

inline double read_number(std::string cell, const Scale& scale, bool comma) {
  if (is_missing(cell)) return std::nan("");
  for (char& c : cell) {
    if (comma && c == ',') c = '.';
  }
  return (std::atof(cell.c_str()) - scale.zero) * scale.size;
}

/// The days of a text, as whoever knows its dress reads them.
inline std::map<std::string, Weather> read(const std::string& text, const Dress& dress) {
  std::map<std::string, Weather> days;
  std::size_t at = 0;
  for (int line = 0; at < text.size(); ++line) {
    std::size_t end = text.find_first_of("\r\n", at);
    if (end == std::string::npos) end = text.size();
    const std::string row = text.substr(at, end - at);
    at = end + 1;
    if (line == 0 || row.empty()) continue;
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : row) {
      if (c == '"')
        quoted = !quoted;
      else if (c == dress.separator && !quoted)
        cells.emplace_back();
      else
        cells.back() += c;
    }
    Weather day;
    std::string date;
    for (std::size_t i = 0; i < dress.columns.size() && i < cells.size(); ++i) {
      const Scale& warm = temperature_scales[dress.temperature];
      const char what = dress.columns[i].what;
      if (what == 'd') date = iso(read_date(cells[i], dress.date_form));
      if (what == 'l') day.low = read_number(cells[i], warm, dress.decimal_comma);
      if (what == 'h') day.high = read_number(cells[i], warm, dress.decimal_comma);
      if (what == 'r') day.rain = read_number(cells[i], rain_scales[dress.rain], dress.decimal_comma);
    }
    days[date] = day;
  }
  return days;
}

}  // namespace slow_reader
