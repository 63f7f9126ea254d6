// SPDX-License-Identifier: MIT
// Weather texts and answers of services.
#include <array>
#include <cmath>

#include "fuzz/harnesses.hpp"
#include "net/requests/service_requests.hpp"
#include "net/requests/transfer.hpp"
#include "weather/read_weather.hpp"
#include "weather/services/series_choice.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::fuzz {

namespace {

using weather::Outcome;
using weather::ParsedFile;
using weather::ReadingOptions;

template <class Value, class Number>
void demand_within(const DailySeries<Value>& series, double least, double most, Number number) {
  for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
    const auto value = series.at(day);
    if (value)
      demand(number(*value) >= least && number(*value) <= most, "values are those of weather on Earth");
  }
}

/// Wider than any weather, far narrower than what a broken conversion gives.
void demand_earthly(const ParsedFile& reading) {
  const auto celsius = [](Temperature t) { return t.celsius(); };
  demand_within(reading.daily.air_min, -100.0, 100.0, celsius);
  demand_within(reading.daily.air_max, -100.0, 100.0, celsius);
  for (const auto& [depth, soil] : reading.daily.soil) demand_within(soil, -100.0, 100.0, celsius);
  demand_within(reading.daily.rain, 0.0, 5000.0, [](Rain rain) { return rain.mm(); });
}

void demand_consistent(const ParsedFile& reading) {
  demand((reading.outcome == Outcome::error) == reading.refusal.has_value(), "an error has its refusal");
  if (reading.refusal) {
    demand_good(*reading.refusal);
    return;
  }
  demand(reading.outcome == Outcome::ok || !reading.doubts.empty(), "a warning has its doubts");
  demand(reading.first_date && reading.last_date && *reading.first_date <= *reading.last_date,
         "a file has days");
  for (const auto& doubt : reading.doubts)
    demand(!doubt.text.empty() && doubt.line.value_or(1) >= 1, "a doubt says something");
  demand(reading.days_with_data >= 0 && reading.missing_days >= 0 && reading.partial_days >= 0,
         "counts are counts");
  demand_earthly(reading);
}

/// What a user may say beside a file, by one byte.
ReadingOptions options_of(unsigned char choice) {
  constexpr std::array columns{
      "", "", "", "date,tmin,tmax,rain", "date=date,High=tmax,Low=tmin", "date,time,temp"};
  constexpr std::array units{"", "", "F,in", "C", "K"};
  ReadingOptions options;
  options.columns = columns[choice % columns.size()];
  options.units_in = units[choice % units.size()];
  options.dates = static_cast<weather::DateOrder>(choice % 4);
  if (choice % 3 == 1) options.time_zone = TimeZone::of_longitude(-85.0);
  if (choice % 3 == 2) options.time_zone = *TimeZone::named("America/New_York");
  if (choice % 2 == 1) options.place = Place{35.6, -83.1, 300.0};
  options.swap_reversed_extremes = choice >= 128;
  options.shift_morning_observations = choice % 16 == 15;
  options.us_units = choice % 8 > 3;
  return options;
}

}  // namespace

void weather_text(std::string_view bytes) {
  if (bytes.empty()) return;
  const auto choice = static_cast<unsigned char>(bytes.front());
  demand_consistent(weather::read_weather_text(bytes.substr(1), "a.csv", options_of(choice)));
}

void service_answer(std::string_view bytes) {
  ReadingOptions options;
  options.time_zone = TimeZone::of_longitude(-85.0);
  auto answer = weather::read_service_answer(bytes, "an answer", options);
  if (!answer) {
    demand_good(answer.error());
  } else {
    demand(!answer->series.empty(), "an answer has a series");
    for (const auto& series : answer->series) demand_earthly(series.reading);
    const auto chosen = weather::choose_series(*std::move(answer), "1");
    if (!chosen) demand_good(chosen.error());
  }
  net::Transfer transfer;
  transfer.host = "a.test";
  transfer.status = 200;
  transfer.body = bytes;
  for (const auto kind : {net::BodyKind::json, net::BodyKind::text}) {
    if (const auto problem = net::problem_with(transfer, kind, std::size_t{1} << 20U)) demand_good(*problem);
  }
  net::wanted_pause(transfer);
  transfer.status = 400;
  demand_good(*net::problem_with(transfer, net::BodyKind::json, std::size_t{1} << 20U));
  net::Service service;
  service.title = "a service";
  service.hosts["forecast"] = "https://a.test";
  if (const auto url = net::nws_grid_url(service, transfer.body); !url) {
    demand_good(url.error());
  } else {
    demand(url->starts_with("https://a.test/"), "a grid is asked of its own host");
  }
}

}  // namespace soilclock::fuzz
