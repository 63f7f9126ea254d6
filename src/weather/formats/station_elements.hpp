// SPDX-License-Identifier: MIT
// Daily values of stations in the long form of the US climate archive: one value a day and element, with
// flags.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "weather/columns/heading_meaning.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/observer_flags.hpp"

namespace soilclock::weather {

/// One value as the archive writes it.
struct ElementValue {
  Day day{};
  std::string_view element;      ///< "TMAX", "PRCP", "SN52", ...
  double value = 0.0;            ///< in the units of the record
  std::string_view measurement;  ///< flag of how it was measured: T trace, P presumed zero; blank: none
  std::string_view quality;      ///< failed check; blank: passed
  std::string_view time;         ///< HHMM of the observation, blank when not given
  std::optional<int> line;
};

/// Collects the values of one station. Elements used: TMAX, TMIN, PRCP, MDPR with DAPR (a total of several
/// days; its days have no rain of their own) and the soil extremes SN and SX, whose mean is the day's. Values
/// with a quality flag are missing, and so is rain that was only presumed to be zero. Source: the archive's
/// readme (Menne et al. 2012, J. Atmos. Oceanic Technol. 29, 897-910); basis of the flag lists: memory.
class StationElements {
 public:
  StationElements(Unit temperature, Unit rain) : temperature_{temperature}, rain_{rain} {}

  /// Error: the day has another value of the element already.
  Checked add(const ElementValue& value, ReadingNotes& notes);
  /// Fills daily values, columns, counts and doubts of a reading. Errors: nothing that can be used;
  /// temperatures no station has ever had, which means another unit.
  Checked finish(const ReadingOptions& options, ParsedFile& reading, ReadingNotes& notes);
  bool empty() const { return values_.empty(); }

 private:
  struct Kept {
    double value = 0.0;
    bool usable = true;
    std::optional<int> line;
  };
  using OneElement = std::map<Day, Kept>;

  const OneElement* find(const std::string& element) const;
  Checked check_unit(const ReadingNotes& notes) const;
  void note_flags(ReadingNotes& notes) const;
  void fill_air(const ReadingOptions& options, Days shift, ParsedFile& reading, ReadingNotes& notes) const;
  void fill_rain(Days shift, ParsedFile& reading, ReadingNotes& notes) const;
  void clear_several_days(Days shift, ParsedFile& reading, ReadingNotes& notes) const;
  void fill_soil(ParsedFile& reading, ReadingNotes& notes) const;
  void list_columns(ParsedFile& reading) const;

  Unit temperature_;
  Unit rain_;
  std::map<std::string, OneElement, std::less<>> values_;
  std::map<std::string, int> failed_;  // by quality flag
  std::set<Day> traces_;
  std::set<Day> presumed_;
  ObservationTimes times_;
};

}  // namespace soilclock::weather
