// SPDX-License-Identifier: MIT
#include "weather/rows/sub_daily_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "core/unit_words.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"
#include "weather/rows/hourly_cleaning.hpp"
#include "weather/rows/rain_counters.hpp"
#include "weather/rows/repeated_moments.hpp"
#include "weather/rows/step_counts.hpp"

namespace soilclock::weather {

namespace {

constexpr int longest_hole = 6 * 60;

RowList in_time_order(const TimedRows& rows) {
  RowList order(rows.moments.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto earlier = [&](std::size_t a, std::size_t b) {
    return rows.moments[a].instant < rows.moments[b].instant;
  };
  if (!std::is_sorted(order.begin(), order.end(), earlier))
    std::stable_sort(order.begin(), order.end(), earlier);
  return order;
}

struct Step {
  int minutes = 60;
  bool mixed = false;
};

Step usual_step(const SectionData& data, const RowList& rows) {
  StepCounts steps;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const long long step = data.rows.moments[rows[i]].instant - data.rows.moments[rows[i - 1]].instant;
    if (step > 0 && step <= minutes_a_day) steps.add(step);
  }
  Step result;
  const auto usual = steps.usual();
  if (!usual) return result;
  result.minutes = static_cast<int>(*usual);
  for (const auto& [step, count] : steps.counts()) {
    result.mixed = result.mixed || (step != *usual && count * 20 >= rows.size() && count >= 3);
  }
  return result;
}

std::string step_name(const Step& step) {
  if (step.mixed) return "mixed";
  if (step.minutes == 60) return "hourly";
  if (step.minutes % 60 == 0) return fmt::format("{}-hourly", step.minutes / 60);
  return fmt::format("{}-minute", step.minutes);
}

/// The rows of one day, [begin, end) in time order.
struct DaySpan {
  Day day;
  std::size_t begin;
  std::size_t end;
};

/// What one day's readings of one column give.
struct DaySummary {
  int usable = 0;
  int hole = minutes_a_day;  ///< the longest time without a usable reading
  double low = std::nan("");
  double high = std::nan("");
  double sum = 0.0;
};

class SubDailyRows {
 public:
  SubDailyRows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading,
               ReadingNotes& notes, RowList rows, Step step)
      : data_{data},
        reading_{reading},
        notes_{notes},
        rows_{std::move(rows)},
        step_{step},
        swap_reversed_{options.swap_reversed_extremes},
        keep_hours_{options.keep_hours} {}

  Checked fill() {
    reading_.step = step_name(step_);
    cut_days();
    reading_.first_date = days_.front().day;
    reading_.last_date = days_.back().day;
    if (const auto done = fill_air(); !done) return done;
    fill_soil();
    fill_rain();
    if (keep_hours_) fill_hours();
    note_days();
    return {};
  }

 private:
  int expected() const { return std::max(1, minutes_a_day / step_.minutes); }
  const Moment& moment(std::size_t i) const { return data_.rows.moments[rows_[i]]; }

  void cut_days() {
    // An offset can turn back the civil day while time runs on, so days are cut on the civil day.
    const auto earlier = [&](std::size_t a, std::size_t b) {
      return data_.rows.moments[a].day < data_.rows.moments[b].day;
    };
    if (!std::is_sorted(rows_.begin(), rows_.end(), earlier))
      std::stable_sort(rows_.begin(), rows_.end(), earlier);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (days_.empty() || days_.back().day != moment(i).day) days_.push_back({moment(i).day, i, i});
      days_.back().end = i + 1;
    }
  }

  DaySummary summary(const DaySpan& span, const std::vector<double>& values) const {
    DaySummary result;
    int seen = 0;
    int hole = 0;
    for (std::size_t i = span.begin; i < span.end; ++i) {
      const double value = values[i];
      if (std::isnan(value)) continue;
      ++result.usable;
      hole = std::max(hole, moment(i).minute - seen);
      seen = moment(i).minute;
      result.sum += value;
      if (!(result.low <= value)) result.low = value;
      if (!(result.high >= value)) result.high = value;
    }
    result.hole = std::max(hole, minutes_a_day - seen);
    return result;
  }

