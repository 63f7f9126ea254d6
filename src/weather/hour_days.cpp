// SPDX-License-Identifier: MIT
#include "weather/hour_days.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/unit_words.hpp"
#include "weather/checks.hpp"

namespace soilclock::weather {

namespace {

constexpr std::uint32_t all_hours = 0xFFFFFF;

/// What the hours of one day give; bit h of a mask stands for the hour from h to h + 1.
struct DayTally {
  std::uint32_t stamped = 0;
  std::uint32_t air = 0;
  std::uint32_t rain = 0;
  double low = std::nan("");
  double high = std::nan("");
  double rain_sum = 0.0;
};

int longest_hole(std::uint32_t mask) {
  int longest = 0;
  int run = 0;
  for (int hour = 0; hour < 24; ++hour) {
    run = (mask >> hour & 1U) != 0 ? 0 : run + 1;
    longest = std::max(longest, run);
  }
  return longest;
}

int count_hours(std::uint32_t mask) {
  int count = 0;
  for (; mask != 0; mask &= mask - 1) ++count;
  return count;
}

double value_at(const std::vector<double>& values, std::size_t i) {
  return values.empty() ? std::nan("") : values[i];
}

class HourCutter {
 public:
  HourCutter(const HourlyValues& values, StandardClock clock, const HourDayRule& rule, ParsedFile& reading,
             ReadingNotes& notes)
      : values_{values}, clock_{std::move(clock)}, rule_{rule}, reading_{reading}, notes_{notes} {}

  void cut() {
    first_ = date::floor<Days>(clock_.local(values_.stamps.front())) - Days{1};
    const Day last = date::floor<Days>(clock_.local(values_.stamps.back()));
    days_.resize(static_cast<std::size_t>((last - first_).count()) + 1);
    remove_flat_air();
    if (rule_.keep_hours) reading_.hours.reserve(values_.stamps.size());
    for (std::size_t i = 0; i < values_.stamps.size(); ++i) add_hour(i);
    fill_days();
  }

 private:
  struct Slot {
    DayTally& day;
    std::uint32_t bit;
  };

  Slot slot(Instant local) {
    const Day day = date::floor<Days>(local);
    const auto hour = static_cast<unsigned>((local - day) / std::chrono::hours{1});
    return {days_[static_cast<std::size_t>((day - first_).count())], 1U << hour};
  }

  /// Air that keeps one value for days is no weather: a source that answers zeros, a sensor that hangs.
  void remove_flat_air() {
    constexpr std::chrono::hours longest_calm{
        48};  // judgment; calms of measured and modelled hours end sooner
    for (std::size_t i = 0; i < values_.air.size();) {
      std::size_t end = i + 1;
      while (end < values_.air.size() && values_.air[end] == values_.air[i]) ++end;
      if (values_.stamps[end - 1] - values_.stamps[i] >= longest_calm) {
        notes_.repeated(
            "runs of equal hours",
            fmt::format(
                "{} hours in a row of exactly {} from {} on: no weather stands still so long; taken as "
                "missing",
                end - i, temperature_words(Temperature::from_celsius(values_.air[i]), notes_.us_units()),
                iso(date::floor<Days>(values_.stamps[i]))),
            std::nullopt);
        flat_.push_back({i, end});
      }
      i = end;
    }
  }

  bool is_flat(std::size_t i) const {
    return std::any_of(flat_.begin(), flat_.end(),
                       [&](const auto& run) { return i >= run.first && i < run.second; });
  }

  double usable_air(double celsius, Instant at) {
    if (std::isnan(celsius) || plausible(Temperature::from_celsius(celsius))) return celsius;
    notes_.repeated("impossible temperatures",
                    fmt::format("{} in an hour of {} is not weather; taken as missing",
                                temperature_words(Temperature::from_celsius(celsius), notes_.us_units()),
                                iso(date::floor<Days>(at))),
                    std::nullopt);
    return std::nan("");
  }

  void add_hour(std::size_t i) {
    const Instant at = clock_.local(values_.stamps[i]);
    const Instant within = at - std::chrono::seconds{1};
    const bool flat = is_flat(i);
    const double air = flat ? std::nan("") : usable_air(value_at(values_.air, i), at);
    const bool of_hour = !values_.air_low.empty() && !flat;
    const double low = of_hour ? usable_air(values_.air_low[i], at) : air;
    const double high = of_hour ? usable_air(values_.air_high[i], at) : air;
    const Slot extremes = slot(of_hour ? within : at);
    extremes.day.stamped |= extremes.bit;
    if (!std::isnan(low) && !std::isnan(high)) {
      extremes.day.air |= extremes.bit;
      if (!(extremes.day.low <= low)) extremes.day.low = low;
      if (!(extremes.day.high >= high)) extremes.day.high = high;
    }
    const double rain = value_at(values_.rain, i);
    const bool rain_known = rain >= 0.0 && rain <= wettest_hour_mm;
    if (!std::isnan(rain) && !rain_known) {
      notes_.repeated(
          "impossible rain amounts",
          fmt::format("{} of rain in an hour of {} is not possible; taken as missing",
                      water_words(Rain::from_mm(rain), notes_.us_units()), iso(date::floor<Days>(at))),
          std::nullopt);
    }
    if (rain_known) {
      const Slot amount = slot(within);
      amount.day.rain |= amount.bit;
      amount.day.rain_sum += rain;
    }
    if (!rule_.keep_hours) return;
    HourlyObservation hour;
    hour.day = date::floor<Days>(of_hour ? within : at);
    hour.minute_of_day = static_cast<int>((at - hour.day) / std::chrono::minutes{1});
    if (!std::isnan(air)) hour.air = Temperature::from_celsius(air);
    const double damp = value_at(values_.humidity, i);
    if (damp >= 0.0 && damp <= 100.0) hour.humidity_percent = damp;
    const double wind = value_at(values_.wind, i);
    if (wind >= 0.0) hour.wind_m_per_s = wind;
    if (rain_known) hour.rain = Rain::from_mm(rain);
    reading_.hours.push_back(hour);
  }

