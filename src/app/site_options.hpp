// SPDX-License-Identifier: MIT
// The options shared by all commands that answer for sites, and the sites they name.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/command.hpp"
#include "site/site_file.hpp"

namespace soilclock::app {

inline constexpr const char* time_zone_help = "time zone of the site (\"America/New_York\", \"UTC-05:00\")";
inline constexpr const char* units_help = "units of the text (default: those of the place)";
inline constexpr const char* records_help =
    "records file with what was logged and fetched (else soilclock/records.db in your data folder)";
inline constexpr const char* shift_morning_help =
    "the station is read in the morning: its maximum and rain belong to the day before";

/// How to read weather files that do not say it themselves.
struct FileOptionWords {
  std::string columns;
  std::string dates;
  std::string units_in;
  std::string station;
  std::string time_zone;
  bool swap_reversed = false;
  bool shift_morning = false;

  void declare(Options& options);
  Result<weather::ReadingOptions> reading() const;
  /// The first of these options that is given, by its name; empty when none is.
  std::string given() const;
  /// The same of those that only a file can need, and no service.
  std::string of_files() const;
};

/// Sites named by a site file, by standard input or by a weather file and its place.
struct SiteOptions {
  std::string sites;
  std::vector<std::string> only;  ///< ids of the sites, courses or areas wanted; empty: all
  std::vector<std::string> weather;
  std::string forecast;
  std::vector<std::string> probe;
  std::optional<double> latitude;
  std::optional<double> longitude;
  std::optional<double> elevation;
  std::string name;
  std::vector<std::string> services;
  std::string service_settings;
  std::string irrigated;
  std::string texture;
  std::string plan;  ///< of all sites of the call, whatever the site file says
  FileOptionWords words;
  std::string on;
  std::vector<std::string> targets;
  std::string units;
  std::string models;
  std::string practice;
  std::string records;

  void declare(Options& options);
  /// The part of them that says which sites, where they lie and which services know them.
  void declare_sites(Options& options);

  /// What is planned, for commands whose answer depends on it.
  void declare_plan(Options& options);

  /// An option that the way of naming the sites leaves without effect, half a place, a place where no turf
  /// is: each would otherwise give an answer to another question. Empty when all is well.
  std::optional<Problem> misuse() const;

  /// The day asked for with --on, else today: the latest of the sites' own calendars, so that no weather
  /// already fetched for one of them lies behind it. A site of unknown place has the user's calendar.
  Result<Day> day(const std::vector<Site>& sites, const Streams& streams) const;

  /// The sites of --sites FILE or of --weather. "--sites -" is a problem: `advise` alone takes sites line by
  /// line.
  Result<std::vector<Site>> read_sites_named() const;

 private:
  Result<std::vector<Site>> sites_of_file() const;
  Result<Site> single_site() const;
  std::string single_name() const;
  Result<std::vector<SiteService>> single_services() const;
};

/// A line of standard input as a site, or as the areas of a course; paths are relative to the working folder.
Result<std::vector<Site>> read_site_line(std::string_view line, int line_number);

/// The options of commands that read the models.
void declare_models(Options& options, std::string& models, std::string& practice);
/// --format with the forms a command knows.
void declare_format(Options& options, std::string& format, const std::vector<std::string>& offered);

}  // namespace soilclock::app
