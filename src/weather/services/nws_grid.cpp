// SPDX-License-Identifier: MIT
#include "weather/services/nws_grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "weather/checks.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/hour_days.hpp"
#include "weather/rows/unit_recognition.hpp"
#include "weather/services/nws_layers.hpp"

namespace soilclock::weather {

namespace {

/// Daytime and night periods last 13 and 14 hours [recorded answers]; the clock change takes or adds one.
/// What is shorter than this was cut.
constexpr std::chrono::hours least_period{12};
constexpr std::chrono::seconds whole_day = std::chrono::hours{24};

/// Says what an answer is that is no grid.
[[noreturn]] void refuse_other_answer(const JsonObject& answer, const JsonObject* properties) {
  std::string what = "this answer of the weather service is not the grid of a forecast";
  if (properties == nullptr) {
    what = "this is a list of stations or observations, not the grid of a forecast";
  } else if (properties->has("forecastGridData")) {
    what = "this is the answer about a point, which only names the grid that covers it";
  } else if (properties->has("periods")) {
    what = "this is the worded forecast by periods, whole degrees without amounts of rain, not the grid";
  } else if (properties->has("textDescription") || properties->has("timestamp")) {
    what = "this is one observation of a station, not the grid of a forecast";
  }
  answer.refuse({}, what, "the grid (address in forecastGridData of the answer about the point)",
                "fetch the grid and read that");
}

std::optional<Place> place_of(const JsonObject& answer, const JsonObject& properties) {
  const auto geometry =
      answer.kind("geometry") == "object" ? answer.optional_object("geometry") : std::nullopt;
  if (!geometry || !geometry->has("coordinates")) return std::nullopt;
  // The middle of the corners' extent; longitude stands first.
  const std::vector<double> numbers = geometry->nested_numbers("coordinates");
  if (numbers.size() < 2 || numbers.size() % 2 != 0) return std::nullopt;
  std::array<double, 2> low{numbers[0], numbers[1]};
  std::array<double, 2> high = low;
  for (std::size_t i = 2; i < numbers.size(); ++i) {
    low[i % 2] = std::min(low[i % 2], numbers[i]);
    high[i % 2] = std::max(high[i % 2], numbers[i]);
  }
  std::optional<double> elevation;
  if (properties.kind("elevation") == "object")
    elevation = properties.object("elevation").optional_number("value");
  return checked_place((low[1] + high[1]) / 2.0, (low[0] + high[0]) / 2.0, elevation);
}

/// The most common length of the intervals of a layer.
std::chrono::seconds usual_length(const GridLayer& layer) {
  std::map<std::chrono::seconds, int> counts;
  for (const GridValue& value : layer.values) ++counts[value.span.length];
  const auto usual = std::max_element(counts.begin(), counts.end(),
                                      [](const auto& a, const auto& b) { return a.second < b.second; });
  return usual == counts.end() ? std::chrono::seconds{0} : usual->first;
}

/// The intervals that are whole periods.
std::vector<GridValue> whole_periods(const GridLayer& layer) {
  const std::chrono::seconds usual = usual_length(layer);
  std::vector<GridValue> whole;
  for (std::size_t i = 0; i < layer.values.size(); ++i) {
    const std::chrono::seconds length = layer.values[i].span.length;
    if (length < least_period || (i == 0 && length < usual)) continue;
    whole.push_back(layer.values[i]);
  }
  return whole;
}

class GridReader {
 public:
  GridReader(const JsonObject& properties, StandardClock clock, const ReadingOptions& options,
             ParsedFile& reading, ReadingNotes& notes)
      : properties_{properties},
        clock_{std::move(clock)},
        reading_{reading},
        notes_{notes},
        check_{options.swap_reversed_extremes, notes} {}

  void read() {
    fill_extremes();
    fill_rain();
    fill_hours();
    if (reading_.daily.air_min.empty() && reading_.daily.air_max.empty()) {
      properties_.refuse({}, "the grid holds no whole period of maxTemperature or minTemperature",
                         "at least one day's extreme",
                         "the office's grid may be out of order; fetch it later");
    }
    const DayRange days = covered(reading_.daily);
    reading_.first_date = days.begin();
    reading_.last_date = days.end() - Days{1};
    reading_.step = reading_.hours.empty() ? "daily" : "daily and hourly";
    reading_.daily.day_definition = local_standard_days;
    count_days(reading_);
    check_daily_series(reading_, notes_);
  }

 private:
  GridLayer layer(std::string_view name, Quantity quantity) {
    GridLayer result = read_grid_layer(properties_, name);
    if (result.unit != Unit::none)
      reading_.columns.push_back(
          {std::string{name}, quantity_name(quantity, {}), std::string{unit_name(result.unit)}});
    return result;
  }

