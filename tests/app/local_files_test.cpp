// SPDX-License-Identifier: MIT
#include "app/local_files.hpp"

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <thread>

#include "app/service_settings.hpp"
#include "core/limits.hpp"
#include "support/temporary_folder.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::app;
using tests::mentions;

namespace {

std::string content_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream{path, std::ios::binary}.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("a file is read whole up to the limit and refused beyond it") {
  const TemporaryFolder folder;
  const std::string path = folder.file("weather.csv");
  std::ofstream{path} << "date,tmin";
  std::filesystem::resize_file(path, largest_file_bytes);
  const auto read = read_file(path);
  REQUIRE(read);
  CHECK(read->size() == largest_file_bytes);
  std::filesystem::resize_file(path, largest_file_bytes + 1);
  const auto refused = read_file(path);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().family == Family::request);
  CHECK(mentions(refused.error().what, "larger than 50 MB"));
}

TEST_CASE("a device that never ends is refused at the limit") {
  const auto refused = read_file("/dev/zero");
  REQUIRE_FALSE(refused);
  CHECK(mentions(refused.error().what, "larger than 50 MB"));
  std::ifstream endless{"/dev/zero"};
  const auto stream = read_stream(endless, "standard input");
  REQUIRE_FALSE(stream);
  CHECK(mentions(describe(stream.error()), "standard input: the file is larger"));
}

TEST_CASE("a pipe is read to its end, and a silent one does not hold the program") {
  const TemporaryFolder folder;
  const std::string path = folder.file("pipe");
  REQUIRE(mkfifo(path.c_str(), 0600) == 0);
  const auto refused = read_file(path, std::chrono::milliseconds{50});
  REQUIRE_FALSE(refused);
  CHECK(refused.error().family == Family::environment);
  CHECK(mentions(refused.error().what, "nothing comes"));
  const std::string sent(300'000, 'x');  // more than a pipe holds at once
  std::thread writer{[&] { std::ofstream{path} << sent; }};
  const auto read = read_file(path);
  writer.join();
  REQUIRE(read);
  CHECK(*read == sent);
}

TEST_CASE("a folder or a missing file is refused by name") {
  const TemporaryFolder folder;
  CHECK(mentions(describe(read_file(folder.file(".")).error()), "this is a folder"));
  CHECK(mentions(describe(read_file(folder.file("none.csv")).error()), "there is no such file"));
}

TEST_CASE("a file is written whole or not at all, and a device stays a device") {
  const TemporaryFolder folder;
  const std::string path = folder.file("chart.svg");
  REQUIRE(write_whole(path, "first"));
  REQUIRE(write_whole(path, "second"));
  CHECK(content_of(path) == "second");
  const auto refused = write_whole(folder.file("none/chart.svg"), "x");
  REQUIRE_FALSE(refused);
  CHECK(refused.error().family == Family::environment);
  CHECK(write_whole("/dev/null", "x"));
  CHECK(std::filesystem::is_character_file("/dev/null"));
  CHECK_FALSE(write_whole("/dev/full", std::string(100'000, 'x')));
  CHECK(std::filesystem::is_character_file("/dev/full"));
  CHECK(std::distance(std::filesystem::directory_iterator{folder.file(".")}, {}) == 1);
}

TEST_CASE("there is a warning about a key that other users can read, and it does not show the key") {
  using std::filesystem::perms;
  const TemporaryFolder folder;
  const std::string path = folder.file("services.json");
  net::Services services;
  services.all["open-meteo"].key = "secret-word";
  std::ofstream{path} << "{}";
  std::filesystem::permissions(path, perms::owner_read | perms::owner_write);
  CHECK_FALSE(key_seen_by_others(services, path));
  for (const perms others : {perms::group_read, perms::others_read}) {
    std::filesystem::permissions(path, perms::owner_read | others);
    const auto warning = key_seen_by_others(services, path);
    REQUIRE(warning);
    CHECK(mentions(*warning, path));
    CHECK(!mentions(*warning, "secret-word"));
    CHECK_FALSE(key_seen_by_others({}, path));
  }
}
