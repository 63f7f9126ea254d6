// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "core/number_text.hpp"
#include "weather/checks.hpp"
#include "weather/hour_days.hpp"
#include "weather/rows/unit_recognition.hpp"
#include "weather/services/answer_clock.hpp"
#include "weather/services/open_meteo_days.hpp"
#include "weather/services/open_meteo_point.hpp"

namespace soilclock::weather {

namespace {

template <class Value>
void add_absent(DailySeries<Value>& into, const DailySeries<Value>& from) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (value && !into.at(day)) into.set(day, *value, from.quality(day));
  }
}

void add_doubt(ParsedFile& reading, std::string text) {
  reading.doubts.push_back({{}, {}, std::move(text)});
  reading.outcome = Outcome::warn;
}

/// One point of an answer: its header, its blocks, and the series they hold.
class PointReader {
 public:
  PointReader(const JsonObject& point, const std::string& file, const ReadingOptions& options)
      : json_{point}, file_{file}, options_{options}, point_{read_answer_point(point)} {}

  /// The series with a temperature; `without` says which have none.
  std::vector<AnswerSeries> series(int number, std::vector<std::string>& without) {
    std::vector<AnswerSeries> result;
    for (const RunName& run : runs()) {
      auto reading = read_run(run, without);
      if (reading) result.push_back({number, run.model, run.member, point_.location, std::move(*reading)});
    }
    return result;
  }

  [[noreturn]] void refuse_all(const std::vector<std::string>& without) const {
    if (without.empty()) {
      json_.refuse({}, "there is no temperature in the answer",
                   "temperature_2m by the hour, or temperature_2m_max and temperature_2m_min by the day",
                   "ask for these variables");
    }
    json_.refuse({}, "the answer holds no temperature: " + shortened_list(without, 4),
                 "numbers in temperature_2m, or in temperature_2m_max and temperature_2m_min",
                 "check the variables, the dates, the model and the sign of the longitude");
  }

 private:
  /// Every run that has a temperature column in either block.
  std::set<RunName> runs() const {
    std::set<RunName> result;
    for (const auto* section : {&point_.hourly, &point_.daily}) {
      if (!*section) continue;
      for (const AnswerColumn& column : (*section)->columns) {
        if (is_temperature(column.name.quantity)) result.insert(column.name.run);
      }
    }
    return result;
  }

  /// The reading of one run, or nothing and a word in `without`.
  std::optional<ParsedFile> read_run(const RunName& run, std::vector<std::string>& without) {
    ParsedFile reading;
    reading.file = file_;
    reading.place = point_.place;
    ReadingNotes notes{file_, options_};
    note_place(notes);
    list_columns(run, reading, notes);
    const bool hours = read_hours(run, reading, notes);
    const bool days = read_days(run, hours, reading, notes);
    if (!hours && !days) {
      without.push_back(why_without(run));
      return std::nullopt;
    }
    reading.step = hours && days ? "daily and hourly" : hours ? "hourly" : "daily";
    conclude(reading, notes, hours ? point_.hourly->stamps.size() : 0);
    return reading;
  }

  void note_place(ReadingNotes& notes) const {
    if (point_.place->elevation_m == 0.0 && point_.zone_name.starts_with("Etc/")) {
      notes.doubt(fmt::format(
          "elevation 0 in the zone {}: the point {}, {} looks like open sea; check the sign of the "
          "longitude (west is negative)",
          point_.zone_name, number_text(point_.place->latitude_deg, 2),
          number_text(point_.place->longitude_deg, 2)));
    }
  }

  void list_columns(const RunName& run, ParsedFile& reading, ReadingNotes& notes) const {
    for (const auto* section : {&point_.hourly, &point_.daily}) {
      if (!*section) continue;
      reading.columns.push_back({"time", "date", ""});
      for (const AnswerColumn& column : (*section)->columns) {
        const bool used = column.name.quantity != Quantity::not_used;
        if (used && column.name.run != run) continue;
        reading.columns.push_back(
            {column.key, quantity_name(column.name.quantity, {}), std::string{unit_name(column.unit)}});
        if (used && !column.values.empty() && !column.any_number()) {
          notes.doubt(fmt::format("all {} values of '{}' are null{}", column.values.size(),
                                  column.name.variable, described(run)));
        }
      }
    }
  }

