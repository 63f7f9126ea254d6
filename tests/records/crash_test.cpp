// SPDX-License-Identifier: MIT
// Killed processes, several writers at once, full disks.
#include <fmt/format.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <thread>

#include "records/store.hpp"
#include "support/child_process.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

EyeCheck noting(const std::string& text) {
  EyeCheck check = sample::check();
  check.notes = text;
  return check;
}

std::string notes_of(const Entry& entry) { return std::get<EyeCheck>(entry.record).notes; }

/// Adds entries, correcting every third, and says "id notes" of each as soon as the store confirms it.
int write_until_killed(const std::string& path, int to_parent, int round) {
  auto store = Store::open(path, Access::create);
  if (!store) return 1;
  for (int i = 0;; ++i) {
    const std::string notes = fmt::format("round {} entry {}", round, i);
    auto id = store->add(noting(notes), sample::stamp());
    std::string said = id ? fmt::format("{} {}\n", *id, notes) : "";
    if (id && i % 3 == 2) {
      id = store->correct(*id, noting(notes + " corrected"), sample::stamp());
      if (id) said = fmt::format("{} {} corrected\n", *id, notes);
    }
    if (!id) return 2;
    if (write(to_parent, said.data(), said.size()) != static_cast<ssize_t>(said.size())) return 3;
  }
}

/// The confirmed entries a killed child told of; a last line without its end was cut by the kill.
std::map<EntryId, std::string> confirmed(const std::string& said) {
  std::map<EntryId, std::string> entries;
  std::istringstream lines{said.substr(0, said.rfind('\n') == std::string::npos ? 0 : said.rfind('\n') + 1)};
  for (std::string line; std::getline(lines, line);) {
    const auto blank = line.find(' ');
    entries.emplace(std::stoll(line.substr(0, blank)), line.substr(blank + 1));
  }
  return entries;
}

/// Adds until the store refuses; 0 when that happened as promised: an environment problem, all confirmed
/// entries there and nothing else, and writing goes on once `make_room` was called.
int write_until_full(const std::string& path, const std::function<void()>& make_room) {
  std::vector<EntryId> stored;
  {
    auto store = Store::open(path, Access::create);
    if (!store) return 1;
    while (stored.size() < 100000) {
      const auto id = store->add(noting(std::string(2000, 'x')), sample::stamp());
      if (!id && id.error().family != Family::environment) return 2;
      if (!id) break;
      stored.push_back(*id);
    }
    if (stored.empty() || stored.size() == 100000) return 3;
    const auto still = store->list({});
    if (!still || still->size() != stored.size()) return 4;
  }
  make_room();
  auto store = Store::open(path, Access::existing);
  if (!store) return 5;
  const auto entries = store->list({});
  if (!entries || entries->size() != stored.size()) return 6;
  for (std::size_t i = 0; i < stored.size(); ++i) {
    if ((*entries)[i].id != stored[i] || notes_of((*entries)[i]).size() != 2000) return 7;
  }
  return store->add(noting("room again"), sample::stamp()) ? 0 : 8;
}

}  // namespace

TEST_CASE("whatever moment a writer is killed at, every confirmed entry is there and the file opens") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  std::mt19937 random{20261014};
  std::uniform_int_distribution<std::size_t> lines{0, 12};
  std::uniform_int_distribution<int> microseconds{0, 15000};
  std::map<EntryId, std::string> all;
  constexpr int rounds = 30;
  for (int round = 0; round < rounds; ++round) {
    ChildProcess child{[&](int to_parent) { return write_until_killed(path, to_parent, round); }};
    std::string said = child.said(lines(random));  // none: killed while it opens the file
    std::this_thread::sleep_for(std::chrono::microseconds{microseconds(random)});
    child.kill_now();
    said += child.said();
    const auto more = confirmed(said);
    CHECK(child.wait() == -1);
    all.insert(more.begin(), more.end());
    auto store = Store::open(path, Access::create);
    REQUIRE(store);
    CHECK(std::get<std::string>(store->database().single("PRAGMA quick_check")) == "ok");
    const auto entries = store->list({});
    REQUIRE(entries);
    std::map<EntryId, std::string> held;
    for (const Entry& entry : *entries) held.emplace(entry.id, notes_of(entry));
    for (const auto& [id, notes] : all) {
      CAPTURE(round, id);
      REQUIRE(held.contains(id));
      CHECK(held[id] == notes);
    }
    // At most one entry a round can have been written without being confirmed.
    CHECK(held.size() <= all.size() + static_cast<std::size_t>(round) + 1);
  }
  CHECK(all.size() > rounds);  // the kills came during work
}

