// SPDX-License-Identifier: MIT
// Weather stored from open services, day by day, with when it was asked for. A value once known is never
// replaced by an unknown one: services lose days and get them back. Each answer is stored whole or not at
// all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/place.hpp"
#include "core/time_zone.hpp"
#include "records/day_merging.hpp"
#include "records/store.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::records {

/// Which of a service's series: days gone by, days around today and to come, members of an ensemble of those.
enum class WeatherPart { history, forecast, members };
std::string_view name(WeatherPart part);

/// A series is stored for a site, the place it was asked for and the way its days are cut: a site that moves,
/// is given another height or changes its clock begins anew, so that no series has a step in the middle.
struct SeriesKey {
  std::string site;
  std::string service;
  WeatherPart part = WeatherPart::history;
  std::string station;  ///< empty for grids
  Place place;  ///< as asked; compared to four decimals (about 10 m) and, where one was sent, whole meters
  std::string clock;  ///< "America/New_York"; empty where the service cuts the days itself
  std::string cut;    ///< "local standard time", or what a reader moved; may be empty where the clock is
};

/// What the answer says about itself.
struct SeriesFacts {
  std::optional<Place> cell;  ///< where the grid cell or the station lies
  std::string model;
  std::string day_definition;
};

/// One answer for one series, ready to be stored.
struct FetchedWeather {
  SeriesFacts facts;
  Instant at{};        ///< when it was given
  std::string origin;  ///< host, or the name of a saved file
  DayRange asked;      ///< days the answer was to hold; those it lacks are stored as asked in vain
  std::vector<weather::DailyWeather> members;     ///< one item unless the part is `members`
  std::vector<weather::HourlyObservation> hours;  ///< take the place of the hours stored before, unless empty
  std::vector<std::string> doubts;                ///< about its values
};

struct AnswerToStore {
  SeriesKey key;
  FetchedWeather fetched;
};

struct StoringResult {
  int new_days = 0;      ///< days whose minimum and maximum are known for the first time
  int changed_days = 0;  ///< known days with another value than before
  int spared_days = 0;   ///< days whose known values the answer would have replaced by nothing
};

struct StoredWeather {
  SeriesFacts facts;
  std::vector<std::vector<StoredDay>> members;  ///< by day each; never empty
  std::vector<weather::HourlyObservation> hours;
  std::vector<std::string> doubts;  ///< about answers that days still come from, each once
  std::string origin;               ///< of the latest answer
  Instant last_answer{};
};

class WeatherStore {
 public:
  /// Works on the records file of `store`, which must outlive it.
  explicit WeatherStore(Store& store) : database_{store.database()} {}

  /// Keeps an answer for all its series, in one transaction; results in the same order. An answer given
  /// before what is stored fills holes and nothing else; the members of a newer ensemble take the place of
  /// all older ones. Problem (environment): the file cannot be written; nothing is stored then.
  Result<std::vector<StoringResult>> put(const std::vector<AnswerToStore>& answer);
  /// Everything stored of a series; nothing when none of it was ever fetched. Problem (data): the file holds
  /// what no version of this program writes.
  Result<std::optional<StoredWeather>> read(const SeriesKey& key);
  /// The days of a series without its members; empty when none was ever fetched.
  Result<std::vector<StoredDay>> days(const SeriesKey& key);
  /// Series of the same site, service and part that were fetched for another place, clock or station, or
  /// whose days are cut otherwise.
  Result<std::vector<SeriesKey>> others(const SeriesKey& key);
  /// Other sites, at other places, whose series of this service lies in the same grid cell; in order of their
  /// ids. One place under two names is one site.
  Result<std::vector<std::string>> sites_in_cell(const SeriesKey& key, const Place& cell);

 private:
  struct Answer {
    const FetchedWeather& fetched;
    std::int64_t series;
    std::int64_t id;
    bool latest;  ///< none of the series was given later
  };
  StoringResult store_one(const AnswerToStore& keeping);
  void write_days(const Answer& answer, int member, StoringResult& result);
  void replace_members(const Answer& answer, StoringResult& result);
  void write_hours(const Answer& answer);
  std::optional<std::int64_t> find(const SeriesKey& key);
  std::int64_t find_or_add(const SeriesKey& key, const SeriesFacts& facts);
  std::vector<std::string> select_doubts(std::int64_t series);
  std::vector<StoredDay> select_days(std::int64_t series, int member);
  Database& database_;
};

}  // namespace soilclock::records
