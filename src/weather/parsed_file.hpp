// SPDX-License-Identifier: MIT
// How one weather file was read: everything `inspect` shows and the series the rest of the program works
// with.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/time_zone.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::weather {

/// ok: read silently; warn: read, and the doubts say what to look at; error: not used, and the refusal says
/// why.
enum class Outcome { ok, warn, error };

/// Order of day, month and year where a file does not settle it.
enum class DateOrder { automatic, day_first, month_first, year_first };

struct UnitQuestion;

/// What the user says about a file where the file itself does not.
struct ReadingOptions {
  /// Quantity of each column by position ("date,tmin,tmax,rain") or by heading ("High=tmax,Low=tmin"); empty:
  /// recognize.
  std::string columns;
  DateOrder dates = DateOrder::automatic;
  /// "C", "F", "K" for temperatures and "mm", "in" for rain, comma separated ("F,in"); empty: from the file.
  std::string units_in;
  /// The same words for a text that was asked for in these units: they stand where no heading says otherwise,
  /// and numbers that do not fit them are refused.
  std::string asked_in;
  /// Which of several stations in one file; empty: the first, with a doubt.
  std::string station;
  /// The zone of the site: needed for UTC stamps, used for local ones when it is there.
  std::optional<TimeZone> time_zone;
  /// Where the site stands: its climate tells whether the numbers can be in their unit.
  std::optional<Place> place;
  /// A minimum above its maximum is exchanged instead of taken as missing.
  bool swap_reversed_extremes = false;
  /// Moves maximum and rain of a morning observer to the day before.
  bool shift_morning_observations = false;
  /// Doubts name temperatures in Fahrenheit and rain in inches.
  bool us_units = false;
  /// Becomes true when a sentence names a value in those units, so that other units ask for another reading.
  bool* units_said = nullptr;
  /// Takes what was asked about the place, so that a site at another one may know that its reading is the
  /// same (weather/unit_evidence.hpp).
  std::vector<UnitQuestion>* unit_questions = nullptr;
  /// The readings of single hours are kept beside the days. Over many years they take more room than all
  /// else.
  bool keep_hours = true;
};

/// Something a careful reader would mention about one place of a file.
struct Doubt {
  std::optional<int> line;
  std::optional<int> column;
  std::string text;
};

/// How one column was understood.
struct ParsedColumn {
  std::string header;
  std::string quantity;  ///< "date", "tmin", "tmax", "tmean", "rain", "soil 5 cm", ..., "not used"
  std::string unit;      ///< "C", "F", "mm", ...; empty where none applies
};

struct ParsedFile {
  std::string file;
  Outcome outcome = Outcome::error;
  std::optional<Problem> refusal;  ///< set exactly when outcome is error
  std::vector<Doubt> doubts;
  std::vector<ParsedColumn> columns;
  std::string step;  ///< "daily", "hourly", "30-minute", "6-hourly", "mixed"
  DailyWeather daily;
  std::vector<ProbeObservation>
      spots;  ///< soil read once a day at a clock time; such days are not in daily.soil
  std::vector<HourlyObservation> hours;  ///< empty for daily files, and when they were not to be kept
  std::optional<Place> place;            ///< where the file says it is from
  std::optional<Day> first_date;
  std::optional<Day> last_date;
  int days_with_data = 0;  ///< daily: both extremes; sub-daily: at least one usable temperature
  int missing_days = 0;    ///< calendar days between first and last without any usable temperature
  int partial_days = 0;    ///< daily: one extreme only; sub-daily: fewer than 75 percent of the readings
};

}  // namespace soilclock::weather
