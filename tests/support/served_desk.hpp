// SPDX-License-Identifier: MIT
// A desk whose services are a server of the test on the loopback.
#pragma once

#include <string>
#include <vector>

#include "records/weather_store.hpp"
#include "support/command_run.hpp"
#include "support/loopback_server.hpp"
#include "support/stand_in_weather.hpp"

namespace soilclock::tests {

inline const Day today = make_day(2026, 10, 15);

inline Reply stand_in(const SeenRequest& request) { return stand_in_answer(request, today); }

inline int requests_to(const LoopbackServer& server, const std::string& path) {
  int count = 0;
  for (const SeenRequest& request : server.requests()) count += request.path == path ? 1 : 0;
  return count;
}

class ServedDesk : public Desk {
 public:
  explicit ServedDesk(LoopbackServer::Handler handler)
      : server{std::move(handler)}, settings{file("settings.json", settings_for(server))} {}

  /// Days kept of a series; none when nothing was kept.
  std::vector<records::StoredDay> stored(const records::SeriesKey& key) const {
    auto store =
        records::Store::open(path("own-records/soilclock/records.db"), records::Access::existing).value();
    return records::WeatherStore{store}.days(key).value();
  }

  LoopbackServer server;
  std::string settings;
};

/// A fetch for one course, two years unless `years` is false and `more` says otherwise.
inline std::vector<std::string> one_course_fetch(const ServedDesk& desk, const std::vector<std::string>& more,
                                                 bool years = true) {
  std::vector<std::string> words{"fetch",      "--latitude", "35.6",   "--longitude",
                                 "-83.1",      "--name",     "course", "--service-settings",
                                 desk.settings};
  if (years) words = joined(words, {"--years", "2"});
  return joined(words, more);
}

}  // namespace soilclock::tests
