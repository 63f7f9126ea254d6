// SPDX-License-Identifier: MIT
// When clocks of the world's time zones change, from a table in the program: the same on every system.
#pragma once

#include <chrono>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"

namespace soilclock {

/// The table, config/time_zones.txt: its head says where it is from and how a line reads.
std::string_view time_zone_table();

/// The version of the tz database the table was made from ("2025b").
std::string time_zone_version();

/// The names of all zones, in no order that matters.
std::vector<std::string> time_zone_names();

/// The clock of one zone. Before 1970 it stands as it did when that year began.
class ZoneRules {
 public:
  /// A time in which the clock does not change.
  struct Period {
    date::sys_seconds begin;
    date::sys_seconds end;
    std::chrono::seconds offset;  ///< east of UTC
    bool summer = false;          ///< as the tz database has it; Ireland calls its winter so
  };

  /// The zone of that name; null when there is none.
  static std::shared_ptr<const ZoneRules> named(std::string_view name);

  /// The period an instant lies in. The first begins and the last ends centuries from any day that is read.
  Period period_at(date::sys_seconds at) const;

 private:
  struct Change {
    date::sys_seconds at;
    std::chrono::seconds offset;
    bool summer = false;
  };
  static ZoneRules read(std::string_view changes, std::string_view rule);
  void add_yearly(std::string_view rule, date::sys_seconds last, Change change,
                  std::chrono::seconds offset_before);

  std::vector<Change> changes_;  ///< never empty, the first at the start of 1970
};

}  // namespace soilclock
