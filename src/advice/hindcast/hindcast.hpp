// SPDX-License-Identifier: MIT
// What would have been forecast in past seasons, and how good it was: every season of a record is judged with
// what was known on each of several mornings, against what the rest of that season then gave, beside plain
// rivals.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/data/hindcast_rules.hpp"
#include "advice/hindcast/forecast_scores.hpp"
#include "core/band.hpp"
#include "core/dates.hpp"
#include "core/remark.hpp"
#include "core/season.hpp"

namespace soilclock::advice {

/// How the forecasts of the past are made.
struct HindcastRun {
  bool with_readings = true;  ///< soil read up to the issue date is known; else only that of earlier seasons
  int known_ahead = 0;        ///< days of weather from the issue date on taken as a perfect forecast
  int members = 200;
  std::uint64_t seed = 1;
};

/// A day of every year.
struct CalendarDay {
  unsigned month = 1;
  unsigned day = 1;
};

/// What was forecast about one event on one morning: the program's forecast, and the same futures with the
/// 7-day mean of air taken for soil (empty where that was not run).
struct IssuedForecast {
  DayEnsemble program{std::vector<WeightedDay>{}};
  DayEnsemble air_as_soil{std::vector<WeightedDay>{}};
  /// The band as an answer gives it, where its middle is not the members' own.
  std::optional<Band<Outcome>> band = {};
};

/// One kind of thing that is forecast, with one or several events; days are days of the season.
class HindcastSubject {
 public:
  struct Event {
    std::string id;       ///< "soil-crossing", "POAAN-50"
    std::string words;    ///< "the 7-day mean of soil at 10 cm falls to 12.0 C"
    bool pooled = false;  ///< whether past dates are pooled in far ahead, as the program does for this event
  };
  virtual ~HindcastSubject() = default;
  virtual std::vector<Event> events() const = 0;
  virtual SeasonKind kind() const = 0;
  /// First season day that counts as "never".
  virtual int after_window() const = 0;
  /// The day of each event in a season, by the record up to that season's window; an empty outer value where
  /// the record cannot tell.
  virtual std::vector<std::optional<Outcome>> outcome(const Season& season) const = 0;
  /// What would have been forecast on a morning of the season, event by event, with what was known then.
  virtual std::vector<IssuedForecast> issued(const Season& season, Day issue_date) const = 0;
  /// Things worth saying about how it is judged.
  virtual std::vector<Remark> remarks() const = 0;
};

/// Who forecasts: the program and its plain rivals.
enum class Forecaster : unsigned char {
  program,
  past_dates,  ///< the distribution of past dates still to come: the honest rival
  mean_date,   ///< the site's mean date, or the issue date once that has passed
  air_as_soil  ///< the 7-day mean of air taken for soil, same futures
};
inline constexpr std::size_t forecaster_count = 4;
/// "program", "past-dates", "mean-date", "air-as-soil".
std::string_view name(Forecaster forecaster);

/// One season judged from one morning. Days since the season's first are made dates.
struct HindcastCase {
  int year = 0;  ///< in which the season began
  Day issue_date{};
  std::optional<Day> outcome;  ///< empty: not within the window
  DateBand issued;
  std::optional<int> days_off;  ///< middle minus what happened; empty where either is "never"
  bool held = false;            ///< the band held it
  int band_days = 0;
  double pooled_share = 0.0;                         ///< of the forecast, from past dates
  int past_dates = 0;                                ///< past dates still to come
  std::array<double, forecaster_count> crps_days{};  ///< not a number where a rival could not forecast
  ProbabilitySteps steps;
};

/// The cases of one issue date summed up. Scores and gains are over the cases that all forecast who forecast
/// enough of them; a rival that did not has none (not a number).
struct HindcastScores {
  CalendarDay issue_date;
  int cases = 0;
  double coverage = 0.0;       ///< of the 80 percent band, 0..1
  double band_days = 0.0;      ///< mean width
  double mean_days_off = 0.0;  ///< middle minus what happened: positive is late
  double mean_abs_days_off = 0.0;
  int compared = 0;  ///< cases behind the scores
  std::array<double, forecaster_count> crps_days{};
  /// Share by which the program's score is lower than the rival's; negative where it is worse.
  std::array<double, forecaster_count> gain{};
};

/// All about one event.
struct EventHindcast {
  HindcastSubject::Event event;
  std::vector<HindcastCase> cases;     ///< by issue date, then year
  std::vector<HindcastScores> scores;  ///< one for each issue date with cases
};

struct HindcastSettings {
  std::vector<CalendarDay> issue_days;
  Day end{};    ///< first day after the record
  Day first{};  ///< first day of the record
  Hemisphere hemisphere = Hemisphere::north;
  int earlier_seasons = 0;  ///< a season is judged when so many earlier ones are known
  HindcastRules rules;
};

/// Share of a forecast taken from past dates still to come: most * clamp((L - from) / over, 0, 1), L the
/// median lead of the forecast itself in days (never judged by what happened).
double pooled_share(double median_lead_days, const PoolingRules& rules);

/// Judges all seasons of the record in which the event still lay ahead on the issue date, each with earlier
/// seasons only. Seasons whose date the record cannot tell are left out.
std::vector<EventHindcast> hindcast(const HindcastSubject& subject, const HindcastSettings& settings);

}  // namespace soilclock::advice
