// SPDX-License-Identifier: MIT
#include "studies/stations.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <utility>

#include "weather/read_weather.hpp"

namespace soilclock::studies {

namespace {

namespace files = std::filesystem;

std::optional<files::path> record_folder(const std::string& part) {
  const char* named = std::getenv("SOILCLOCK_RECORDS");
  const files::path root =
      named != nullptr ? files::path{named} : files::path{SOILCLOCK_SOURCE_DIR} / ".." / "shared" / "data";
  if (files::is_directory(root / part)) return root / part;
  fmt::print("SKIPPED: no measured records in {}; set SOILCLOCK_RECORDS\n", (root / part).string());
  return std::nullopt;
}

std::string text_of(const files::path& path) {
  std::ifstream file{path, std::ios::binary};
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

Station read_station(const files::path& path, const std::string& prefix) {
  weather::ParsedFile reading = weather::read_weather_text(text_of(path), path.filename().string(), {});
  if (reading.refusal) throw std::runtime_error{describe(*reading.refusal)};
  if (!reading.place) throw std::runtime_error{path.string() + " does not say where it is from"};
  Station station{path.stem().string().substr(prefix.size()), *reading.place, std::move(reading.daily)};
  std::replace(station.name.begin(), station.name.end(), '_', ' ');
  station.soil = std::exchange(station.daily.soil, {});
  return station;
}

std::vector<Station> read_folder(const files::path& folder, const std::string& prefix) {
  std::vector<files::path> paths;
  for (const auto& entry : files::directory_iterator{folder}) {
    const files::path& path = entry.path();
    if (path.extension() == ".txt" && path.filename().string().starts_with(prefix)) paths.push_back(path);
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Station> stations;
  for (const files::path& path : paths) stations.push_back(read_station(path, prefix));
  return stations;
}

}  // namespace

bool is_eastern(const Station& station) {
  return station.place.longitude_deg > -100.0 && station.place.latitude_deg < 45.2;
}

std::optional<std::vector<Station>> read_stations() {
  const auto years = record_folder("uscrn_years");
  const auto one_year = record_folder("uscrn");
  if (!years || !one_year) return std::nullopt;
  std::vector<Station> stations = read_folder(*years, "CRND0103-");
  for (Station& station : read_folder(*one_year, "CRND0103-2020-")) {
    station.one_year = true;
    stations.push_back(std::move(station));
  }
  return stations;
}

std::vector<Station> read_cities() {
  const auto folder = record_folder("vega_noaa");
  if (!folder) return {};
  std::vector<Station> cities;
  for (const auto& [name, place] :
       {std::pair{"Seattle", Place{47.45, -122.31, {}}}, std::pair{"New York", Place{40.78, -73.97, {}}}}) {
    weather::ReadingOptions options;
    options.station = name;
    options.place = place;
    weather::ParsedFile reading =
        weather::read_weather_text(text_of(*folder / "weather.csv"), "weather.csv", options);
    if (reading.refusal) throw std::runtime_error{describe(*reading.refusal)};
    cities.push_back({name, place, std::move(reading.daily)});
  }
  return cities;
}

}  // namespace soilclock::studies
