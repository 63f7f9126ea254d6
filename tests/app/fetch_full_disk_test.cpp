// SPDX-License-Identifier: MIT
// A disk that fills up while weather comes in: what was stored is whole, one message says what is wrong, and
// a run with room goes on from there.
#include <sched.h>
#include <stdio.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include <catch2/catch.hpp>

#include "records/database.hpp"
#include "support/child_process.hpp"
#include "support/served_desk.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// What a child found wrong, as its exit code.
enum Found { all_good, no_disk, not_refused, unclear, half_stored, damaged, not_taken_up };

constexpr const char* course_on_full_disk =
    R"({"id":"heron","name":"Heron","latitude":35.6,"longitude":-83.1,"elevation_m":310,
        "time_zone":"America/New_York","turf":{"irrigated":true},"weather":[{"service":"open-meteo"}]})";

const records::SeriesKey history{
    "heron",     "open-meteo",         records::WeatherPart::history, "", {35.6, -83.1, 310.0},
    "UTC-05:00", "local standard time"};

class FullDesk : public ServedDesk {
 public:
  FullDesk() : ServedDesk{stand_in} { file("sites.json", course_on_full_disk); }
  std::string records_path() const { return path("disk/records.db"); }
  Run fetch() const {
    return run({"fetch", "--sites", path("sites.json"), "--service-settings", settings, "--years", "8",
                "--records", records_path()});
  }
  std::vector<records::StoredDay> days() const {
    auto store = records::Store::open(records_path(), records::Access::existing).value();
    return records::WeatherStore{store}.days(history).value();
  }
  bool sound() const {
    auto store = records::Store::open(records_path(), records::Access::existing).value();
    return store.database().single("PRAGMA integrity_check") == records::SqlValue{std::string{"ok"}};
  }
};

/// Fetches with too little room, then with enough.
Found fetched_twice(const FullDesk& desk, int parent, const std::function<void()>& make_room) {
  const Run full = desk.fetch();
  dprintf(parent, "%s", full.err.c_str());
  if (full.problems() < 1 || !holds(full.err, "nothing of this request was kept")) return unclear;
  make_room();
  const auto some = desk.days();
  // Whatever came is worth an answer in part; where nothing did, the disk is what failed.
  if (full.code != (some.empty() ? 4 : 1)) return not_refused;
  // Each answer holds a calendar year and is stored in one transaction.
  const Day next = some.empty() ? Day{} : some.back().day + Days{1};
  if (!some.empty() && !iso(next).ends_with("-01-01")) return half_stored;
  if (!desk.sound()) return damaged;
  return desk.fetch().code == 0 && desk.days().back().day == make_day(2026, 10, 14) ? all_good : not_taken_up;
}

}  // namespace

TEST_CASE("weather that meets a limit of file size while it is fetched is stored by whole answers",
          "[fetch]") {
  const FullDesk desk;
  std::filesystem::create_directory(desk.path("disk"));
  ChildProcess child{[&](int parent) -> int {
    signal(SIGXFSZ, SIG_IGN);
    rlimit limit{200000, RLIM_INFINITY};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) return no_disk;
    return fetched_twice(desk, parent, [&] {
      limit.rlim_cur = RLIM_INFINITY;
      setrlimit(RLIMIT_FSIZE, &limit);
    });
  }};
  INFO(child.said());
  CHECK(child.wait() == all_good);
}

TEST_CASE("weather that fills the disk while it is fetched is stored by whole answers", "[mount]") {
  const FullDesk desk;
  std::filesystem::create_directory(desk.path("disk"));
  ChildProcess child{[&](int parent) -> int {
    // A disk of its own that nobody else sees; needs the right to mount.
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
      return no_disk;
    if (mount("none", desk.path("disk").c_str(), "tmpfs", 0, "size=4m") != 0) return no_disk;
    desk.file("disk/filler", std::string(3'600'000, 'f'));
    return fetched_twice(desk, parent, [&] { std::filesystem::remove(desk.path("disk/filler")); });
  }};
  INFO(child.said());
  CHECK(child.wait() == all_good);
}
