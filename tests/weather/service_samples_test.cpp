// SPDX-License-Identifier: MIT
// Every recorded or transcribed answer, read as what it is: counts taken from the answers with another
// program, refusals from the notes that came with them.
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "service_texts.hpp"

using namespace weather_texts;
using namespace service_texts;

namespace {

struct Sample {
  const char* file;
  const char* service;
  int series;
  const char* first;
  const char* last;
  const char* unit;  // of the first temperature column
  int with_data;
  int missing;
};

const Sample read_samples[] = {
    {"open_meteo/archive_daily_brasilia_11d.json", "open-meteo", 1, "2022-12-29", "2023-01-08", "C", 0, 0},
    {"open_meteo/archive_daily_nyc_10y_fahrenheit.json", "open-meteo", 1, "2016-02-15", "2026-02-14", "F",
     3653, 0},
    {"open_meteo/archive_daily_nyc_leap_and_dst_2024.json", "open-meteo", 1, "2024-02-26", "2024-03-17", "F",
     21, 0},
    {"open_meteo/archive_hourly_and_daily_brasilia_1d.json", "open-meteo", 1, "2022-12-29", "2022-12-29", "C",
     1, 0},
    {"open_meteo/archive_hourly_wrong_sign_longitude.json", "open-meteo", 1, "2022-12-29", "2022-12-29", "C",
     1, 0},
    {"open_meteo/climate_daily_fahrenheit_inch.json", "open-meteo", 1, "2030-01-01", "2030-02-01", "F", 0, 0},
    {"open_meteo/forecast_daily_kolkata_7d.json", "open-meteo", 1, "2025-05-29", "2025-06-04", "C", 7, 0},
    {"open_meteo/forecast_daily_london_8d.json", "open-meteo", 1, "2025-05-27", "2025-06-03", "C", 8, 0},
    {"open_meteo/forecast_daily_unixtime_lisbon.json", "open-meteo", 1, "2024-01-26", "2024-02-01", "C", 7,
     0},
    {"open_meteo/forecast_hourly_brasilia_7d.json", "open-meteo", 1, "2023-10-25", "2023-10-31", "C", 7, 0},
    {"constructed/open_meteo_ensemble_members.json", "open-meteo", 3, "2024-05-01", "2024-05-02", "C", 0, 0},
    {"constructed/open_meteo_extremes_beside_null_sums.json", "open-meteo", 1, "2024-04-28", "2024-05-01",
     "C", 4, 0},
    {"constructed/open_meteo_two_models.json", "open-meteo", 2, "2024-05-01", "2024-05-03", "C", 2, 1},
    {"constructed/open_meteo_unixtime_over_dst_end.json", "open-meteo", 1, "2025-10-24", "2025-10-28", "C", 5,
     0},
    {"constructed/nasa_power_daily_point.json", "power", 1, "2024-04-28", "2024-05-02", "C", 3, 2},
    {"constructed/ncei_access_v1_daily_metric.json", "ncei", 1, "2023-04-10", "2023-04-12", "C", 2, 1},
    {"ncei/cdo_v2_ghcnd_prcp_mi_2013-09.json", "ncei", 1, "2013-09-03", "2013-09-30", "", 0, 28},
    {"nws/gridpoint_tae_2022-02-04.json", "nws", 1, "2022-02-04", "2022-02-11", "C", 7, 0},
    {"nws/gridpoint_boi_2024-06-25.json", "nws", 1, "2024-06-26", "2024-07-03", "C", 7, 0},
};

struct Refusal {
  const char* file;
  const char* says;
};

const Refusal refused_samples[] = {
    {"open_meteo/archive_daily_mean_berlin_compact.json", "minimum and maximum are needed"},
    {"open_meteo/archive_era5land_null_day_excerpt.json", "lacks latitude, longitude, utc_offset_seconds"},
    {"open_meteo/client_rewritten_no_units.json",
     "lacks latitude, longitude, utc_offset_seconds and hourly_units"},
    {"open_meteo/error_400_bad_unit.json", "asdfsfd"},
    {"open_meteo/error_400_bad_variable.json", "lksdfj"},
    {"open_meteo/forecast_current_celsius_darwin.json", "no block of hours or days"},
    {"open_meteo/forecast_current_fahrenheit_darwin.json", "no block of hours or days"},
    {"open_meteo/forecast_daily_all_null.json", "all 11 values of 'temperature_2m_max' are null"},
    {"open_meteo/forecast_daily_chennai_half_hour_zone.json", "minimum and maximum are needed"},
    {"open_meteo/forecast_two_locations_array.json", "none that the zone Europe/Berlin keeps"},
    {"constructed/open_meteo_200_broken_stream.txt", "the answer is cut off"},
    {"constructed/open_meteo_error_400_date_range.json", "out of allowed range from 1940-01-01"},
    {"constructed/open_meteo_error_400_exclusive.json", "mutually exclusive"},
    {"constructed/open_meteo_error_400_latitude.json", "Latitude must be in range"},
    {"constructed/open_meteo_error_400_too_much.json", "too much data"},
    {"constructed/open_meteo_error_429_concurrent.json", "Too many concurrent requests"},
    {"constructed/open_meteo_error_429_daily.json", "Daily API request limit"},
    {"constructed/open_meteo_error_429_hourly.json", "Hourly API request limit"},
    {"constructed/open_meteo_error_429_minutely.json", "Minutely API request limit"},
    {"constructed/open_meteo_error_503_overloaded.json", "The service is overloaded"},
    {"constructed/nws_error_404_invalid_point.json", "Unable to provide data for requested point"},
    {"constructed/nws_redirect_301_point_precision.json", "limited to 4 decimal digits"},
    {"nws/error_500_unexpected_problem.json", "An unexpected problem has occurred"},
    {"nws/error_503_forecast_grid_expired.json", "has expired"},
    {"nws/error_503_forecast_missing_data.json", "missing data for time 2021-04-20T21:00:00-04:00"},
    {"nws/error_503_unavailable.json", "currently unavailable"},
    {"nws/gridpoint_forecast_hourly_us.json", "worded forecast by periods"},
    {"nws/gridpoint_forecast_si.json", "worded forecast by periods"},
    {"nws/gridpoint_forecast_us.json", "worded forecast by periods"},
    {"nws/observation_missing_value.json", "stations or observations"},
    {"nws/points_boi.json", "only names the grid"},
    {"nws/points_tae.json", "only names the grid"},
    {"../nws/gridpoints_forecast_empty_us.json", "worded forecast by periods"},
    {"../nws/gridpoints_forecast_hourly_si.json", "worded forecast by periods"},
    {"../nws/gridpoints_stations.json", "stations or observations"},
    {"../nws/stations_observations.json", "stations or observations"},
    {"../nws/stations_observations_noprop.json", "stations or observations"},
};

/// Text files of the services, which go through the reader of tables.
const Sample table_samples[] = {
    {"awdb/report_daily_snotel_306_excerpt.csv", "", 1, "2018-01-01", "2018-01-02", "F", 2, 0},
    {"constructed/ncei_access_v1_daily_metric_attributes.csv", "", 1, "2023-04-10", "2023-04-14", "C", 3, 2},
    {"constructed/open_meteo_csv_one_location.csv", "", 1, "2024-05-01", "2024-05-02", "C", 1, 1},
    {"constructed/open_meteo_csv_two_locations.csv", "", 1, "2024-05-01", "2024-05-02", "C", 2, 0},
    {"nasa_power/daily_point_ag_site_elevation.csv", "", 1, "1983-01-01", "1983-01-01", "C", 1, 0},
    {"nasa_power/daily_point_ag_utc.csv", "", 1, "1983-01-01", "1983-01-01", "C", 1, 0},
    {"nasa_power/daily_point_sb_lst.csv", "", 1, "1983-01-01", "1983-01-01", "C", 1, 0},
    {"nasa_power/daily_point_sb_utc.csv", "", 1, "1983-01-01", "1983-01-01", "C", 1, 0},
    {"ncei/daily_summaries_death_valley_2021_standard.csv", "", 1, "2021-01-01", "2021-12-31", "F", 364, 0},
    {"ncei/daily_summaries_sitka_2021_simple_with_gap.csv", "", 1, "2021-01-01", "2021-12-31", "F", 364, 0},
    {"ncei/daily_summaries_sitka_2021_standard.csv", "", 1, "2021-01-01", "2021-12-31", "F", 364, 0},
};

const Refusal refused_tables[] = {
    {"nasa_power/climatology_point_ag.csv", "no column holds dates"},
    {"ncei/error_404_html_saved_as.csv", "web page"},
    {"open_meteo/client_rewritten_no_units.csv", "'temperature_300hPa' is not that"},
};

/// The zone of the two recorded grids; their longitudes alone would give another hour.
ReadingOptions options_for(const std::string& file) {
  if (has(file, "_tae_")) return in_zone("America/New_York");
  if (has(file, "_boi_")) return in_zone("America/Los_Angeles");
  return {};
}

std::string first_temperature_unit(const ParsedFile& reading) {
  for (const auto& column : reading.columns) {
    if (column.quantity == "tmin" || column.quantity == "tmax" || column.quantity == "temperature" ||
        column.quantity == "tmean")
      return column.unit;
  }
  return {};
}

void check_reading(const ParsedFile& reading, const Sample& sample) {
  CAPTURE(said(reading));
  REQUIRE(reading.first_date.has_value());
  CHECK(soilclock::iso(*reading.first_date) == sample.first);
  CHECK(soilclock::iso(*reading.last_date) == sample.last);
  CHECK(first_temperature_unit(reading) == sample.unit);
  CHECK(reading.days_with_data == sample.with_data);
  CHECK(reading.missing_days == sample.missing);
  CHECK(reading.outcome != Outcome::error);
}

}  // namespace

