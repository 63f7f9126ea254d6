// SPDX-License-Identifier: MIT
#include "weather/table/stamp_parsing.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "core/text.hpp"
#include "core/time_zone.hpp"

namespace soilclock::weather {

namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Takes a whole number of at most nine digits off the front; `width` becomes the number of digits.
std::optional<int> take_number(std::string_view& text, int& width) {
  int value = 0;
  width = 0;
  while (!text.empty() && digit(text.front()) && width < 9) {
    value = value * 10 + (text.front() - '0');
    text.remove_prefix(1);
    ++width;
  }
  if (width == 0) return std::nullopt;
  return value;
}

/// Takes a month word off the front: English, German, French, Spanish, Italian and Portuguese names by
/// their first letters.
std::optional<int> take_month(std::string_view& text) {
  struct Month {
    std::string_view start;
    int number;
  };
  static constexpr std::array months{Month{"jan", 1},  Month{"feb", 2},  Month{"fev", 2},  Month{"mar", 3},
                                     Month{"mrz", 3},  Month{"apr", 4},  Month{"avr", 4},  Month{"may", 5},
                                     Month{"mai", 5},  Month{"jun", 6},  Month{"juin", 6}, Month{"jul", 7},
                                     Month{"juil", 7}, Month{"aug", 8},  Month{"aou", 8},  Month{"sep", 9},
                                     Month{"oct", 10}, Month{"okt", 10}, Month{"nov", 11}, Month{"dec", 12},
                                     Month{"dez", 12}, Month{"ene", 1},  Month{"abr", 4},  Month{"ago", 8},
                                     Month{"dic", 12}, Month{"gen", 1},  Month{"mag", 5},  Month{"giu", 6},
                                     Month{"lug", 7},  Month{"set", 9},  Month{"ott", 10}, Month{"out", 10}};
  std::size_t length = 0;
  while (length < text.size() && (letter(text[length]) || text[length] == '.')) ++length;
  const std::string word = lowered(text.substr(0, length));
  for (const Month& month : months) {
    if (!word.starts_with(month.start)) continue;
    text.remove_prefix(length);
    return month.number;
  }
  return std::nullopt;
}

/// "2024-05-01" and "2024-05-01 13:00", the stamps of nearly every large file, without the questions the
/// other forms need. False for every other text and for an hour or minute that a clock does not show; `stamp`
/// is then not to be used.
bool take_plain_stamp(std::string_view field, RawStamp& stamp) {
  const bool timed = field.size() == 16;
  if ((!timed && field.size() != 10) || field[4] != '-' || field[7] != '-') return false;
  if (timed && ((field[10] != ' ' && field[10] != 'T') || field[13] != ':')) return false;
  bool odd = false;
  const auto two = [&](std::size_t at) {
    const int tens = field[at] - '0';
    const int ones = field[at + 1] - '0';
    odd |= (static_cast<unsigned>(tens) > 9U) | (static_cast<unsigned>(ones) > 9U);
    return tens * 10 + ones;
  };
  stamp.a = two(0) * 100 + two(2);
  stamp.b = two(5);
  stamp.c = two(8);
  if (timed) {
    const int hour = two(11);
    const int minute = two(14);
    odd |= hour > 23 || minute > 59;
    stamp.minute = static_cast<std::int16_t>(hour * 60 + minute);
  }
  return !odd;
}

/// Digits only, or digits with a fraction: the length says what it stands for.
std::optional<RawStamp> compact_stamp(std::string_view field) {
  const auto number = parse_number(field);
  if (!number || *number < 0.0) return std::nullopt;
  RawStamp stamp;
  const auto point = field.find('.');
  const std::size_t whole = point == std::string_view::npos ? field.size() : point;
  const auto part = [&](std::size_t from, std::size_t count) {
    int value = 0;
    std::from_chars(field.data() + from, field.data() + from + count, value);
    return value;
  };
  const auto calendar = [&](std::size_t digits) {
    stamp.a = part(0, 4);
    stamp.b = part(4, 2);
    stamp.c = part(6, 2);
    const int hour = digits >= 10 ? part(8, 2) : 0;
    const int minute = digits >= 12 ? part(10, 2) : 0;
    if (digits >= 10) stamp.minute = static_cast<std::int16_t>(hour * 60 + minute);
    return stamp.a >= 1800 && stamp.a < 2200 && stamp.b >= 1 && stamp.b <= 12 && stamp.c >= 1 &&
           stamp.c <= 31 && hour <= 24 && minute < 60;
  };
  const bool fraction = point != std::string_view::npos;
  if (!fraction && (whole == 8 || whole == 10 || whole == 12 || whole == 14) && calendar(whole)) return stamp;
  stamp.minute.reset();
  // Spreadsheet days 20000 to 80000 are the years 1954 to 2119.
  if (whole == 5 && *number >= 20000.0 && *number < 80000.0) {
    stamp.form = RawStamp::Form::serial;
    stamp.number = *number;
    return stamp;
  }
  if (whole == 9 || whole == 10 || (whole == 13 && !fraction)) {
    stamp.form = RawStamp::Form::epoch;
    stamp.number = whole == 13 ? *number / 1000.0 : *number;
    return stamp;
  }
  return std::nullopt;
}

/// "Z", "+02:00", "-0500": takes it off the end part of a time.
bool take_offset(std::string_view& text, std::optional<std::int16_t>& offset) {
  if (text.empty()) return true;
  if (text == "Z" || text == "z" || text == "UTC" || text == "GMT") {
    offset = 0;
    text = {};
    return true;
  }
  const auto read = parse_utc_offset(text);
  if (!read) return false;
  offset = static_cast<std::int16_t>(std::chrono::duration_cast<std::chrono::minutes>(*read).count());
  text = {};
  return true;
}

/// A time with colons, with its 12-hour mark and offset.
std::optional<std::int16_t> clock_time(std::string_view text, std::optional<std::int16_t>& offset) {
  int width = 0;
  const auto hour = take_number(text, width);
  if (!hour || width > 2) return std::nullopt;
  int minutes = 0;
  if (!text.empty() && (text.front() == ':' || text.front() == 'h')) {
    text.remove_prefix(1);
    const auto m = take_number(text, width);
    if (!m || width != 2) return std::nullopt;
    minutes = *m;
    if (!text.empty() && text.front() == ':') {
      text.remove_prefix(1);
      const auto s = take_number(text, width);
      if (!s || width != 2 || *s > 60) return std::nullopt;
      if (text.size() > 1 && (text.front() == '.' || text.front() == ',') && digit(text[1])) {
        text.remove_prefix(1);
        take_number(text, width);
      }
    }
  } else if (trimmed(text).empty()) {
    return std::nullopt;
  }
  text = trimmed(text);
  int hours = *hour;
  if (!text.empty() && letter(text.front()) && text != "Z" && text != "z" && text != "UTC" && text != "GMT") {
    std::string mark;
    for (const char c : text) {
      if (c != '.' && c != ' ') mark += c;
    }
    mark = lowered(mark);
    if ((mark != "am" && mark != "pm" && mark != "a" && mark != "p") || hours < 1 || hours > 12)
      return std::nullopt;
    hours = hours % 12 + (mark.front() == 'p' ? 12 : 0);
    text = {};
  }
  if (!take_offset(text, offset)) return std::nullopt;
  if (hours > 24 || minutes > 59 || (hours == 24 && minutes > 0)) return std::nullopt;
  return static_cast<std::int16_t>(hours * 60 + minutes);
}

/// The three parts of a date with separators; the rest of the text (a time) stays.
std::optional<RawStamp> separated_date(std::string_view& text) {
  RawStamp stamp;
  int width_a = 0;
  const auto a = take_number(text, width_a);
  if (!a || text.empty() || width_a > 4) return std::nullopt;
  const char separator = text.front();
  if (separator != '-' && separator != '/' && separator != '.' && separator != ' ') return std::nullopt;
  text.remove_prefix(1);
  if (separator == '.' && !text.empty() && text.front() == ' ') text.remove_prefix(1);
  int width_b = 0;
  auto b = take_number(text, width_b);
  bool named = false;
  if (!b) {
    b = take_month(text);
    named = b.has_value();
  }
  if (!b || width_b > 2 || text.empty() || (text.front() != separator && text.front() != ' '))
    return std::nullopt;
  text.remove_prefix(1);
  int width_c = 0;
  const auto c = take_number(text, width_c);
  if (!c) return std::nullopt;
  stamp.a = *a;
  stamp.b = *b;
  stamp.c = *c;
  if (width_a == 4) {
    if (width_c > 2) return std::nullopt;
    stamp.form = RawStamp::Form::year_first;
    return stamp;
  }
  if (width_a > 2 || (width_c != 4 && width_c != 2)) return std::nullopt;
  stamp.short_year = width_c == 2;
  if (stamp.short_year) stamp.c = full_year(stamp.c);
  stamp.form = named || separator == '.' ? RawStamp::Form::day_first : RawStamp::Form::year_last;
  return stamp;
}

/// "Feb 29, 2024" and what follows.
std::optional<RawStamp> month_word_date(std::string_view& text) {
  const auto month = take_month(text);
  if (!month || text.empty() || text.front() != ' ') return std::nullopt;
  text.remove_prefix(1);
  int width = 0;
  const auto day = take_number(text, width);
  if (!day || width > 2) return std::nullopt;
  while (!text.empty() && (text.front() == ',' || text.front() == ' ')) text.remove_prefix(1);
  const auto year = take_number(text, width);
  if (!year || width != 4) return std::nullopt;
  RawStamp stamp;
  stamp.form = RawStamp::Form::day_first;
  stamp.a = *day;
  stamp.b = *month;
  stamp.c = *year;
  return stamp;
}

}  // namespace

