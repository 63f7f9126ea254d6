// SPDX-License-Identifier: MIT
#include "weather/services/service_answer.hpp"

#include <fmt/format.h>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/services/ncei_stations.hpp"
#include "weather/services/nws_grid.hpp"
#include "weather/services/open_meteo.hpp"
#include "weather/services/power_point.hpp"
#include "weather/unit_evidence.hpp"

namespace soilclock::weather {

namespace {

[[noreturn]] void refuse_with(const JsonObject& answer, const std::string& message) {
  answer.refuse({}, "the service answered with an error: " + printable(message, 300), {},
                "the answer holds no weather");
}

/// Text of a key, whatever its kind.
std::string text_of(const JsonObject& answer, std::string_view key) {
  const std::string kind = answer.kind(key);
  if (kind == "string") return answer.text(key);
  if (kind == "number") return fmt::format("{:g}", answer.number(key));
  return {};
}

/// Error answers of the services, each in its own shape.
void refuse_error_answer(const JsonObject& answer) {
  if (answer.kind("error") == "boolean" && answer.boolean("error"))
    refuse_with(answer, text_of(answer, "reason"));
  if (answer.kind("errorMessage") == "string") {
    std::string message = text_of(answer, "errorMessage");
    if (answer.kind("errors") == "array") {
      for (const JsonObject& one : answer.objects("errors"))
        message += fmt::format("; {}: {}", text_of(one, "field"), text_of(one, "message"));
    }
    refuse_with(answer, message);
  }
  if (answer.kind("title") == "string" && answer.kind("detail") == "string")
    refuse_with(answer, fmt::format("{}: {} ({})", text_of(answer, "title"), text_of(answer, "detail"),
                                    text_of(answer, "status")));
  const bool has_data = answer.has("properties") || answer.has("results") || answer.has("hourly") ||
                        answer.has("daily") || answer.has("items") || answer.has("features");
  if (has_data) return;
  if (answer.kind("message") == "string") refuse_with(answer, text_of(answer, "message"));
  if (answer.kind("messages") == "array") refuse_with(answer, listed(answer.texts("messages")));
}

ServiceAnswer read_list(const std::vector<JsonObject>& items, const JsonObject& answer,
                        const std::string& name, const ReadingOptions& options) {
  if (items.empty()) {
    answer.refuse("items", "the answer is an empty list: the service has no data for what was asked",
                  "at least one point, station or day", "check the station and the range of dates");
  }
  if (items.front().has("STATION") && items.front().has("DATE")) return read_ncei_days(items, name, options);
  return read_open_meteo(items, name, options);
}

ServiceAnswer read_answer(const JsonObject& answer, const std::string& name, const ReadingOptions& options) {
  refuse_error_answer(answer);
  if (answer.kind("items") == "array") return read_list(answer.objects("items"), answer, name, options);
  if (answer.kind("results") == "array" && answer.objects("results").empty()) {
    answer.refuse("results", "the answer is an empty list: the service has no data for what was asked",
                  "at least one value", "check the station and the range of dates");
  }
  if (answer.kind("results") == "array") return read_ncei_values(answer.objects("results"), name, options);
  if (answer.kind("properties") == "object") {
    if (answer.object("properties").has("parameter")) return read_power_point(answer, name, options);
    return read_nws_grid(answer, name, options);
  }
  const bool geographic = answer.has("features") || answer.has("@graph") ||
                          text_of(answer, "type") == "Feature" || answer.has("@context");
  if (geographic) return read_nws_grid(answer, name, options);
  if (answer.has("hourly") || answer.has("daily") || answer.has("latitude"))
    return read_open_meteo({answer}, name, options);
  if (answer.keys().empty()) {
    answer.refuse({}, "the answer is empty: the service has no data for what was asked", {},
                  "check the station and the range of dates");
  }
  answer.refuse({},
                "this JSON is no answer of a weather service known here (its keys: " +
                    printable(listed(answer.keys()), 120) + ")",
                "an answer of Open-Meteo, api.weather.gov, NCEI or NASA POWER", {});
}

/// A syntax problem of a text that began as JSON: it was cut, or text follows it.
Problem cut_off(Problem problem) {
  const bool ends = problem.found.empty();
  problem.what = ends ? "the answer is cut off: it ends in the middle of the data"
                      : "the answer is cut off: something else stands where its data should go on";
  problem.expected = "a whole answer in JSON";
  problem.remedy = "fetch it again";
  return problem;
}

/// The unit an answer says its air temperatures are in.
Unit said_unit(const ParsedFile& reading) {
  for (const ParsedColumn& column : reading.columns) {
    const bool air =
        column.quantity == "tmin" || column.quantity == "tmax" || column.quantity == "temperature";
    if (air && column.unit == unit_name(Unit::celsius)) return Unit::celsius;
    if (air && column.unit == unit_name(Unit::fahrenheit)) return Unit::fahrenheit;
  }
  return Unit::none;
}

/// Whether the numbers can be in the units the answer names, at its place and in its season.
Result<ServiceAnswer> with_units_checked(ServiceAnswer answer, const ReadingOptions& options) {
  for (AnswerSeries& series : answer.series) {
    ParsedFile& reading = series.reading;
    if (reading.refusal) return fail(*reading.refusal);
    ReadingNotes notes{reading.file, options};
    clear_reversed_days(reading.daily, notes);
    const auto checked = check_unit(reading.daily, said_unit(reading), UnitSource::named,
                                    reading.place ? reading.place : options.place, notes);
    if (!checked && options.units_in.empty()) return fail(checked.error());
    const std::vector<Doubt> found = notes.finished();
    if (found.empty()) continue;
    reading.doubts.insert(reading.doubts.end(), found.begin(), found.end());
    reading.outcome = Outcome::warn;
  }
  return answer;
}

}  // namespace

Result<ServiceAnswer> read_service_answer(std::string_view bytes, const std::string& name,
                                          const ReadingOptions& options) {
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  const std::string_view body = trimmed(bytes);
  if (body.empty() || (body.front() != '{' && body.front() != '[')) {
    const bool page = body.starts_with("<");
    return fail({Family::data,
                 body.empty() ? "the answer is empty"
                 : page       ? "the answer is a web page, not data"
                              : "the answer is not JSON",
                 {name, 1, 1, {}},
                 {},
                 "an answer in JSON",
                 "fetch it again; the service or something in between answered otherwise"});
  }
  try {
    return with_units_checked(read_answer(parse_json(bytes, name, Family::data), name, options), options);
  } catch (const JsonProblem& found) {
    // Only problems of the syntax have a line.
    return fail(found.problem.where.line ? cut_off(found.problem) : found.problem);
  }
}

}  // namespace soilclock::weather