TEST_CASE("every recorded answer reads with its service, its days and its units") {
  const auto folder = records_folder();
  if (!folder) return;
  for (const Sample& sample : read_samples) {
    CAPTURE(sample.file);
    const auto result = read_service_answer(bytes_of(*folder / "api_samples" / sample.file), sample.file,
                                            options_for(sample.file));
    if (!result) FAIL(soilclock::describe(result.error()));
    CHECK(result->service == sample.service);
    REQUIRE(result->series.size() == static_cast<std::size_t>(sample.series));
    check_reading(result->series.front().reading, sample);
    // The reader of files reads the same.
    check_reading(read_file(*folder / "api_samples" / sample.file, options_for(sample.file)), sample);
  }
}

TEST_CASE("every recorded answer that holds no usable weather is refused with its reason") {
  const auto folder = records_folder();
  if (!folder) return;
  for (const Refusal& sample : refused_samples) {
    CAPTURE(sample.file);
    const auto result =
        read_service_answer(bytes_of(*folder / "api_samples" / sample.file), "answer", ReadingOptions{});
    REQUIRE_FALSE(result.has_value());
    CAPTURE(soilclock::describe(result.error()));
    CHECK(has(soilclock::describe(result.error()), sample.says));
    CHECK(result.error().family == soilclock::Family::data);
    CHECK(result.error().where.file == "answer");
    const ParsedFile reading = read_file(*folder / "api_samples" / sample.file);
    CHECK(reading.outcome == Outcome::error);
    CHECK(reading.refusal.has_value());
  }
}

