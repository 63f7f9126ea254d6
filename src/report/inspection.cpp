// SPDX-License-Identifier: MIT
#include "report/inspection.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"

namespace soilclock::report {

namespace {

using weather::DailyWeather;
using weather::ParsedFile;

template <class Value>
Json number_or_null(const std::optional<Value>& value, double (Value::*amount)() const) {
  return value ? rounded(((*value).*amount)(), 2) : Json(nullptr);
}

Json days_json(const DailyWeather& daily) {
  Json days = Json::array();
  const DayRange range = weather::covered(daily);
  const auto mean = weather::air_mean(daily);
  for (Day day = range.begin(); day < range.end(); day += Days{1}) {
    days.push_back({{"date", iso(day)},
                    {"tmin_c", number_or_null(daily.air_min.at(day), &Temperature::celsius)},
                    {"tmax_c", number_or_null(daily.air_max.at(day), &Temperature::celsius)},
                    {"rain_mm", number_or_null(daily.rain.at(day), &Rain::mm)},
                    {"quality", name(mean.quality(day))}});
  }
  return days;
}

Json file_json(const ParsedFile& file, bool with_days) {
  Json json = {{"file", file.file},
               {"outcome", name(file.outcome)},
               {"first_date", date(file.first_date)},
               {"last_date", date(file.last_date)},
               {"days_with_data", file.days_with_data},
               {"missing_days", file.missing_days},
               {"partial_days", file.partial_days},
               {"step", file.step},
               {"day_definition", file.daily.day_definition},
               {"columns", Json::array()},
               {"doubts", Json::array()}};
  if (file.place) {
    json["place"] = {{"latitude", file.place->latitude_deg}, {"longitude", file.place->longitude_deg}};
    if (file.place->elevation_m) json["place"]["elevation_m"] = *file.place->elevation_m;
  }
  for (const weather::ParsedColumn& column : file.columns) {
    json["columns"].push_back(
        {{"header", column.header}, {"quantity", column.quantity}, {"unit", column.unit}});
  }
  for (const weather::Doubt& doubt : file.doubts) {
    Json entry = {{"line", doubt.line ? Json(*doubt.line) : Json(nullptr)},
                  {"column", doubt.column ? Json(*doubt.column) : Json(nullptr)},
                  {"text", doubt.text}};
    json["doubts"].push_back(entry);
  }
  if (file.refusal) json["refusal"] = problem_json(*file.refusal);
  if (with_days) json["days"] = days_json(file.daily);
  return json;
}

std::string temperature_text(const std::optional<Temperature>& value, bool us) {
  if (!value) return "-";
  return number_text(us ? value->fahrenheit() : value->celsius(), 1);
}

std::string rain_text(const std::optional<Rain>& value, bool us) {
  if (!value) return "-";
  return us ? number_text(value->inches(), 2) : number_text(value->mm(), 1);
}

std::string days_text(const DailyWeather& daily, bool us) {
  std::string text = fmt::format("  {:<10}  {:>7}  {:>7}  {:>7}  {}\n", "date", us ? "min F" : "min C",
                                 us ? "max F" : "max C", us ? "rain in" : "rain mm", "quality");
  const DayRange range = weather::covered(daily);
  const auto mean = weather::air_mean(daily);
  for (Day day = range.begin(); day < range.end(); day += Days{1}) {
    text +=
        fmt::format("  {:<10}  {:>7}  {:>7}  {:>7}  {}\n", iso(day),
                    temperature_text(daily.air_min.at(day), us), temperature_text(daily.air_max.at(day), us),
                    rain_text(daily.rain.at(day), us), name(mean.quality(day)));
  }
  return text;
}

std::string doubt_text(const weather::Doubt& doubt) {
  std::string place;
  if (doubt.line) place = fmt::format("line {}", *doubt.line);
  if (doubt.line && doubt.column) place += fmt::format(", column {}", *doubt.column);
  return "  - " + place + (place.empty() ? "" : ": ") + doubt.text + "\n";
}

std::string file_text(const ParsedFile& file, bool with_days, bool us) {
  std::string text = fmt::format("{}: {}\n", printable(file.file, 200), name(file.outcome));
  if (file.refusal) text += "  not used: " + describe(*file.refusal) + "\n";
  if (file.first_date && file.last_date) {
    text +=
        fmt::format("  {} readings, {} to {}: {} days with data, {} missing, {} partial; days cut by {}\n",
                    file.step, iso(*file.first_date), iso(*file.last_date), file.days_with_data,
                    file.missing_days, file.partial_days, file.daily.day_definition);
  }
  for (const weather::ParsedColumn& column : file.columns) {
    text += fmt::format("  column '{}': {}{}\n", printable(column.header, 60), column.quantity,
                        column.unit.empty() ? "" : ", " + column.unit);
  }
  if (!file.doubts.empty()) text += "  doubts:\n";
  for (const weather::Doubt& doubt : file.doubts) text += doubt_text(doubt);
  if (with_days) text += days_text(file.daily, us);
  return text;
}

}  // namespace

std::string_view name(weather::Outcome outcome) {
  switch (outcome) {
    case weather::Outcome::ok:
      return "ok";
    case weather::Outcome::warn:
      return "warn";
    case weather::Outcome::error:
      break;
  }
  return "error";
}

std::string inspection_json(const std::vector<ParsedFile>& files, bool with_days) {
  Json json = {{"format", "soilclock-inspection"}, {"version", 1}, {"files", Json::array()}};
  for (const ParsedFile& file : files) json["files"].push_back(file_json(file, with_days));
  return dumped(json, 2) + "\n";
}

std::string inspection_text(const std::vector<ParsedFile>& files, bool with_days, bool us_units) {
  std::string text;
  for (const ParsedFile& file : files)
    text += (text.empty() ? "" : "\n") + file_text(file, with_days, us_units);
  return text;
}

std::string inspection_csv(const std::vector<ParsedFile>& files) {
  std::string text = "file,date,tmin_c,tmax_c,rain_mm,quality\n";
  for (const ParsedFile& file : files) {
    const DayRange range = weather::covered(file.daily);
    const auto mean = weather::air_mean(file.daily);
    for (Day day = range.begin(); day < range.end(); day += Days{1}) {
      text += csv_row(
          {csv_words(file.file), iso(day), csv_number(file.daily.air_min.at(day), &Temperature::celsius, 2),
           csv_number(file.daily.air_max.at(day), &Temperature::celsius, 2),
           csv_number(file.daily.rain.at(day), &Rain::mm, 2), std::string{name(mean.quality(day))}});
    }
  }
  return text;
}

}  // namespace soilclock::report