  /// Rows whose own minimum is above their own maximum have neither.
  Checked settle_reversed(std::vector<double>& lows, std::vector<double>& highs, std::size_t low,
                          std::size_t high) {
    std::size_t pairs = 0;
    std::size_t reversed = 0;
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < lows.size(); ++i) {
      if (std::isnan(lows[i]) || std::isnan(highs[i])) continue;
      ++pairs;
      if (lows[i] <= highs[i]) continue;
      first = first.value_or(i);
      ++reversed;
      if (swap_reversed_) {
        std::swap(lows[i], highs[i]);
        continue;
      }
      notes_.repeated("readings with the minimum above the maximum",
                      "the minimum of this reading is above its maximum; both are taken as missing",
                      data_.line(rows_[i]), static_cast<int>(low) + 1);
      lows[i] = highs[i] = std::nan("");
    }
    if (swap_reversed_ && reversed > 0)
      notes_.doubt(
          fmt::format("the minimum is above the maximum in {} readings; exchanged as asked", reversed));
    if (swap_reversed_ || reversed * 2 <= pairs) return {};
    return fail(exchanged_columns(data_.line(rows_[*first]), data_.plan.columns[low].heading,
                                  data_.plan.columns[high].heading, notes_));
  }

  Checked fill_air() {
    auto low = data_.plan.find(Quantity::air_min);
    auto high = data_.plan.find(Quantity::air_max);
    auto plain = data_.plan.find(Quantity::air);
    if (!plain) plain = data_.plan.find(Quantity::air_mean);
    if (!low || !high) low = high = plain;
    if (!low) return {};
    auto lows = clean_temperatures(data_, rows_, *low, notes_);
    std::vector<double> highs;
    if (low != high) {
      highs = clean_temperatures(data_, rows_, *high, notes_);
      if (const auto done = settle_reversed(lows, highs, *low, *high); !done) return done;
    }
    const bool other_air = plain && plain != low;
    if (other_air) air_ = clean_temperatures(data_, rows_, *plain, notes_);
    fill_extremes(lows, low == high ? lows : highs);
    if (!other_air && keep_hours_) air_ = std::move(lows);
    return {};
  }

  void fill_extremes(const std::vector<double>& lows, const std::vector<double>& highs) {
    for (const DaySpan& span : days_) {
      const DaySummary a = summary(span, lows);
      const DaySummary b = &lows == &highs ? a : summary(span, highs);
      const int usable = std::min(a.usable, b.usable);
      if (!count(span, usable)) continue;
      const bool whole = std::max(a.hole, b.hole) <= longest_hole;
      if (!whole) {
        holed_.push_back(span.day);
        continue;
      }
      reading_.daily.air_min.set(span.day, Temperature::from_celsius(a.low), Quality::measured);
      reading_.daily.air_max.set(span.day, Temperature::from_celsius(b.high), Quality::measured);
    }
  }

  /// Counts a day by its usable readings; false when there are none.
  bool count(const DaySpan& span, int usable) {
    if (usable == 0) return false;
    ++reading_.days_with_data;
    if (usable * 4 < expected() * 3) thin_.push_back(span.day);
    return true;
  }

  void fill_soil() {
    const bool soil_only =
        !reading_.days_with_data && !data_.plan.find(Quantity::air) && !data_.plan.find(Quantity::air_min);
    for (const std::size_t column : data_.plan.all(Quantity::soil)) {
      const auto values = clean_temperatures(data_, rows_, column, notes_);
      const bool counts = soil_only && column == data_.plan.all(Quantity::soil).front();
      for (const DaySpan& span : days_) {
        const DaySummary s = summary(span, values);
        if (counts && !count(span, s.usable)) continue;
        if (s.usable == 0 || s.hole > longest_hole) continue;
        reading_.daily.soil[Depth::from_cm(*data_.plan.columns[column].meaning.depth_cm)].set(
            span.day, Temperature::from_celsius(s.sum / s.usable), Quality::measured);
      }
    }
  }

  /// Amounts that no hour on record brought; a day that lacks one has no total.
  std::set<Day> remove_impossible_rain() {
    std::set<Day> broken;
    const double most = wettest_hour_mm * std::max(1.0, step_.minutes / 60.0);
    for (std::size_t i = 0; i < rain_.size(); ++i) {
      if (!(rain_[i] > most)) continue;
      notes_.repeated("impossible rain amounts",
                      fmt::format("{} of rain in one reading is not possible; taken as missing",
                                  water_words(Rain::from_mm(rain_[i]), notes_.us_units())),
                      data_.line(rows_[i]));
      rain_[i] = std::nan("");
      broken.insert(moment(i).day);
    }
    return broken;
  }

  void fill_rain() {
    auto amounts = rain_amounts(data_, rows_, notes_);
    if (!amounts) return;
    rain_ = std::move(*amounts);
    const std::set<Day> broken = remove_impossible_rain();
    for (const DaySpan& span : days_) {
      const DaySummary s = summary(span, rain_);
      if (broken.contains(span.day)) continue;
      const auto rows = static_cast<int>(span.end - span.begin);
      // A sum of part of a day would look like a whole one.
      if (s.usable * 4 < rows * 3 || s.hole > longest_hole) continue;
      const Rain total = Rain::from_mm(s.sum);
      if (plausible(total)) {
        reading_.daily.rain.set(span.day, total, Quality::measured);
      } else {
        notes_.repeated("impossible rain amounts",
                        fmt::format("{} of rain on {} is not possible; taken as missing",
                                    water_words(total, notes_.us_units()), iso(span.day)),
                        data_.line(rows_[span.begin]));
      }
    }
  }

  void fill_hours() {
    const auto humidity = data_.plan.find(Quantity::humidity);
    const auto wind = data_.plan.find(Quantity::wind);
    const Unit wind_unit = wind ? data_.plan.columns[*wind].meaning.unit : Unit::none;
    const std::vector<double>* damp = humidity ? &data_.values.at(*humidity).values : nullptr;
    const std::vector<double>* speed =
        wind && wind_unit != Unit::none ? &data_.values.at(*wind).values : nullptr;
    reading_.hours.reserve(rows_.size());
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      HourlyObservation hour;
      hour.day = moment(i).day;
      hour.minute_of_day = moment(i).minute;
      if (!air_.empty() && !std::isnan(air_[i])) hour.air = Temperature::from_celsius(air_[i]);
      if (damp != nullptr && (*damp)[rows_[i]] >= 0.0 && (*damp)[rows_[i]] <= 100.0)
        hour.humidity_percent = (*damp)[rows_[i]];
      if (speed != nullptr && (*speed)[rows_[i]] >= 0.0)
        hour.wind_m_per_s = to_wind_speed((*speed)[rows_[i]], wind_unit);
      if (!rain_.empty() && !std::isnan(rain_[i])) hour.rain = Rain::from_mm(rain_[i]);
      reading_.hours.push_back(hour);
    }
  }

  void note_days() {
    reading_.partial_days = static_cast<int>(thin_.size());
    const int span = static_cast<int>((*reading_.last_date - *reading_.first_date).count()) + 1;
    reading_.missing_days = span - reading_.days_with_data;
    if (reading_.missing_days > 0) {
      notes_.doubt(fmt::format("{} {} between the first and the last without any usable temperature",
                               reading_.missing_days, reading_.missing_days == 1 ? "day" : "days"));
    }
    // A record starts and ends when it does; thin days inside it are worth a look.
    std::vector<std::string> inside;
    for (const Day day : thin_) {
      if (day == *reading_.first_date || day == *reading_.last_date) continue;
      const bool holed = std::find(holed_.begin(), holed_.end(), day) != holed_.end();
      inside.push_back(iso(day) + (holed ? " (not used)" : ""));
    }
    if (inside.empty()) return;
    notes_.doubt(fmt::format(
        "{} {} with fewer than three quarters of the {} expected readings, so the true extremes may be "
        "missed: {}",
        inside.size(), inside.size() == 1 ? "day" : "days", expected(), shortened_list(inside, 6)));
  }

  const SectionData& data_;
  ParsedFile& reading_;
  ReadingNotes& notes_;
  RowList rows_;
  Step step_;
  bool swap_reversed_;
  bool keep_hours_;
  std::vector<DaySpan> days_;
  std::vector<double> air_;
  std::vector<double> rain_;
  std::vector<Day> thin_;
  std::vector<Day> holed_;
};

}  // namespace

Checked read_sub_daily_rows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading,
                            ReadingNotes& notes) {
  RowList order = in_time_order(data.rows);
  const Step step = usual_step(data, order);
  auto rows = settle_repeats(data, std::move(order), step.minutes, options.time_zone, notes);
  if (!rows) return fail(rows.error());
  return SubDailyRows{data, options, reading, notes, std::move(*rows), step}.fill();
}

}  // namespace soilclock::weather