  std::string why_without(const RunName& run) const {
    for (const auto* section : {&point_.hourly, &point_.daily}) {
      if (!*section) continue;
      for (const AnswerColumn& column : (*section)->columns) {
        if (!is_temperature(column.name.quantity) || column.name.run != run) continue;
        if (column.any_number()) {
          return fmt::format("'{}'{} is one temperature a day, but minimum and maximum are needed{}",
                             column.name.variable, described(run),
                             point_.offset == std::chrono::seconds{0} ? " (and the days are UTC days)" : "");
        }
        return column.values.empty()
                   ? fmt::format("'{}'{} has no values", column.name.variable, described(run))
                   : fmt::format("all {} values of '{}' are null{}", column.values.size(),
                                 column.name.variable, described(run));
      }
    }
    return "no temperature" + described(run);
  }

  bool read_hours(const RunName& run, ParsedFile& reading, ReadingNotes& notes) {
    if (!point_.hourly || point_.hourly->stamps.empty()) return false;
    const AnswerColumn* air = point_.hourly->find(Quantity::air, run);
    if (air == nullptr || !air->any_number()) return false;
    const auto values = [&](Quantity quantity) {
      const AnswerColumn* column = point_.hourly->find(quantity, run);
      return column == nullptr ? std::vector<double>{} : column->values;
    };
    const HourlyValues hours{
        point_.hourly->stamps,      air->values,           {}, {}, values(Quantity::rain),
        values(Quantity::humidity), values(Quantity::wind)};
    if (!clock_) {
      const auto named = zone_for_days();
      clock_.emplace(named ? *named : *zone_of_days(options_, point_.place, clock_notes_));
    }
    for (const Doubt& doubt : clock_notes_.finished()) notes.doubt(doubt.text);
    HourDayRule rule;
    rule.keep_hours = options_.keep_hours;
    cut_into_days(hours, *clock_, rule, reading, notes);
    return true;
  }

  /// Days of the daily block: the whole series, or what the hours leave open.
  bool read_days(const RunName& run, bool beside_hours, ParsedFile& reading, ReadingNotes& notes) const {
    if (!point_.daily || point_.daily->days.empty()) return false;
    ParsedFile printed;
    printed.first_date = point_.daily->days.front();
    printed.last_date = point_.daily->days.back();
    if (!fill_printed_days(*point_.daily, run, options_, printed, notes)) return false;
    if (!beside_hours) {
      count_days(printed);
      check_daily_series(printed, notes);
      printed.daily.day_definition = fixed_day_definition(point_.offset);
      const auto about = doubt_about_days(zone_for_days(), point_.offset,
                                          {*printed.first_date, *printed.last_date + Days{1}});
      if (!about.empty()) notes.doubt(about);
      printed.file = std::move(reading.file);
      printed.place = reading.place;
      printed.columns = std::move(reading.columns);
      reading = std::move(printed);
      return true;
    }
    const auto standard = [&](Day day) { return clock_->zone().standard_offset(Instant{day}); };
    if (standard(*printed.first_date) != point_.offset || standard(*printed.last_date) != point_.offset) {
      notes.doubt(
          fmt::format("the daily block is cut by {}, not by the standard time of the place, and is not used "
                      "beside the hours",
                      TimeZone::fixed(point_.offset).name()));
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

  /// The zone of the user, else the one the answer names for the place.
  std::optional<TimeZone> zone_for_days() const {
    return options_.time_zone ? options_.time_zone : point_.zone_of_place();
  }

  const JsonObject& json_;
  std::string file_;
  const ReadingOptions& options_;
  AnswerPoint point_;
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
    // What has no temperature is reported with the series beside it, else with the first of the answer.
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
