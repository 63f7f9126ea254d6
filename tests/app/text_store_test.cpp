// SPDX-License-Identifier: MIT
#include "app/text_store.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::string all_of(app::TextStore& store) {
  std::string text;
  for (std::string piece = store.next(); !piece.empty(); piece = store.next()) text += piece;
  return text;
}

/// $TMPDIR for the length of a test.
class TemporaryDirectory {
 public:
  explicit TemporaryDirectory(const std::string& path) { setenv("TMPDIR", path.c_str(), 1); }
  TemporaryDirectory(const TemporaryDirectory&) = delete;
  TemporaryDirectory& operator=(const TemporaryDirectory&) = delete;
  ~TemporaryDirectory() { unsetenv("TMPDIR"); }
};

/// Sites enough that their answers do not fit into memory the store allows itself: all refused, which is
/// quick.
std::string many_sites(const Desk& desk, int count) {
  std::string text = "[";
  for (int i = 0; i < count; ++i) {
    text += std::string{i == 0 ? "" : ","} + R"({"id":"site-)" + std::to_string(i) +
            R"(","latitude":35.6,"longitude":-83.1,"weather":[{"file":"none.csv"}]})";
  }
  return desk.file("sites.json", text + "]");
}

}  // namespace

TEST_CASE("text that is laid aside comes back whole, from memory and from disk") {
  for (const int lines : {0, 1, 1000, 200'000}) {
    app::TextStore store;
    std::string expected;
    for (int i = 0; i < lines; ++i) {
      const std::string line = "answer " + std::to_string(i) + " of many, with some words behind it\n";
      REQUIRE(store.add(line));
      expected += line;
    }
    REQUIRE(store.rewind());
    CHECK(all_of(store) == expected);
  }
}

TEST_CASE(
    "a document too large for memory is the same, and where there is no disk for it one message says so") {
  const Desk desk;
  const std::vector<std::string> words{"advise",   "--sites", many_sites(desk, 6000), "--on", "2026-10-15",
                                       "--format", "json"};
  const Run whole = desk.run(words);
  CHECK(whole.code == 2);
  REQUIRE(whole.out.size() > std::size_t{5} << 20U);
  const Json sites = whole.json().at("sites");
  REQUIRE(sites.size() == 6000);
  CHECK(sites[5999].at("site") == "site-5999");

  const TemporaryDirectory nowhere{desk.path("no such folder")};
  const Run refused = desk.run(words);
  CHECK(refused.code == 4);
  CHECK(refused.out.empty());
  CHECK(holds(refused.err, "the answers cannot be laid aside until their ranks are known"));
  CHECK(holds(refused.err, "TMPDIR"));
}
