// SPDX-License-Identifier: MIT
// What a turf manager notes down: six kinds of record as plain values. They know nothing of the file they
// are kept in.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/dates.hpp"
#include "core/depth.hpp"
#include "core/fraction.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock::records {

/// A wall-clock time of the site, to the minute.
struct ClockTime {
  int minute_of_day = 0;  ///< 0 (00:00) to 1439 (23:59)
  friend auto operator<=>(const ClockTime&, const ClockTime&) = default;
};

/// What an application was meant as.
enum class Purpose { pre, pre_and_post, post, dormant };

/// Plants that came up since the last count, or all plants that stand there.
enum class Counted { fresh, standing };

/// The state of the turf as somebody saw it.
enum class TurfSeen { green, slowing, semi_dormant, dormant, breaking, greening };

/// The unit each measured field was noted in, by field name and as it is written behind a number ("F", "in");
/// a field that is absent was noted in the unit it is kept in. Only for showing a value as it was noted.
using NotedUnits = std::map<std::string, std::string, std::less<>>;

/// A spray or granular treatment. Site, date and at least one active or group are needed, all else may stay
/// empty. Empty text, an empty list and an empty optional all mean "not noted", never none or zero;
/// validate() says which fields a record must hold.
struct Application {
  std::string site;  ///< id of the site file
  std::optional<Day> date;
  std::optional<ClockTime> start;
  std::optional<ClockTime> end;
  std::string area;                  ///< in the user's words: "fairways 1-9"
  std::string turf;                  ///< in the user's words: "hybrid bermudagrass"
  std::string target;                ///< EPPO code
  std::string stage;                 ///< of the target, in the user's words
  std::vector<std::string> actives;  ///< common names
  std::vector<int> groups;           ///< HRAC/WSSA site-of-action numbers
  std::optional<Purpose> purpose;
  std::optional<int> split_part;  ///< 1 or 2 of a treatment given in two parts
  std::optional<Rain> watering_in;
  std::optional<Day> watering_date;
  std::string applicator;
  std::string license;
  std::string registration;  ///< kept as written, never interpreted
  std::string amount;        ///< kept as written, never interpreted
  std::string volume;        ///< kept as written, never interpreted
  std::string nozzle;
  std::optional<double> wind_m_per_s;
  std::optional<double> wind_from_degrees;  ///< where it blows from: 0 north, 90 east
  std::optional<Temperature> air_temperature;
  std::optional<double> humidity_percent;
  std::optional<Temperature> soil_temperature;
  std::optional<Rain> rain_after;
  std::string re_entry;  ///< in the user's words: "when dry", "18:00"
  std::string photo;     ///< where a picture lies, in the user's words
  std::string notes;
  NotedUnits units;
};

/// Seedlings counted in plots, or the share of the ground judged by eye; exactly one of the two is needed.
struct ScoutingCount {
  std::string site;
  std::optional<Day> date;
  std::string target;                    ///< EPPO code
  std::optional<int> plots;              ///< where counts are noted: as many as there are counts
  std::optional<double> plot_area_m2;    ///< of one plot
  std::vector<int> counts;               ///< plants in each plot; a plot without any is 0
  std::optional<Fraction> visual_share;  ///< of the ground covered by the target
  std::optional<Counted> counted;
  std::string stage;
  std::string area;
  std::string notes;
  NotedUnits units;
};

/// One soil temperature read off a probe.
struct ProbeReading {
  std::string site;
  std::optional<Day> date;
  std::optional<ClockTime> time;
  std::optional<Depth> depth;
  std::optional<Temperature> temperature;
  std::string area;
  std::string notes;
  NotedUnits units;
};

/// A look at the turf by eye, which no temperature can replace before a treatment in dormancy.
struct EyeCheck {
  std::string site;
  std::optional<Day> date;
  std::optional<TurfSeen> state;
  std::string seen_by;
  std::string area;
  std::string notes;
  NotedUnits units;  ///< stays empty: nothing is measured
};

/// The first seedlings of a target in a season.
struct FirstSeen {
  std::string site;
  std::optional<Day> date;
  std::string target;  ///< EPPO code
  std::string seen_by;
  std::string area;
  std::string notes;
  NotedUnits units;  ///< stays empty: nothing is measured
};

/// Plants or cover in treated turf and in a strip left untreated, on one day after the treatment; counts or
/// cover are needed, of both sides.
struct StripCheck {
  std::string site;
  std::optional<Day> date;
  std::string target;               ///< EPPO code
  std::vector<int> treated;         ///< plants in each plot; a plot without any is 0
  std::vector<int> untreated;       ///< the same in the strip
  std::vector<int> treated_before;  ///< in the same plots before the treatment; both sides or neither
  std::vector<int> untreated_before;
  std::optional<Fraction> treated_share;  ///< of the ground covered, judged by eye
  std::optional<Fraction> untreated_share;
  std::optional<Fraction> treated_share_before;  ///< both sides or neither
  std::optional<Fraction> untreated_share_before;
  std::string area;
  std::string notes;
  NotedUnits units;
};

using Record = std::variant<Application, ScoutingCount, ProbeReading, EyeCheck, FirstSeen, StripCheck>;

/// In the order of the alternatives of Record.
enum class RecordKind { application, count, reading, check, first_seen, strip };
inline constexpr RecordKind all_kinds[] = {RecordKind::application, RecordKind::count,
                                           RecordKind::reading,     RecordKind::check,
                                           RecordKind::first_seen,  RecordKind::strip};

/// "application", "count", "reading", "check", "first-seen" or "strip": the word of the command line and of
/// every export.
std::string_view name(RecordKind kind);
/// The kind of that name, nothing for other words.
std::optional<RecordKind> kind_named(std::string_view word);
RecordKind kind_of(const Record& record);
/// A record of the kind with nothing noted in it.
Record empty_record(RecordKind kind);

const std::string& site_of(const Record& record);
/// Where at the site, in the user's words; empty: not noted.
const std::string& area_of(const Record& record);
/// A name without case, blanks, '-' and '_': what people write in two ways and mean one thing by.
std::string bare_name(std::string_view name);
/// The day of a record that validate() takes.
Day date_of(const Record& record);
const NotedUnits& units_of(const Record& record);
NotedUnits& units_of(Record& record);

}  // namespace soilclock::records
