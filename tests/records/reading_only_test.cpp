// SPDX-License-Identifier: MIT
// A records file on a disk that is full or write-protected is read all the same, and never shown in an older
// state.
#include <fmt/format.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "records/store.hpp"
#include "support/child_process.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

/// What a child found wrong; its exit code says which, so each check has a number of its own.
enum Found { all_good, not_opened, not_listed, was_written, wrong_refusal, no_rights };

/// Lists one entry and is refused another.
int read_and_fail_to_write(const std::string& path) {
  auto store = Store::open(path, Access::reading);
  if (!store) return not_opened;
  const auto entries = store->list({});
  if (!entries || entries->size() != 1) return not_listed;
  const auto added = store->add(sample::reading(), sample::stamp());
  if (added) return was_written;
  return added.error().family == Family::environment ? all_good : wrong_refusal;
}

/// Rights say nothing to a superuser; in a child he becomes somebody without any.
bool without_rights() {
  constexpr uid_t nobody = 65534;
  return getuid() != 0 || setuid(nobody) == 0;
}

/// A file with one entry in a folder where neither may be written.
std::string protected_file(const TemporaryFolder& folder) {
  const std::string inner = folder.file("inner");
  std::filesystem::create_directory(inner);
  const std::string path = inner + "/100% of #1?.db";
  REQUIRE(Store::open(path, Access::create)->add(sample::check(), sample::stamp()));
  return path;
}

void protect(const TemporaryFolder& folder, const std::string& path) {
  for (const auto& entry : std::filesystem::directory_iterator{std::filesystem::path{path}.parent_path()})
    chmod(entry.path().c_str(), 0444);
  chmod(std::filesystem::path{path}.parent_path().c_str(), 0555);
  chmod(folder.file(".").c_str(), 0755);
}

void release(const std::string& path) { chmod(std::filesystem::path{path}.parent_path().c_str(), 0755); }

}  // namespace

TEST_CASE("a write-protected records file in a write-protected folder is read, and not written") {
  const TemporaryFolder folder;
  const std::string path = protected_file(folder);
  protect(folder, path);
  ChildProcess child{[&](int) {
    if (!without_rights()) return static_cast<int>(no_rights);
    if (const auto written = Store::open(path, Access::existing)) return static_cast<int>(was_written);
    return read_and_fail_to_write(path);
  }};
  CHECK(child.wait() == all_good);
  release(path);
}

TEST_CASE("a protected file beside which confirmed changes still wait is refused, not shown without them") {
  const TemporaryFolder folder;
  const std::string source = protected_file(folder);
  const std::string path = std::filesystem::path{source}.parent_path().string() + "/copy.db";
  {
    auto open = Store::open(source, Access::existing);
    REQUIRE(open->add(sample::reading(), sample::stamp()));
    std::filesystem::copy_file(source, path);
    std::filesystem::copy_file(source + "-wal", path + "-wal");
  }
  REQUIRE(std::filesystem::file_size(path + "-wal") > 0);
  protect(folder, path);
  ChildProcess child{[&](int) {
    if (!without_rights()) return static_cast<int>(no_rights);
    const auto store = Store::open(path, Access::reading);
    if (store) return static_cast<int>(was_written);
    return static_cast<int>(store.error().family == Family::environment ? all_good : wrong_refusal);
  }};
  CHECK(child.wait() == all_good);
  release(path);
}

TEST_CASE("where no file may grow, records are read and not written") {
  const TemporaryFolder folder;
  const std::string path = protected_file(folder);
  ChildProcess child{[&](int) {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{0, 0};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) return static_cast<int>(no_rights);
    return read_and_fail_to_write(path);
  }};
  CHECK(child.wait() == all_good);
}

TEST_CASE("on a disk without any room records are read and not written", "[mount]") {
  const TemporaryFolder folder;
  ChildProcess child{[&](int) {
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
      return static_cast<int>(no_rights);
    if (mount("none", folder.file(".").c_str(), "tmpfs", 0, "size=1m") != 0)
      return static_cast<int>(no_rights);
    const std::string path = folder.file("records.db");
    {
      auto store = Store::open(path, Access::create);
      if (!store || !store->add(sample::check(), sample::stamp())) return static_cast<int>(not_opened);
    }
    std::ofstream filler{folder.file("filler")};
    for (int i = 0; i < 2000 && filler; ++i) filler << std::string(1000, 'f') << std::flush;
    return read_and_fail_to_write(path);
  }};
  CHECK(child.wait() == all_good);
}
