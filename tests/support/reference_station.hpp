// SPDX-License-Identifier: MIT
// Reads one US climate reference station file (daily product, 216 characters a line) by column position: a
// short and obvious second route beside the weather floor's reader, for tests against measured soil
// temperature.
#pragma once

#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/place.hpp"
#include "core/rain.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"
#include "support/record_files.hpp"

namespace soilclock::tests {

/// One station's year. Missing codes (-9999, -99) are missing days.
struct ReferenceStation {
  std::string name;  ///< "TN Crossville 7 NW"
  Place place;
  DailySeries<Temperature> air_min;
  DailySeries<Temperature> air_max;
  DailySeries<Temperature> air_mean;  ///< (maximum + minimum) / 2
  DailySeries<Rain> rain;
  std::map<int, DailySeries<Temperature>> soil;  ///< by depth in cm: 5 and 10
};

/// The number in columns from..to (counted from 1, inclusive), or nothing for a missing code.
inline std::optional<double> column(const std::string& line, std::size_t from, std::size_t to) {
  const double value = std::stod(line.substr(from - 1, to - from + 1));
  return value <= -99.0 ? std::nullopt : std::optional{value};
}

inline ReferenceStation read_reference_station(const std::filesystem::path& file) {
  ReferenceStation station;
  const std::string stem = file.stem().string();  // CRND0103-2020-TN_Crossville_7_NW
  station.name = stem.substr(std::string{"CRND0103-2020-"}.size());
  for (char& letter : station.name) letter = letter == '_' ? ' ' : letter;
  std::ifstream input{file};
  for (std::string line; std::getline(input, line);) {
    const Day day =
        make_day(std::stoi(line.substr(6, 4)), static_cast<unsigned>(std::stoi(line.substr(10, 2))),
                 static_cast<unsigned>(std::stoi(line.substr(12, 2))));
    // A longitude beyond -99 must not be taken for a missing code.
    station.place = {std::stod(line.substr(30, 7)), std::stod(line.substr(22, 7)), {}};
    const auto put = [day](DailySeries<Temperature>& series, std::optional<double> celsius) {
      if (celsius) series.set(day, Temperature::from_celsius(*celsius), Quality::measured);
    };
    const auto max = column(line, 39, 45);
    const auto min = column(line, 47, 53);
    put(station.air_max, max);
    put(station.air_min, min);
    if (max && min) put(station.air_mean, (*max + *min) / 2.0);
    if (const auto mm = column(line, 71, 77)) station.rain.set(day, Rain::from_mm(*mm), Quality::measured);
    put(station.soil[5], column(line, 178, 184));
    put(station.soil[10], column(line, 186, 192));
  }
  return station;
}

/// The year 2020 at a station ("TN_Crossville_7_NW").
inline ReferenceStation reference_station(const std::string& name) {
  return read_reference_station(reference_file(name));
}

/// All stations that are here, in the order of their names.
inline std::vector<ReferenceStation> reference_stations() {
  std::vector<ReferenceStation> stations;
  for (const auto& [name, file] : reference_files()) stations.push_back(read_reference_station(file));
  return stations;
}

/// East of 100 W and south of 45.2 N, where the coefficients were fitted.
inline bool is_eastern(const ReferenceStation& station) {
  return station.place.longitude_deg > -100.0 && station.place.latitude_deg < 45.2;
}

/// Fills runs of up to `most` missing days by the straight line between the days around them.
inline DailySeries<Temperature> short_gaps_filled(DailySeries<Temperature> series, int most) {
  std::optional<Day> before;
  for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
    const auto value = series.at(day);
    if (!value) continue;
    const int gap = before ? static_cast<int>((day - *before).count()) - 1 : 0;
    for (int i = 1; gap > 0 && gap <= most && i <= gap; ++i) {
      const auto from = *series.at(*before);
      series.set(*before + Days{i}, from + (*value - from) * (static_cast<double>(i) / (gap + 1)),
                 Quality::filled);
    }
    before = day;
  }
  return series;
}

}  // namespace soilclock::tests
