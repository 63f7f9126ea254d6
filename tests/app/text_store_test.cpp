// SPDX-License-Identifier: MIT
#include "app/text_store.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <sstream>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::string all_of(app::TextStore& store) {
  std::string text;
  for (auto piece = store.next();; piece = store.next()) {
    REQUIRE(piece);
    if (piece->empty()) return text;
    text += *piece;
  }
}

/// The open file of this process in which answers are laid aside.
int laid_aside_file() {
  for (const auto& entry : std::filesystem::directory_iterator{"/proc/self/fd"}) {
    std::error_code gone;  // that of the folder itself
    const std::string target = std::filesystem::read_symlink(entry.path(), gone).string();
    if (holds(target, "/soilclock-") && holds(target, "(deleted)"))
      return std::stoi(entry.path().filename().string());
  }
  return -1;
}

/// From now on the file cannot be read: there is another one behind its number, open for writing only.
void make_unreadable(int file) {
  const int sink = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  ::dup2(sink, file);
  ::close(sink);
}

/// Takes what is written, and at the first of it does something to the disk.
class Spoiler : public std::stringbuf {
 public:
  explicit Spoiler(std::function<void()> spoil) : spoil_{std::move(spoil)} {}

 protected:
  std::streamsize xsputn(const char* text, std::streamsize count) override {
    if (spoil_) std::exchange(spoil_, nullptr)();
    return std::stringbuf::xsputn(text, count);
  }

 private:
  std::function<void()> spoil_;
};

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

TEST_CASE("a disk that does not give back what it took ends the document with one clear problem") {
  struct Failing {
    std::function<void(int)> spoil;
    const char* found;
  };
  const std::vector<Failing> ways{{make_unreadable, "Bad file descriptor"},
                                  {[](int file) { REQUIRE(::ftruncate(file, 100'000) == 0); }, "fewer than"}};
  const Desk desk;
  const std::vector<std::string> words{"advise",   "--sites", many_sites(desk, 6000), "--on", "2026-10-15",
                                       "--format", "json"};
  const std::string whole = desk.run(words).out;
  for (const Failing& way : ways) {
    CAPTURE(way.found);
    std::istringstream in;
    Spoiler spoiled{[&] {
      const int file = laid_aside_file();
      REQUIRE(file >= 0);
      way.spoil(file);
    }};
    std::ostream out{&spoiled};
    std::ostringstream err;
    const Instant now{make_day(2026, 10, 15)};
    app::Streams streams{
        in,    out,  err, make_day(2026, 10, 15), [now] { return now; }, [](std::chrono::milliseconds) {},
        false, false};
    CHECK(app::run_command_line(words, streams) == 4);
    CHECK(holds(err.str(), "the answers laid aside cannot be read back"));
    CHECK(holds(err.str(), way.found));
    CHECK(holds(err.str(), "TMPDIR"));
    const std::string begun = spoiled.str();
    CHECK(!begun.empty());
    CHECK(begun.size() < whole.size());
    CHECK(whole.starts_with(begun));  // no end that would make it look whole
  }
}
