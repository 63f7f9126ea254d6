// SPDX-License-Identifier: MIT
#include "site/read_files.hpp"

#include <tuple>

#include "weather/read_weather.hpp"

namespace soilclock {

namespace {

/// Everything a file is read by; an option that is added does not compile until it stands here.
auto key_of(const weather::ReadingOptions& options) {
  const auto& [columns, dates, units_in, asked_in, station, time_zone, place, swap, shift, us_units,
               units_said, keep_hours] = options;
  return std::tuple{columns,
                    dates,
                    units_in,
                    asked_in,
                    station,
                    time_zone ? time_zone->name() : std::string{},
                    place.has_value(),
                    place ? std::tuple{place->latitude_deg, place->longitude_deg, place->elevation_m}
                          : std::tuple{0.0, 0.0, std::optional<double>{}},
                    swap,
                    shift,
                    us_units,
                    keep_hours};
}

}  // namespace

const weather::ParsedFile& ReadFiles::read(std::string_view bytes, const std::string& file,
                                           const weather::ReadingOptions& options) {
  const auto known = known_.find(file);
  if (known != known_.end() && key_of(known->second.options) == key_of(options)) return known->second.file;
  Reading reading{options, weather::read_weather_text(bytes, file, options)};
  return known_.insert_or_assign(file, std::move(reading)).first->second.file;
}

}  // namespace soilclock
