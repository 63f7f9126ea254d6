// SPDX-License-Identifier: MIT
// What reports said of each site and grass, a line a day, so that a later one can say what changed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "records/store.hpp"

namespace soilclock::records {

/// The gist of one answer. Action and kind are the words of the answer's JSON.
struct StoredAdvice {
  std::string site;    ///< id of the site file
  std::string target;  ///< EPPO code
  Day on{};            ///< issue date
  Day season_start{};
  std::string action;
  std::string kind;               ///< empty: none was named
  std::optional<Day> best_first;  ///< Mondays, both included; both or none
  std::optional<Day> best_last;
};

/// An event of a season's calendar. The event is named by the answer's word for it.
struct StoredEvent {
  std::string site;
  std::string target;
  Day season_start{};
  std::string event;
  DayRange days;
};

class AdviceStore {
 public:
  /// Works on the records file of `store`, which must outlive it.
  explicit AdviceStore(Store& store) : database_{store.database()} {}

  /// Stores answers, each in the place of one of the same site, target and day, and events, each in the place
  /// of the same event of its season; all of them or none. Problem (environment): the file cannot be written.
  Checked put(const std::vector<StoredAdvice>& answers, const std::vector<StoredEvent>& events = {});
  /// The latest answer of a site for a target that was issued before a day; nothing where there is none.
  /// Problem (data): the file holds what no version of this program writes.
  Result<std::optional<StoredAdvice>> latest_before(const std::string& site, const std::string& target,
                                                    Day day);
  /// The events announced for a target in a season, in the order of their names. Problem (data): as above.
  Result<std::vector<StoredEvent>> announced(const std::string& site, const std::string& target,
                                             Day season_start);

 private:
  Database& database_;
};

}  // namespace soilclock::records
