// SPDX-License-Identifier: MIT
#include "weather/rows/row_clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/text.hpp"
#include "weather/table/date_order.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

long long minutes_of(Day day) {
  return static_cast<long long>(day.time_since_epoch().count()) * minutes_a_day;
}

Moment moment_at(long long minutes) {
  const Day day{Days{static_cast<int>(minutes >= 0 ? minutes / minutes_a_day
                                                   : (minutes - minutes_a_day + 1) / minutes_a_day)}};
  return {day, static_cast<int>(minutes - minutes_of(day)), minutes};
}

/// A whole number from a cell such as "2023" or "364"; -1 for anything else.
int whole_number(std::string_view field) {
  const auto value = parse_number(field);
  if (!value || *value < 0.0 || *value > 9999.0 || *value != std::floor(*value)) return -1;
  return static_cast<int>(*value);
}

class MomentReader {
 public:
  MomentReader(const Table& table, const TableSection& section, const ColumnPlan& plan,
               const ReadingOptions& options, ReadingNotes& notes)
      : table_{table},
        block_{section},
        plan_{plan},
        options_{options},
        notes_{notes},
        stamp_{plan.find(Quantity::stamp)} {
    time_ = plan.find(Quantity::hour_ending);
    hour_ending_ = time_.has_value();
    if (!time_) time_ = plan.find(Quantity::time_of_day);
  }

  Result<TimedRows> read() {
    drop_cut_line();
    if (const auto parsed = parse_rows(); !parsed) return fail(parsed.error());
    DateOrder order = DateOrder::automatic;
    if (stamp_) {
      const auto settled = settle_date_order(open_, options_.dates, static_cast<int>(*stamp_) + 1, notes_);
      if (!settled) return fail(settled.error());
      order = *settled;
      open_ = {};
    }
    note_clock();
    result_.moments.reserve(rows_.size());
    for (const std::size_t row : rows_) {
      const auto moment = moment_of(row, order);
      if (!moment) return fail(moment.error());
      result_.moments.push_back(*moment);
    }
    result_.records = std::move(rows_);
    set_reset_clock_aside();
    set_lone_dates_aside();
    return std::move(result_);
  }

 private:
  /// A download that broke off ends inside a line: fewer fields and no line end.
  void drop_cut_line() {
    rows_ = block_.rows;
    const std::size_t width = plan_.columns.size();
    if (rows_.empty() || table_.ends_with_newline() || rows_.back() + 1 != table_.size()) return;
    if (table_.width(rows_.back()) >= width || rows_.size() < 2 ||
        !starts_like_a_number(table_.field(rows_.back(), 0)))
      return;
    notes_.doubt(fmt::format("the last line is cut off ({} of {} fields, no line end: '{}') and is left out",
                             table_.width(rows_.back()), width, printable(table_.whole(rows_.back()), 40)),
                 table_.line(rows_.back()));
    rows_.pop_back();
  }

  /// The date of a row as written. Read twice, first to see what the whole column says and then for the
  /// moments: keeping millions of stamps costs more than reading them again.
  std::optional<RawStamp> stamp_of(std::size_t row) const {
    if (stamp_) return parse_stamp(table_.field(row, *stamp_));
    RawStamp stamp;
    stamp.a = whole_number(table_.field(row, *plan_.find(Quantity::year)));
    if (stamp.a < 1700 || stamp.a > 2200) return std::nullopt;
    if (const auto column = plan_.find(Quantity::day_of_year)) {
      stamp.b = 1;
      stamp.c = whole_number(table_.field(row, *column));  // days after 31 December, settled in moment_of
      return stamp.c >= 1 && stamp.c <= 366 ? std::optional{stamp} : std::nullopt;
    }
    stamp.b = whole_number(table_.field(row, *plan_.find(Quantity::month)));
    stamp.c = whole_number(table_.field(row, *plan_.find(Quantity::day_of_month)));
    return stamp.b >= 0 && stamp.c >= 0 ? std::optional{stamp} : std::nullopt;
  }

