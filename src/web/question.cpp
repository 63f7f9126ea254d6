// SPDX-License-Identifier: MIT
#include "web/question.hpp"

#include <fmt/format.h>

#include "core/json_reader.hpp"
#include "site/site_file.hpp"

namespace soilclock::web {

namespace {

constexpr const char* source = "options";

WhatIfQuestion read_what_if(const JsonObject& object) {
  WhatIfQuestion what_if;
  what_if.change.soil = TemperatureDelta::from_kelvin(
      object.optional_number("soil_c", -most_soil_offset_c, most_soil_offset_c).value_or(0.0));
  what_if.change.irrigated = object.optional_boolean("irrigated");
  what_if.change.missing_week = object.optional_boolean("missing_week").value_or(false);
  what_if.change.dry_ahead = object.optional_boolean("dry_ahead").value_or(false);
  what_if.change.frost_ahead = object.optional_boolean("frost_ahead").value_or(false);
  if (object.has("record_years")) what_if.change.record_years = object.integer("record_years", 1, 100);
  what_if.plan = object.optional_text("plan").value_or("");
  if (object.has("weeks_later")) what_if.weeks_later = object.integer("weeks_later", 0, 3);
  what_if.target = object.optional_text("target").value_or("");
  object.finish();
  return what_if;
}

Day read_on(const JsonObject& object) {
  const auto on = parse_iso_day(object.text("on"));
  if (!on) object.refuse("on", "this is not a date", "YYYY-MM-DD");
  return *on;
}

Question read_all(const JsonObject& object) {
  Question question;
  question.asked.on = read_on(object);
  question.sites_file = object.optional_text("sites_file").value_or("sites");
  question.only = object.optional_texts("only");
  question.asked.targets = object.optional_texts("targets");
  question.asked.plan = object.optional_text("plan").value_or("");
  if (object.has("units")) question.asked.units = object.choice("units", {"us", "metric"});
  question.past_seasons = object.optional_boolean("past_seasons").value_or(false);
  if (const auto what_if = object.optional_object("what_if")) question.what_if = read_what_if(*what_if);
  for (const JsonObject& one : object.optional_objects("cases")) question.cases.push_back(read_what_if(one));
  if (question.cases.size() > most_cases)
    object.refuse("cases", "too many cases", fmt::format("at most {}", most_cases));
  object.finish();
  return question;
}

PlaceQuestion read_place(const JsonObject& object) {
  PlaceQuestion question;
  question.on = read_on(object);
  question.place = {object.number("latitude", -90.0, 90.0), object.number("longitude", -180.0, 180.0), {}};
  object.finish();
  return question;
}

InspectionQuestion read_inspection(const JsonObject& object) {
  InspectionQuestion question;
  question.file = object.text("file");
  question.format = object.has("format") ? object.choice("format", {"json", "text"}) : "json";
  if (object.has("units")) question.units = object.choice("units", {"us", "metric"});
  question.reading.columns = object.optional_text("columns").value_or("");
  question.reading.units_in = object.optional_text("units_in").value_or("");
  question.reading.station = object.optional_text("station").value_or("");
  question.reading.swap_reversed_extremes = object.optional_boolean("swap_reversed").value_or(false);
  question.reading.shift_morning_observations = object.optional_boolean("shift_morning").value_or(false);
  const auto refuse = [&](const char* key, const Problem& problem) {
    object.refuse(key, problem.what, problem.expected, problem.remedy);
  };
  if (const auto words = object.optional_text("dates")) {
    const auto order = parse_date_order(*words);
    if (!order) refuse("dates", order.error());
    question.reading.dates = *order;
  }
  if (const auto name = object.optional_text("time_zone")) {
    const auto zone = TimeZone::named(*name);
    if (!zone) refuse("time_zone", zone.error());
    question.reading.time_zone = *zone;
  }
  object.finish();
  return question;
}

}  // namespace

Result<Question> read_question(std::string_view options) {
  return read_json(options, source, Family::request, read_all);
}

Result<PlaceQuestion> read_place_question(std::string_view options) {
  return read_json(options, source, Family::request, read_place);
}

Result<InspectionQuestion> read_inspection_question(std::string_view options) {
  return read_json(options, source, Family::request, read_inspection);
}

}  // namespace soilclock::web
