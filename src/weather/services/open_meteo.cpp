// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/hour_days.hpp"
#include "weather/preamble.hpp"
#include "weather/services/answer_clock.hpp"
#include "weather/services/open_meteo_block.hpp"
#include "weather/unit_recognition.hpp"

namespace soilclock::weather {

namespace {

bool any_number(const std::vector<double>& values) {
  return std::any_of(values.begin(), values.end(), [](double value) { return !std::isnan(value); });
}

/// Which run of which model a series is.
struct RunName {
  std::string model;
  int member = 0;
  friend auto operator<=>(const RunName&, const RunName&) = default;
};

std::string described(const RunName& run) {
  std::string text = run.model.empty() ? "" : " of model " + run.model;
  if (run.member > 0) text += fmt::format(" of member {}", run.member);
  return text;
}

template <class Value>
void add_absent(DailySeries<Value>& into, const DailySeries<Value>& from) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (value && !into.at(day)) into.set(day, *value, from.quality(day));
  }
}

void add_doubt(FileReading& reading, std::string text) {
  reading.doubts.push_back({{}, {}, std::move(text)});
  reading.outcome = Outcome::warn;
}

/// One point of an answer: its header, its blocks, and the series they hold.
class PointReader {
 public:
  PointReader(const JsonObject& point, const std::string& file, const ReadingOptions& options)
      : point_{point}, file_{file}, options_{options} {
    read_header();
    if (point_.has("hourly")) hourly_ = read_answer_block(point_, "hourly", offset_);
    if (point_.has("daily")) daily_ = read_answer_block(point_, "daily", offset_);
    refuse_disagreeing_zone();
  }

  /// The series with a temperature; `without` says which have none.
  std::vector<AnswerSeries> series(int number, std::vector<std::string>& without) {
    std::vector<AnswerSeries> result;
    for (const RunName& run : runs()) {
      auto reading = read_run(run, without);
      if (reading) result.push_back({number, run.model, run.member, location(), std::move(*reading)});
    }
    return result;
  }

  [[noreturn]] void refuse_all(const std::vector<std::string>& without) const {
    if (without.empty()) {
      point_.refuse({}, "there is no temperature in the answer",
                    "temperature_2m by the hour, or temperature_2m_max and temperature_2m_min by the day",
                    "ask for these variables");
    }
    point_.refuse({}, "the answer holds no temperature: " + shortened_list(without, 4),
                  "numbers in temperature_2m, or in temperature_2m_max and temperature_2m_min",
                  "check the variables, the dates, the model and the sign of the longitude");
  }

 private:
  void read_header() {
    std::vector<std::string> lacking;
    for (const char* key : {"latitude", "longitude", "utc_offset_seconds"}) {
      if (!point_.has(key)) lacking.emplace_back(key);
    }
    bool blocks = false;
    for (const std::string block : {"hourly", "daily"}) {
      if (!point_.has(block)) continue;
      blocks = true;
      if (!point_.has(block + "_units")) lacking.push_back(block + "_units");
    }
    if (!lacking.empty()) {
      point_.refuse({}, "the answer lacks " + listed(lacking),
                    "the answer as the service sent it, with place, clock and units",
                    "it was rewritten by a program in between; fetch it again");
    }
    if (!blocks) {
      point_.refuse({}, "the answer holds no block of hours or days", "an 'hourly' or 'daily' block",
                    "the weather of one moment makes no series");
    }
    offset_ = std::chrono::seconds{point_.integer("utc_offset_seconds", -14 * 3600, 14 * 3600)};
    place_ = checked_place(point_.number("latitude", -90.0, 90.0), point_.number("longitude", -180.0, 180.0),
                           point_.optional_number("elevation"));
    zone_name_ = point_.optional_text("timezone").value_or("");
    if (zone_name_.empty()) return;
    // A zone newer than the system's rules is no reason to refuse the data.
    if (auto zone = TimeZone::named(zone_name_)) zone_ = std::move(*zone);
  }

  std::string location() const {
    const std::string kind = point_.kind("location_id");
    if (kind == "string") return point_.text("location_id");
    return kind == "number" ? fmt::format("{:.0f}", point_.number("location_id")) : std::string{};
  }

  void refuse_disagreeing_zone() const {
    std::optional<Day> first;
    if (hourly_ && !hourly_->stamps.empty()) first = date::floor<Days>(hourly_->stamps.front());
    if (daily_ && !daily_->days.empty()) first = daily_->days.front();
    if (!zone_ || !first || zone_keeps_offset(*zone_, offset_, *first)) return;
    point_.refuse("utc_offset_seconds",
                  fmt::format("the offset {} is none that the zone {} keeps: stamps and zone disagree",
                              TimeZone::fixed(offset_).name(), zone_name_),
                  "an offset of the zone named in the answer", "ask for the data again");
  }