  /// What the stamp of a row tells about the whole column.
  void take_evidence(const RawStamp& stamp, std::size_t row) {
    const bool epoch = stamp.form == RawStamp::Form::epoch;
    const bool part_of_day = stamp.form == RawStamp::Form::serial && stamp.number != std::floor(stamp.number);
    result_.has_time = result_.has_time || time_ || stamp.minute || epoch || part_of_day;
    result_.unique_instants = result_.unique_instants || epoch || stamp.offset_minutes;
    all_utc_ = all_utc_ && (epoch || stamp.offset_minutes == 0);
    if (is_open(stamp)) open_.push_back({stamp, table_.line(row)});
  }

  Checked parse_rows() {
    RowList kept;
    RowList strange;
    kept.reserve(rows_.size());
    for (const auto row : rows_) {
      if (const auto stamp = stamp_of(row)) {
        kept.push_back(row);
        take_evidence(*stamp, row);
      } else {
        strange.push_back(row);
      }
    }
    if (kept.size() < strange.size() || kept.empty()) {
      const std::size_t row = strange.empty() ? block_.heading_record : strange.front();
      const std::size_t column = stamp_.value_or(0);
      return fail(notes_.problem(fmt::format("the column '{}' holds no dates", plan_.columns[column].heading),
                                 table_.line(row), static_cast<int>(column) + 1,
                                 std::string{table_.field(row, column)}, "dates such as 2024-05-01",
                                 "name the date column with --columns"));
    }
    note_strange_rows(strange, kept.back());
    rows_ = std::move(kept);
    return check_widths();
  }

  void note_strange_rows(const RowList& strange, std::size_t last_data) {
    RowList footer;
    for (const auto row : strange) {
      if (row > last_data) {
        footer.push_back(row);
        continue;
      }
      notes_.repeated(
          "rows without a date",
          fmt::format("no date in this row ('{}'); it is left out", printable(table_.whole(row), 40)),
          table_.line(row));
    }
    if (footer.empty()) return;
    notes_.doubt(
        fmt::format("{} {} below the data ('{}' ...) hold totals or notes and are left out", footer.size(),
                    footer.size() == 1 ? "line" : "lines", printable(table_.whole(footer.front()), 30)),
        table_.line(footer.front()));
  }

  /// More fields than headings in most rows means that the delimiter also stands inside the numbers.
  Checked check_widths() {
    if (block_.names.empty()) return {};
    const std::size_t width = plan_.columns.size();
    std::size_t named = width;
    while (named > 0 && block_.names[named - 1].empty()) --named;
    std::size_t wide = 0;
    std::size_t narrow = 0;
    std::size_t first_wide = 0;
    for (const std::size_t row : rows_) {
      std::size_t used = table_.width(row);
      while (used > width && table_.field(row, used - 1).empty()) --used;
      if (used > width && wide++ == 0) first_wide = row;
      if (used > width)
        notes_.repeated("rows with too many fields",
                        fmt::format("{} fields where the heading has {}", used, width), table_.line(row));
      narrow += table_.width(row) < named ? 1 : 0;
      if (used < width && used + 1 < width) {
        notes_.repeated("rows with too few fields",
                        fmt::format("{} fields where the heading has {}; the rest is missing", used, width),
                        table_.line(row));
      }
    }
    if (narrow == rows_.size() && rows_.size() > 1) {
      return fail(
          notes_.problem("every row has fewer fields than the heading, so nothing says which heading belongs "
                         "to which column",
                         table_.line(rows_.front()), {}, std::string{table_.whole(rows_.front())},
                         fmt::format("{} fields", width),
                         "if a heading holds the sign that parts the columns, quote it or take it out"));
    }
    if (wide * 2 <= rows_.size()) return {};
    return fail(notes_.problem(
        "the rows have more fields than the heading", table_.line(first_wide), {},
        std::string{table_.whole(first_wide)}, fmt::format("{} fields", width),
        "if the numbers have decimal commas, export with another separator such as a semicolon"));
  }

