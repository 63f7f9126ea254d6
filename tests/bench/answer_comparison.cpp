// SPDX-License-Identifier: MIT
// A saved answer of hours (invented, 4 MB), read by ours and by the JSON library with a handler that does
// nothing.
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "bench/comparison.hpp"
#include "weather/read_weather.hpp"

namespace soilclock::bench {

namespace {

using Json = nlohmann::json;

constexpr int repeats = 5;

/// Takes every event and keeps nothing.
struct Nothing final : nlohmann::json_sax<Json> {
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(Json::number_integer_t) override { return true; }
  bool number_unsigned(Json::number_unsigned_t) override { return true; }
  bool number_float(Json::number_float_t, const std::string&) override { return true; }
  bool string(std::string&) override { return true; }
  bool binary(Json::binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(std::string&) override { return true; }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }
};

double sum_of_air(const Json& answer) {
  double sum = 0.0;
  for (const Json& value : answer["hourly"]["temperature_2m"]) sum += value.get<double>();
  return sum;
}

double sum_of_air(const weather::ParsedFile& reading) {
  double sum = 0.0;
  for (const weather::HourlyObservation& hour : reading.hours) sum += hour.air ? hour.air->celsius() : 0.0;
  return sum;
}

}  // namespace

std::vector<Comparison> compare_answer_reading() {
  const auto text =
      output_of("/usr/bin/python3 '" SOILCLOCK_SOURCE_DIR "/tests/bench/write_weather.py' json 15");
  Comparison row{
      "saved answer, 4 MB of JSON, to daily series", "nlohmann SAX, empty handler", 0.0, {}, "", true};
  if (!text) {
    row.answers_agree = false;
    row.note = "the answer could not be made up (python3)";
    return {row};
  }
  const double expected = sum_of_air(Json::parse(*text));
  std::vector<double> our_times;
  std::vector<double> sax_times;
  bool whole = true;
  for (int i = 0; i < repeats; ++i) {
    weather::ParsedFile reading;
    our_times.push_back(seconds_of([&] { reading = weather::read_weather_text(*text, "answer.json", {}); }));
    sax_times.push_back(seconds_of([&] {
      Nothing nothing;
      whole = Json::sax_parse(*text, &nothing) && whole;
    }));
    row.answers_agree =
        row.answers_agree && std::abs(sum_of_air(reading) - expected) < 1e-6 * std::abs(expected);
  }
  row.answers_agree = row.answers_agree && whole;
  row.ours_s = middle(our_times);
  row.other_s = middle(sax_times);
  row.note = row.answers_agree ? "the other keeps nothing; ours checks, cuts days and keeps the hours"
                               : "the sums of the temperatures differ";
  return {row};
}

}  // namespace soilclock::bench