TEST_CASE("two processes that open a new file and write at once lose nothing") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  constexpr int each = 50;
  const auto write_some = [&](const std::string& who) {
    return [&path, who](int) {
      auto store = Store::open(path, Access::create);
      if (!store) return 1;
      for (int i = 0; i < each; ++i) {
        if (!store->add(noting(fmt::format("{} {}", who, i)), sample::stamp())) return 2;
      }
      return 0;
    };
  };
  ChildProcess first{write_some("first")};
  ChildProcess second{write_some("second")};
  CHECK(first.wait() == 0);
  CHECK(second.wait() == 0);
  auto store = Store::open(path, Access::existing);
  REQUIRE(store);
  std::map<std::string, int> seen;
  const auto entries = store->list({});
  REQUIRE(entries);
  for (const Entry& entry : *entries) ++seen[notes_of(entry)];
  CHECK(seen.size() == 2 * each);
}

TEST_CASE("several processes that make the same file at once all succeed") {
  for (int round = 0; round < 5; ++round) {
    const TemporaryFolder folder;
    const std::string path = folder.file("records.db");
    const auto open_and_add = [&](int) {
      auto store = Store::open(path, Access::create);
      return store && store->add(noting("mine"), sample::stamp()) ? 0 : 1;
    };
    ChildProcess first{open_and_add};
    ChildProcess second{open_and_add};
    ChildProcess third{open_and_add};
    CHECK(first.wait() + second.wait() + third.wait() == 0);
    CHECK(Store::open(path, Access::existing)->list({})->size() == 3);
  }
}

TEST_CASE("of two processes that correct the same entry one is told") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  const EntryId id = Store::open(path, Access::create)->add(noting("as it was"), sample::stamp()).value();
  const auto correct = [&](int) {
    auto store = Store::open(path, Access::existing);
    if (!store) return 1;
    const auto corrected = store->correct(id, noting("corrected"), sample::stamp());
    if (corrected) return 0;
    return corrected.error().family == Family::request ? 10 : 2;
  };
  ChildProcess first{correct};
  ChildProcess second{correct};
  CHECK(first.wait() + second.wait() == 10);
}

TEST_CASE("a size limit of the database keeps what was confirmed and says so") {
  const TemporaryFolder folder;
  auto store = Store::open(folder.file("records.db"), Access::create);
  REQUIRE(store);
  store->database().single("PRAGMA max_page_count = 40");
  std::size_t stored = 0;
  auto id = store->add(noting(std::string(2000, 'x')), sample::stamp());
  for (; id && stored < 1000; id = store->add(noting(std::string(2000, 'x')), sample::stamp())) ++stored;
  REQUIRE_FALSE(id);
  CHECK(id.error().family == Family::environment);
  CHECK(id.error().what.find("no room") != std::string::npos);
  CHECK(store->list({})->size() == stored);
  store->database().single("PRAGMA max_page_count = 4000");
  CHECK(store->add(noting("room again"), sample::stamp()));
}

TEST_CASE("a file size limit of the system keeps what was confirmed") {
  const TemporaryFolder folder;
  ChildProcess child{[&](int) {
    signal(SIGXFSZ, SIG_IGN);
    rlimit limit{300000, RLIM_INFINITY};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) return 100;
    return write_until_full(folder.file("records.db"), [&] {
      limit.rlim_cur = RLIM_INFINITY;
      setrlimit(RLIMIT_FSIZE, &limit);
    });
  }};
  CHECK(child.wait() == 0);
}

TEST_CASE("a full disk keeps what was confirmed", "[mount]") {
  const TemporaryFolder folder;
  ChildProcess child{[&](int) {
    // A disk of its own that nobody else sees; needs the right to mount.
    constexpr int cannot_mount = 100;
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
      return cannot_mount;
    if (mount("none", folder.file(".").c_str(), "tmpfs", 0, "size=1m") != 0) return cannot_mount;
    std::ofstream{folder.file("filler")} << std::string(400000, 'f');
    return write_until_full(folder.file("records.db"),
                            [&] { std::filesystem::remove(folder.file("filler")); });
  }};
  CHECK(child.wait() == 0);
}
