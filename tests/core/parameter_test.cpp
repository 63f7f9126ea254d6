// SPDX-License-Identifier: MIT
#include "core/parameter.hpp"

#include <catch2/catch.hpp>
#include <optional>
#include <string>

using namespace soilclock;

namespace {

/// Where the reader stops at {"x": PARAMETER}; empty when it takes it.
std::string refused_at(const std::string& parameter, std::optional<Basis> of_file = {}) {
  const auto read =
      read_json("{\"x\": " + parameter + "}", "x.json", Family::request, [&](const JsonObject& top) {
        return read_parameter(top, "x", "d", {0.0, 10.0}, of_file);
      });
  return read ? "" : read.error().where.json_pointer;
}

}  // namespace

TEST_CASE("a number with unit and grounds is read as written") {
  const auto read = read_json(
      R"({"x": {"value": 3, "unit": "d", "basis": "published", "source": "a-2001", "note": "abstract"}})",
      "x.json", Family::request, [](const JsonObject& top) { return read_parameter(top, "x", "d"); });
  REQUIRE(read);
  CHECK(read->value == 3.0);
  CHECK(read->unit == "d");
  CHECK(read->grounds.basis == Basis::published);
  CHECK(read->grounds.source == "a-2001");
  CHECK(read->grounds.note == "abstract");
  CHECK(read->spread.kind == Spread::Kind::none);
}

TEST_CASE("a number with one thing wrong is refused at its place") {
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "memory"})").empty());
  CHECK(refused_at(R"({"value": 3, "basis": "memory"})") == "/x/unit");
  CHECK(refused_at(R"({"value": 3, "unit": "h", "basis": "memory"})") == "/x/unit");
  CHECK(refused_at(R"({"unit": "d", "basis": "memory"})") == "/x/value");
  CHECK(refused_at(R"({"value": 11, "unit": "d", "basis": "memory"})") == "/x/value");
  CHECK(refused_at(R"({"value": 3, "unit": "d"})") == "/x/basis");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "felt"})") == "/x/basis");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "published"})") == "/x/source");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "derived"})") == "/x/note");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "derived", "note": " "})") == "/x/note");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "memory", "color": 1})") == "/x/color");
  // Nobody draws this number: a spread would be lost without a word.
  CHECK(
      refused_at(R"({"value": 3, "unit": "d", "basis": "memory", "spread": {"kind": "normal", "sd": 1}})") ==
      "/x/spread");
}

TEST_CASE("a number without basis of its own stands on that of the file") {
  CHECK(refused_at(R"({"value": 3, "unit": "d"})", Basis::published).empty());
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "derived"})", Basis::published) == "/x/note");
  CHECK(refused_at(R"({"value": 3, "unit": "d", "basis": "published"})", Basis::derived) == "/x/source");
}

TEST_CASE("a span has two ends in order") {
  const auto refused = [](const std::string& span) -> std::string {
    const auto read =
        read_json("{\"x\": " + span + "}", "x.json", Family::request, [](const JsonObject& top) {
          return read_span(top, "x", "weeks", {0.0, 104.0});
        });
    return read ? "" : read.error().where.json_pointer;
  };
  CHECK(refused(R"({"least": 6, "most": 10, "unit": "weeks", "basis": "memory"})").empty());
  CHECK(refused(R"({"least": 10, "most": 6, "unit": "weeks", "basis": "memory"})") == "/x/most");
  CHECK(refused(R"({"least": 6, "most": 10, "basis": "memory"})") == "/x/unit");
  CHECK(refused(R"({"least": 6, "most": 10, "unit": "weeks"})") == "/x/basis");
}

TEST_CASE("spreads draw what they say") {
  const Parameter normal{18.9, "C", {.kind = Spread::Kind::normal, .sd = 0.8}, {}};
  CHECK(normal.drawn(0.5) == Approx(18.9));
  CHECK(normal.drawn(0.841344746) == Approx(19.7));
  const Parameter held{0.76, "1", {.kind = Spread::Kind::normal, .sd = 0.06, .least = 0.7, .most = 0.8}, {}};
  CHECK(held.drawn(1e-6) == 0.7);
  CHECK(held.drawn(1 - 1e-6) == 0.8);
  const Parameter uniform{1.1, "C", {.kind = Spread::Kind::uniform, .low = 0.8, .high = 1.4}, {}};
  CHECK(uniform.drawn(0.25) == Approx(0.95));
  const Parameter split{75, "C d", {.kind = Spread::Kind::split_uniform, .low = 60, .high = 130}, {}};
  CHECK(split.drawn(0.0) == 60);
  CHECK(split.drawn(0.25) == 67.5);
  CHECK(split.drawn(0.5) == 75);
  CHECK(split.drawn(0.75) == 102.5);
  CHECK(split.drawn(1.0) == 130);
  CHECK(Parameter{5, "C", {}, {}}.drawn(0.9) == 5);
}

TEST_CASE("half a day is no whole number of days") {
  const auto read = [](const std::string& value) {
    return read_json("{\"x\": {\"value\": " + value + R"(, "unit": "d", "basis": "memory"}})", "x.json",
                     Family::request, [](const JsonObject& top) {
                       return read_whole(top, "x", "d", {0.0, 10.0});
                     });
  };
  CHECK(read("3") == 3);
  REQUIRE_FALSE(read("3.5"));
  CHECK(read("3.5").error().where.json_pointer == "/x/value");
}