  /// Every run that has a temperature column in either block.
  std::set<RunName> runs() const {
    std::set<RunName> result;
    for (const auto* block : {&hourly_, &daily_}) {
      if (!*block) continue;
      for (const AnswerColumn& column : (*block)->columns) {
        if (is_temperature(column.name.quantity)) result.insert({column.name.model, column.name.member});
      }
    }
    return result;
  }

  /// The reading of one run, or nothing and a word in `without`.
  std::optional<FileReading> read_run(const RunName& run, std::vector<std::string>& without) {
    FileReading reading;
    reading.file = file_;
    reading.place = place_;
    ReadingNotes notes{file_};
    note_place(notes);
    list_columns(run, reading, notes);
    const bool hours = read_hours(run, reading, notes);
    const bool days = read_days(run, hours, reading, notes);
    if (!hours && !days) {
      without.push_back(why_without(run));
      return std::nullopt;
    }
    reading.step = hours && days ? "daily and hourly" : hours ? "hourly" : "daily";
    conclude(reading, notes);
    return reading;
  }

  void note_place(ReadingNotes& notes) const {
    if (place_->elevation_m == 0.0 && zone_name_.starts_with("Etc/")) {
      notes.doubt(fmt::format(
          "elevation 0 in the zone {}: the point {:.2f}, {:.2f} looks like open sea; check the sign of the "
          "longitude (west is negative)",
          zone_name_, place_->latitude_deg, place_->longitude_deg));
    }
  }

  void list_columns(const RunName& run, FileReading& reading, ReadingNotes& notes) const {
    for (const auto* block : {&hourly_, &daily_}) {
      if (!*block) continue;
      reading.columns.push_back({"time", "date", ""});
      for (const AnswerColumn& column : (*block)->columns) {
        const bool used = column.name.quantity != Quantity::not_used;
        if (used && RunName{column.name.model, column.name.member} != run) continue;
        reading.columns.push_back(
            {column.key, quantity_name(column.name.quantity, {}), std::string{unit_name(column.unit)}});
        if (used && !column.values.empty() && !any_number(column.values)) {
          notes.doubt(fmt::format("all {} values of '{}' are null{}", column.values.size(),
                                  column.name.variable, described(run)));
        }
      }
    }
  }

  std::string why_without(const RunName& run) const {
    for (const auto* block : {&hourly_, &daily_}) {
      if (!*block) continue;
      for (const AnswerColumn& column : (*block)->columns) {
        if (!is_temperature(column.name.quantity) || column.name.model != run.model ||
            column.name.member != run.member)
          continue;
        if (any_number(column.values)) {
          return fmt::format("'{}'{} is one temperature a day, but minimum and maximum are needed{}",
                             column.name.variable, described(run),
                             offset_ == std::chrono::seconds{0} ? " (and the days are UTC days)" : "");
        }
        return column.values.empty()
                   ? fmt::format("'{}'{} has no values", column.name.variable, described(run))
                   : fmt::format("all {} values of '{}' are null{}", column.values.size(),
                                 column.name.variable, described(run));
      }
    }
    return "no temperature" + described(run);
  }

  bool read_hours(const RunName& run, FileReading& reading, ReadingNotes& notes) {
    if (!hourly_ || hourly_->stamps.empty()) return false;
    const AnswerColumn* air = hourly_->find(Quantity::air, run.model, run.member);
    if (air == nullptr || !any_number(air->values)) return false;
    const auto values = [&](Quantity quantity) {
      const AnswerColumn* column = hourly_->find(quantity, run.model, run.member);
      return column == nullptr ? std::vector<double>{} : column->values;
    };
    const HourlyValues hours{
        hourly_->stamps,       air->values, {}, {}, values(Quantity::rain), values(Quantity::humidity),
        values(Quantity::wind)};
    if (!clock_) {
      const auto named = zone_for_days();
      clock_.emplace(named ? *named : *zone_of_days(options_, place_, clock_notes_));
    }
    for (const Doubt& doubt : clock_notes_.finished()) notes.doubt(doubt.text);
    cut_into_days(hours, *clock_, {}, reading, notes);
    return true;
  }

  /// Days of the daily block: the whole series, or what the hours leave open.
  bool read_days(const RunName& run, bool beside_hours, FileReading& reading, ReadingNotes& notes) const {
    if (!daily_ || daily_->days.empty()) return false;
    FileReading printed;
    printed.first_date = daily_->days.front();
    printed.last_date = daily_->days.back();
    if (!fill_printed(run, printed, notes)) return false;
    if (!beside_hours) {
      count_days(printed);
      check_daily_series(printed, notes);
      printed.daily.day_definition = fixed_day_definition(offset_);
      const auto about =
          doubt_about_days(zone_for_days(), offset_, {*printed.first_date, *printed.last_date + Days{1}});
      if (!about.empty()) notes.doubt(about);
      printed.file = std::move(reading.file);
      printed.place = reading.place;
      printed.columns = std::move(reading.columns);
      reading = std::move(printed);
      return true;
    }
    const auto standard = [&](Day day) { return clock_->zone().standard_offset(Instant{day}); };
    if (standard(*printed.first_date) != offset_ || standard(*printed.last_date) != offset_) {
      notes.doubt(
          fmt::format("the daily block is cut by {}, not by the standard time of the place, and is not used "
                      "beside the hours",
                      TimeZone::fixed(offset_).name()));
      return false;
    }
    add_absent(reading.daily.air_min, printed.daily.air_min);
    add_absent(reading.daily.air_max, printed.daily.air_max);
    add_absent(reading.daily.rain, printed.daily.rain);
    reading.first_date = std::min(*reading.first_date, *printed.first_date);
    reading.last_date = std::max(*reading.last_date, *printed.last_date);
    count_days(reading);
    return true;
  }