  Day day_of(Instant at) { return date::floor<Days>(clock_.local(at)); }

  void fill_extremes() {
    std::map<Day, DailyExtremes> days;
    for (const GridValue& value : whole_periods(layer("maxTemperature", Quantity::air_max)))
      days[day_of(value.span.start + value.span.length / 2)].maximum = Temperature::from_celsius(value.value);
    for (const GridValue& value : whole_periods(layer("minTemperature", Quantity::air_min)))
      days[day_of(value.span.end())].minimum = Temperature::from_celsius(value.value);
    for (const auto& [day, pair] : days) {
      const DailyExtremes usable = check_.checked(pair, day, {});
      if (usable.minimum) reading_.daily.air_min.set(day, *usable.minimum, Quality::modelled);
      if (usable.maximum) reading_.daily.air_max.set(day, *usable.maximum, Quality::modelled);
    }
  }

  void fill_rain() {
    struct Share {
      std::chrono::seconds known{0};
      double mm = 0.0;
    };
    std::map<Day, Share> days;
    for (const GridValue& value : layer("quantitativePrecipitation", Quantity::rain).values) {
      Instant from = value.span.start;
      while (from < value.span.end()) {
        const Day day = day_of(from);
        // The end of this local day; never behind the start, so that the walk ends.
        const Instant midnight = Instant{day + Days{1}} - clock_.offset(from);
        const Instant until = std::min(value.span.end(), std::max(midnight, from + std::chrono::minutes{1}));
        Share& share = days[day];
        share.known += until - from;
        share.mm += value.value * static_cast<double>((until - from).count()) /
                    static_cast<double>(value.span.length.count());
        from = until;
      }
    }
    for (const auto& [day, share] : days) {
      if (share.known < whole_day) continue;
      if (const auto rain = check_.checked_rain(Rain::from_mm(share.mm), {}))
        reading_.daily.rain.set(day, *rain, Quality::modelled);
    }
  }

  /// Each hour of a layer to its place in the hours of the grid.
  template <class Put>
  void expand(const GridLayer& layer, std::map<Instant, HourlyObservation>& hours, const Put& put) {
    for (const GridValue& value : layer.values) {
      for (Instant at = value.span.start; at < value.span.end(); at += std::chrono::hours{1})
        put(hours[at], value.value);
    }
  }

  void fill_hours() {
    std::map<Instant, HourlyObservation> hours;
    expand(layer("temperature", Quantity::air), hours, [](HourlyObservation& hour, double value) {
      if (plausible(Temperature::from_celsius(value))) hour.air = Temperature::from_celsius(value);
    });
    expand(layer("relativeHumidity", Quantity::humidity), hours, [](HourlyObservation& hour, double value) {
      if (value >= 0.0 && value <= 100.0) hour.humidity_percent = value;
    });
    expand(layer("windSpeed", Quantity::wind), hours, [](HourlyObservation& hour, double value) {
      if (value >= 0.0) hour.wind_m_per_s = value;
    });
    for (auto& [at, hour] : hours) {
      const Instant local = clock_.local(at);
      hour.day = date::floor<Days>(local);
      hour.minute_of_day = static_cast<int>((local - hour.day) / std::chrono::minutes{1});
      reading_.hours.push_back(hour);
    }
  }

  const JsonObject& properties_;
  StandardClock clock_;
  ParsedFile& reading_;
  ReadingNotes& notes_;
  ExtremesCheck check_;
};

}  // namespace

ServiceAnswer read_nws_grid(const JsonObject& answer, const std::string& name,
                            const ReadingOptions& options) {
  if (answer.kind("properties") != "object") refuse_other_answer(answer, nullptr);
  const JsonObject properties = answer.object("properties");
  if (properties.kind("maxTemperature") != "object" && properties.kind("temperature") != "object")
    refuse_other_answer(answer, &properties);
  if (properties.has("textDescription") || properties.has("periods"))
    refuse_other_answer(answer, &properties);
  ParsedFile reading;
  reading.file = name;
  ReadingNotes notes{name, options};
  reading.place = place_of(answer, properties);
  auto zone = zone_of_days(options, reading.place, notes);
  if (!zone) {
    answer.refuse("geometry",
                  "neither the place nor the time zone of the grid is known, so no day can be cut",
                  "coordinates in the answer, or the zone of the site", "name it with --time-zone");
  }
  ServiceAnswer result;
  result.service = "nws";
  if (properties.kind("updateTime") == "string")
    result.issued = parse_iso_instant(properties.text("updateTime"));
  GridReader{properties, StandardClock{std::move(*zone)}, options, reading, notes}.read();
  conclude(reading, notes, reading.hours.size());
  result.series.push_back({0, {}, 0, {}, std::move(reading)});
  return result;
}

}  // namespace soilclock::weather