  void note_clock() {
    if (time_ && !hour_ending_) {
      whole_hours_ = std::all_of(rows_.begin(), rows_.end(), [&](std::size_t row) {
        const auto value = parse_number(table_.field(row, *time_));
        return value && *value <= 24.0;
      });
    } else if (time_) {
      whole_hours_ = std::all_of(rows_.begin(), rows_.end(), [&](std::size_t row) {
        const std::string_view field = table_.field(row, *time_);
        return field.find(':') != std::string_view::npos || whole_number(field) <= 24;
      });
    }
    const bool offsets = result_.unique_instants;
    utc_ = offsets && all_utc_;
    if (utc_ && !options_.time_zone) {
      result_.clock = "UTC";
      notes_.doubt(
          "the stamps are UTC and no time zone of the site is given, so the days are UTC days; give "
          "--time-zone",
          table_.line(rows_.front()), static_cast<int>(*stamp_) + 1);
    } else if (offsets || result_.has_time) {
      result_.clock = "wall clock";
    }
  }

  Moment utc_moment(long long utc_minutes) const {
    if (!options_.time_zone) return moment_at(utc_minutes);
    const Instant instant{std::chrono::seconds{utc_minutes * 60}};
    const auto offset =
        std::chrono::duration_cast<std::chrono::minutes>(options_.time_zone->wall_offset(instant));
    Moment moment = moment_at(utc_minutes + offset.count());
    moment.instant = utc_minutes;
    return moment;
  }

  Result<Moment> moment_of(std::size_t row, DateOrder order) const {
    const std::optional<RawStamp> read = stamp_of(row);
    const RawStamp& stamp = *read;
    if (stamp.form == RawStamp::Form::epoch) return utc_moment(std::llround(stamp.number / 60.0));
    if (stamp.form == RawStamp::Form::serial) {
      // Five decimals of a day need rounding to the minute.
      return moment_at(std::llround((stamp.number - serial_of_1970) * minutes_a_day));
    }
    std::optional<Day> day = day_of(stamp, order);
    if (!stamp_ && plan_.find(Quantity::day_of_year)) {
      day = make_day(stamp.a, 1, 1) + Days{stamp.c - 1};
      if (civil(*day).year != stamp.a) day.reset();
    }
    if (!day) {
      const std::size_t column = stamp_ ? *stamp_ : plan_.find(Quantity::day_of_year).value_or(0);
      const std::string found =
          stamp_ ? std::string{table_.field(row, column)} : std::string{table_.whole(row)};
      return fail(notes_.problem("this date does not exist", table_.line(row), static_cast<int>(column) + 1,
                                 found, "a day of the calendar", "correct the line or remove it"));
    }
    int minute = stamp.minute.value_or(0);
    if (time_) {
      const std::string_view field = table_.field(row, *time_);
      const auto time = parse_time_of_day(field, whole_hours_);
      if (!time) {
        return fail(notes_.problem("this is not a time of day", table_.line(row),
                                   static_cast<int>(*time_) + 1, std::string{field},
                                   "a time such as 14:00, 2:00 PM or 1400", "correct the line or remove it"));
      }
      minute = *time;
    }
    if (hour_ending_ && minute == 0) return Moment{*day - Days{1}, minutes_a_day, minutes_of(*day)};
    const long long local = minutes_of(*day) + minute;
    if (!stamp.offset_minutes) return Moment{*day, minute, local};
    if (utc_) return utc_moment(local);
    return Moment{*day, minute, local - *stamp.offset_minutes};
  }