  void fill_days() {
    int empty = 0;
    // An hour that ends at the last midnight belongs to the day before it.
    while (days_.back().stamped == 0) days_.pop_back();
    for (std::size_t i = 0; i < days_.size(); ++i) {
      const DayTally& tally = days_[i];
      const Day day = first_ + Days{static_cast<int>(i)};
      const Rain rain = Rain::from_mm(tally.rain_sum);
      if (tally.rain == all_hours && plausible(rain)) {
        reading_.daily.rain.set(day, rain, rule_.quality);
      } else if (tally.rain == all_hours) {
        notes_.repeated("impossible rain amounts",
                        fmt::format("{} of rain on {} is not possible; taken as missing",
                                    water_words(rain, notes_.us_units()), iso(day)),
                        std::nullopt);
      }
      // The day before the first stamp is there for its rain only.
      if (tally.stamped == 0 && !reading_.first_date) continue;
      if (!reading_.first_date) reading_.first_date = day;
      reading_.last_date = day;
      const int hours = count_hours(tally.air);
      reading_.days_with_data += hours > 0 ? 1 : 0;
      reading_.partial_days += hours > 0 && hours * 4 < 24 * 3 ? 1 : 0;
      empty += hours == 0 ? 1 : 0;
      if (hours == 0) continue;
      if (longest_hole(tally.air) <= rule_.most_missing) {
        reading_.daily.air_min.set(day, Temperature::from_celsius(tally.low), rule_.quality);
        reading_.daily.air_max.set(day, Temperature::from_celsius(tally.high), rule_.quality);
      } else {
        holed_.push_back(day);
      }
    }
    reading_.missing_days = empty;
    reading_.daily.day_definition = local_standard_days;
    note_days();
  }

  void note_days() {
    if (reading_.missing_days > 0) {
      notes_.doubt(fmt::format("{} {} of those it speaks of without any usable temperature",
                               reading_.missing_days, reading_.missing_days == 1 ? "day" : "days"));
    }
    // An answer starts and ends when it does; a hole inside it is worth a look.
    std::vector<std::string> inside;
    for (const Day day : holed_) {
      if (day != *reading_.first_date && day != *reading_.last_date) inside.push_back(iso(day));
    }
    if (inside.empty()) return;
    notes_.doubt(fmt::format("{} {} hours, so the hours give no extremes: {}", inside.size(),
                             inside.size() == 1 ? "day lacks" : "days lack", shortened_list(inside, 6)));
  }

  const HourlyValues& values_;
  StandardClock clock_;
  HourDayRule rule_;
  ParsedFile& reading_;
  ReadingNotes& notes_;
  Day first_{};
  std::vector<DayTally> days_;
  std::vector<Day> holed_;
  std::vector<std::pair<std::size_t, std::size_t>> flat_;  // [begin, end) of hours
};

}  // namespace

std::chrono::seconds StandardClock::offset(Instant at) {
  const Day day = date::floor<Days>(at);
  if (day == known_day_) return known_offset_;
  const std::chrono::seconds start = zone_.standard_offset(Instant{day});
  if (start != zone_.standard_offset(Instant{day + Days{1}})) return zone_.standard_offset(at);
  known_day_ = day;
  known_offset_ = start;
  return start;
}

Instant StandardClock::local(Instant at) { return at + offset(at); }

std::optional<TimeZone> zone_of_days(const ReadingOptions& options, const std::optional<Place>& place,
                                     ReadingNotes& notes) {
  if (options.time_zone) return options.time_zone;
  if (!place) return std::nullopt;
  TimeZone zone = TimeZone::of_longitude(place->longitude_deg);
  notes.doubt(
      fmt::format("the time zone of the place is not said: days are cut at midnight of {}, the whole hours "
                  "of its longitude",
                  zone.name()));
  return zone;
}

void cut_into_days(const HourlyValues& values, StandardClock clock, const HourDayRule& rule,
                   ParsedFile& reading, ReadingNotes& notes) {
  HourCutter{values, std::move(clock), rule, reading, notes}.cut();
}

void conclude(ParsedFile& reading, const ReadingNotes& notes, std::size_t hours) {
  reading.doubts = notes.finished();
  reading.outcome = reading.doubts.empty() ? Outcome::ok : Outcome::warn;
  // Slips are few; a tenth of all is another unit.
  const int impossible = notes.count("impossible temperatures");
  const int days = reading.first_date && reading.last_date
                       ? static_cast<int>((*reading.last_date - *reading.first_date).count()) + 1
                       : 0;
  const int all = hours == 0 ? days : static_cast<int>(hours);
  constexpr int few = 3;
  if (impossible < few || impossible * 10 <= all) return;
  reading.refusal = notes.problem(
      fmt::format("{} temperatures are not weather: they are not in the unit they are labeled with",
                  impossible),
      {}, {}, {}, "temperatures of the air in the unit named", "check the unit that was asked for");
  reading.outcome = Outcome::error;
}

}  // namespace soilclock::weather