int full_year(int two_digits) { return two_digits + (two_digits < 69 ? 2000 : 1900); }

std::optional<RawStamp> parse_stamp(std::string_view field) {
  if (field.size() < 5 || field.size() > 40) return std::nullopt;
  // Made where it is returned: copying a stamp takes longer than reading it.
  std::optional<RawStamp> stamp{std::in_place};
  if (take_plain_stamp(field, *stamp)) return stamp;
  std::string_view text = field;
  stamp.reset();
  if (letter(field.front())) {
    stamp = month_word_date(text);
  } else if (digit(field.front())) {
    stamp = compact_stamp(field);
    if (stamp) return stamp;
    stamp = separated_date(text);
  }
  if (!stamp) return std::nullopt;
  if (!text.empty() && (text.front() == 'T' || text.front() == 't' || text.front() == ','))
    text.remove_prefix(1);
  else if (!text.empty() && text.front() != ' ')
    return std::nullopt;
  text = trimmed(text);
  if (text.empty()) return stamp;
  stamp->minute = clock_time(text, stamp->offset_minutes);
  if (!stamp->minute) return std::nullopt;
  return stamp;
}

std::optional<int> parse_time_of_day(std::string_view field, bool whole_hours) {
  std::optional<std::int16_t> offset;
  if (const auto minute = clock_time(field, offset)) return minute;
  std::string_view rest = field;
  int width = 0;
  const auto number = take_number(rest, width);
  if (!number || width > 4) return std::nullopt;
  if (!rest.empty() && rest != ".0" && rest != ".00") return std::nullopt;
  if (whole_hours) return *number <= 24 ? std::optional{*number * 60} : std::nullopt;
  const int hours = *number / 100;
  const int minutes = *number % 100;
  if (hours > 24 || minutes > 59 || (hours == 24 && minutes > 0)) return std::nullopt;
  return hours * 60 + minutes;
}

}  // namespace soilclock::weather