  /// Clocks that lost their battery restart at the birthday of their maker's calendar.
  void set_reset_clock_aside() {
    if (result_.moments.size() < 3) return;
    std::vector<Day> days;
    days.reserve(result_.moments.size());
    for (const Moment& moment : result_.moments) days.push_back(moment.day);
    const auto middle = days.begin() + static_cast<std::ptrdiff_t>(days.size() / 2);
    std::nth_element(days.begin(), middle, days.end());
    const Day median = *middle;
    static const std::array births{make_day(1900, 1, 1), make_day(1904, 1, 1), make_day(1970, 1, 1),
                                   make_day(1980, 1, 1), make_day(1990, 1, 1), make_day(2000, 1, 1)};
    const auto reset = [&](Day day) {
      const bool near_birth = std::any_of(births.begin(), births.end(), [&](Day birth) {
        return day >= birth - Days{2} && day < birth + Days{14};
      });
      return near_birth && median - day > Days{730};
    };
    // A long record that really began then has far more early days than a restarted clock.
    const auto early = std::count_if(result_.moments.begin(), result_.moments.end(),
                                     [&](const Moment& m) { return median - m.day > Days{730}; });
    const auto resets = std::count_if(result_.moments.begin(), result_.moments.end(),
                                      [&](const Moment& m) { return reset(m.day); });
    if (resets == 0 || resets != early) return;
    TimedRows kept = result_;
    kept.records.clear();
    kept.moments.clear();
    std::vector<std::string> lines;
    int first_line = 0;
    Day shown{};
    for (std::size_t i = 0; i < result_.moments.size(); ++i) {
      if (reset(result_.moments[i].day)) {
        if (lines.empty()) {
          first_line = table_.line(result_.records[i]);
          shown = result_.moments[i].day;
        }
        lines.push_back(std::to_string(table_.line(result_.records[i])));
        continue;
      }
      kept.records.push_back(result_.records[i]);
      kept.moments.push_back(result_.moments[i]);
    }
    notes_.doubt(
        fmt::format("{} rows are stamped {} by a clock that was reset (lines {}); they are set aside",
                    lines.size(), iso(shown), shortened_list(lines, 5)),
        first_line);
    result_ = std::move(kept);
  }

  /// A row dated more than a year away from both its neighbors, which are close to each other: a slip of the
  /// pen that would stretch the record over years.
  void set_lone_dates_aside() {
    const std::vector<Moment>& all = result_.moments;
    const auto apart = [&](std::size_t a, std::size_t b) {
      return std::abs((all[a].day - all[b].day).count()) > 366;
    };
    std::vector<std::size_t> lone;
    for (std::size_t i = 1; i + 1 < all.size(); ++i) {
      if (apart(i, i - 1) && apart(i, i + 1) && !apart(i - 1, i + 1)) lone.push_back(i);
    }
    // Many of them are no slips: the rows of two periods are mixed.
    if (lone.empty() || lone.size() > std::max<std::size_t>(3, all.size() / 100)) return;
    TimedRows kept = result_;
    kept.records.clear();
    kept.moments.clear();
    auto next = lone.begin();
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (next == lone.end() || *next != i) {
        kept.records.push_back(result_.records[i]);
        kept.moments.push_back(all[i]);
        continue;
      }
      ++next;
      notes_.repeated(
          "rows dated far away from their neighbors",
          fmt::format("{} lies more than a year away from the rows before and after it; the row is set aside",
                      iso(all[i].day)),
          table_.line(result_.records[i]));
    }
    result_ = std::move(kept);
  }

  const Table& table_;
  const TableSection& block_;
  const ColumnPlan& plan_;
  const ReadingOptions& options_;
  ReadingNotes& notes_;
  std::optional<std::size_t> stamp_;
  std::optional<std::size_t> time_;
  bool hour_ending_ = false;
  bool whole_hours_ = false;
  bool utc_ = false;
  RowList rows_;
  std::vector<LinedStamp> open_;  // stamps that can be read in more than one order
  bool all_utc_ = true;
  TimedRows result_;
};

}  // namespace

Result<TimedRows> read_moments(const Table& table, const TableSection& section, const ColumnPlan& plan,
                               const ReadingOptions& options, ReadingNotes& notes) {
  return MomentReader{table, section, plan, options, notes}.read();
}

}  // namespace soilclock::weather
