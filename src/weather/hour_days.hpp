// SPDX-License-Identifier: MIT
// Hours that are instants of UTC to days of local standard time.
#pragma once

#include <optional>
#include <vector>

#include "core/place.hpp"
#include "core/quality.hpp"
#include "core/time_zone.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// Hourly values of one place. Every list but `stamps` is as long as `stamps` or empty; not-a-number is
/// missing.
struct HourlyValues {
  std::vector<Instant> stamps;   ///< strictly rising
  std::vector<double> air;       ///< Celsius, at the stamp
  std::vector<double> air_low;   ///< Celsius, lowest of the hour that ends at the stamp; empty: `air` serves
  std::vector<double> air_high;  ///< highest of that hour
  std::vector<double> rain;      ///< mm of the hour that ends at the stamp
  std::vector<double> humidity;  ///< percent, at the stamp
  std::vector<double> wind;      ///< m/s, at the stamp
};

struct HourDayRule {
  /// Hours in a row that a day's extremes may lack: none for models, which have every hour; five for
  /// stations, as in tables of readings (common practice: the longest hole between readings is six hours).
  int most_missing = 0;
  Quality quality = Quality::modelled;
  bool keep_hours = true;  ///< the single hours stay in the reading
};

/// Standard time of one zone at many instants; quick for instants in order.
class StandardClock {
 public:
  explicit StandardClock(TimeZone zone) : zone_{std::move(zone)} {}
  /// The standard-time clock, as seconds since 1 January 1970 of that clock.
  Instant local(Instant at);
  std::chrono::seconds offset(Instant at);
  const TimeZone& zone() const { return zone_; }

 private:
  TimeZone zone_;
  std::optional<Day> known_day_;  // a UTC day within which the offset does not change
  std::chrono::seconds known_offset_{0};
};

/// The zone of the options, else the whole hours that belong to the longitude (15 degrees each), said in a
/// doubt; nothing when neither is known.
std::optional<TimeZone> zone_of_days(const ReadingOptions& options, const std::optional<Place>& place,
                                     ReadingNotes& notes);

/// Fills air, rain, hours, dates, counts and the day definition of a reading. A reading at a stamp belongs to
/// the day of the stamp; an amount or extreme of the hour that ends at the stamp belongs to the day that hour
/// lies in, so that the rain stamped 00:00 counts for the day before. A day's rain needs all 24 hours.
/// Impossible values are missing, with a doubt.
void cut_into_days(const HourlyValues& values, StandardClock clock, const HourDayRule& rule,
                   ParsedFile& reading, ReadingNotes& notes);

/// Closes a reading: its doubts, and the outcome they make; a refusal where many temperatures are impossible:
/// of the hours read, or of the days where there were none.
void conclude(ParsedFile& reading, const ReadingNotes& notes, std::size_t hours = 0);

}  // namespace soilclock::weather
