// SPDX-License-Identifier: MIT
// A course with its notes, asked about its season of 2025-26.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "support/command_run.hpp"

namespace soilclock::tests {

/// The invented upland course without its forecast; its weather lies in the desk's samples.
inline Json course(const Desk& desk) {
  return {{"id", "copper-heron"},
          {"latitude", 35.6},
          {"longitude", -83.1},
          {"time_zone", "America/New_York"},
          {"turf", {{"species", "hybrid bermudagrass"}, {"irrigated", true}}},
          {"weather", {{{"file", desk.sample("copper_heron.csv")}}}}};
}

/// The course asked about its season of 2025-26.
class CourseDesk : public Desk {
 public:
  CourseDesk() { file("s.json", course(*this).dump()); }
  void note(const std::string& kind, const std::string& date, const std::vector<std::string>& more,
            const std::string& site = "copper-heron") const {
    const Run run = this->run(
        joined({"log", "add", kind, "--records", path("log.db"), "--site", site, "--date", date}, more));
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
  }
  Run advise(const std::string& on, const std::string& format) const {
    std::vector<std::string> words{"advise", "--sites", path("s.json"), "--on", on, "--format", format};
    if (std::filesystem::exists(path("log.db"))) words = joined(words, {"--records", path("log.db")});
    return run(words);
  }
  Json site(const std::string& on) const {
    const Run run = advise(on, "json");
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    return run.json().at("sites")[0];
  }
  Json target(const std::string& on) const { return site(on).at("targets")[0]; }
};

}  // namespace soilclock::tests
