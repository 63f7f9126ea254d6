// SPDX-License-Identifier: MIT
// What a fetch brought, as text and JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/problem.hpp"
#include "core/remark.hpp"

namespace soilclock::report {

/// One part of one service for one site.
struct FetchedPart {
  std::string service;  ///< id
  std::string station;  ///< of services of named stations
  std::string part;     ///< "history", "forecast", "members"
  std::string title;    ///< "Open-Meteo history"
  int requests = 0;     ///< that brought something; none: nothing was lacking, or all failed
  int new_days = 0;
  int changed_days = 0;
  int spared_days = 0;       ///< known days the service no longer knows
  int members = 0;           ///< of an ensemble
  std::optional<Day> first;  ///< days with both extremes that are stored now
  std::optional<Day> last;
  int days = 0;

  /// Days between the first and the last that are not known.
  int missing_days() const {
    return first && last ? static_cast<int>((*last - *first).count()) + 1 - days : 0;
  }
};

struct SiteFetch {
  std::string site;
  std::string name;
  std::vector<FetchedPart> parts;
  std::vector<Remark> remarks;
  std::vector<Problem> problems;
};

/// Calls counted with a service that weighs them.
struct CallsCounted {
  std::string title;
  double this_run = 0.0;
  double today = 0.0;  ///< since midnight UTC, as far as the records file knows
  double a_day = 0.0;  ///< allowed
};

struct FetchReport {
  std::vector<SiteFetch> sites;
  std::vector<CallsCounted> calls;
  std::vector<std::string> credits;  ///< attribution and license of each service that gave something
  std::vector<std::string> terms;    ///< what a user of these services must know
};

/// A few lines a site, then calls, terms and credits.
std::string fetch_text(const FetchReport& report);
/// The "soilclock-fetch" document, version 1.
std::string fetch_json(const FetchReport& report);

}  // namespace soilclock::report