TEST_CASE("the answers that come as tables read or are refused as tables") {
  const auto folder = records_folder();
  if (!folder) return;
  for (const Sample& sample : table_samples) {
    CAPTURE(sample.file);
    check_reading(read_file(*folder / "api_samples" / sample.file), sample);
  }
  for (const Refusal& sample : refused_tables) {
    const ParsedFile reading = read_file(*folder / "api_samples" / sample.file);
    CAPTURE(sample.file, said(reading));
    CHECK(reading.outcome == Outcome::error);
    CHECK(says(reading, sample.says));
  }
}

TEST_CASE("no recorded answer is left without an expectation") {
  const auto folder = records_folder();
  if (!folder) return;
  std::set<std::string> known;
  const auto note = [&](const auto& samples) {
    for (const auto& sample : samples) known.insert(std::filesystem::path{sample.file}.filename().string());
  };
  note(read_samples);
  note(refused_samples);
  note(table_samples);
  note(refused_tables);
  int files = 0;
  for (const auto& place : {*folder / "api_samples", *folder / "nws"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator{place}) {
      const std::string name = entry.path().filename().string();
      if (!entry.is_regular_file() || name == "README.md") continue;
      INFO(entry.path().string());
      CHECK(known.contains(name));
      ++files;
    }
  }
  CHECK(files >= 70);
}