  /// The zone of the user, else the one the answer names unless it is plain UTC.
  std::optional<TimeZone> zone_for_days() const {
    if (options_.time_zone) return options_.time_zone;
    const bool plain = zone_name_ == "GMT" || zone_name_ == "UTC" || zone_name_ == "Etc/UTC";
    return plain ? std::nullopt : zone_;
  }

  /// Extremes and rain as printed; false when there is neither a minimum nor a maximum.
  bool fill_printed(const RunName& run, FileReading& printed, ReadingNotes& notes) const {
    const AnswerColumn* low = daily_->find(Quantity::air_min, run.model, run.member);
    const AnswerColumn* high = daily_->find(Quantity::air_max, run.model, run.member);
    const AnswerColumn* mean = daily_->find(Quantity::air_mean, run.model, run.member);
    const AnswerColumn* rain = daily_->find(Quantity::rain, run.model, run.member);
    if (!(low != nullptr && any_number(low->values)) && !(high != nullptr && any_number(high->values)))
      return false;
    ExtremesCheck check{options_.swap_reversed_extremes, notes};
    std::vector<std::string> holed;
    for (std::size_t i = 0; i < daily_->days.size(); ++i) {
      const Day day = daily_->days[i];
      const auto value = [&](const AnswerColumn* column) {
        return column == nullptr || std::isnan(column->values[i])
                   ? std::nullopt
                   : std::optional{Temperature::from_celsius(column->values[i])};
      };
      DailyExtremes pair{value(low), value(high)};
      // The service's extremes of a day with a hole are those of the hours behind the hole; its mean is null
      // then. Source: its public server code.
      if (mean != nullptr && std::isnan(mean->values[i]) && (pair.minimum || pair.maximum)) {
        holed.push_back(iso(day));
        pair = {};
      }
      pair = check.checked(pair, day, {});
      if (pair.minimum) printed.daily.air_min.set(day, *pair.minimum, Quality::modelled);
      if (pair.maximum) printed.daily.air_max.set(day, *pair.maximum, Quality::modelled);
      if (rain == nullptr || std::isnan(rain->values[i])) continue;
      if (const auto usable = check.checked_rain(Rain::from_mm(rain->values[i]), {}))
        printed.daily.rain.set(day, *usable, Quality::modelled);
    }
    if (!holed.empty()) {
      notes.doubt(
          fmt::format("the daily mean is null beside numbers for the extremes, which a day with a hole "
                      "shows; taken as missing: {}",
                      shortened_list(holed, 6)));
    }
    return true;
  }

  const JsonObject& point_;
  std::string file_;
  const ReadingOptions& options_;
  std::chrono::seconds offset_{0};
  std::optional<Place> place_;
  std::string zone_name_;
  std::optional<TimeZone> zone_;
  std::optional<AnswerBlock> hourly_;
  std::optional<AnswerBlock> daily_;
  std::optional<StandardClock> clock_;
  ReadingNotes clock_notes_{file_};
};

}  // namespace

ServiceAnswer read_open_meteo(const std::vector<JsonObject>& points, const std::string& name,
                              const ReadingOptions& options) {
  ServiceAnswer answer;
  answer.service = "open-meteo";
  std::vector<std::string> without;
  for (std::size_t i = 0; i < points.size(); ++i) {
    PointReader point{points[i], name, options};
    std::vector<std::string> here;
    std::vector<AnswerSeries> series = point.series(static_cast<int>(i), here);
    if (series.empty() && (points.size() == 1 || (answer.series.empty() && i + 1 == points.size())))
      point.refuse_all(here);
    // What has no temperature is told with the series beside it, else with the first of the answer.
    if (series.empty()) {
      without.push_back(fmt::format("point {} ({})", i, here.empty() ? "no temperature" : here.front()));
    } else if (!here.empty()) {
      for (AnswerSeries& one : series) add_doubt(one.reading, "left out: " + shortened_list(here, 4));
    }
    std::move(series.begin(), series.end(), std::back_inserter(answer.series));
  }
  if (!without.empty()) add_doubt(answer.series.front().reading, "left out: " + shortened_list(without, 4));
  return answer;
}

}  // namespace soilclock::weather
