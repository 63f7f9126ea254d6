// SPDX-License-Identifier: MIT
#include "core/json_reader.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace soilclock;

namespace {

/// The problem a reader function meets in a text.
template <class Read>
std::string problem_of(const std::string& text, Read read) {
  const auto result = read_json(text, "site.json", Family::request, [&](const JsonObject& object) {
    read(object);
    return true;
  });
  REQUIRE_FALSE(result.has_value());
  CHECK(result.error().family == Family::request);
  return describe(result.error());
}

}  // namespace

TEST_CASE("values are read by type and optional ones only when they are there") {
  const auto result = read_json(
      R"({"id":"a","lat":35.5,"n":3,"on":true,"list":["x","y"],"numbers":[1,2.5],"inner":{"deep":1},"none":null})",
      "f", Family::request, [](const JsonObject& object) {
        CHECK(object.text("id") == "a");
        CHECK(object.number("lat", -90, 90) == 35.5);
        CHECK(object.integer("n", 0, 5) == 3);
        CHECK(object.boolean("on"));
        CHECK(object.texts("list") == std::vector<std::string>{"x", "y"});
        CHECK(object.numbers("numbers") == std::vector<double>{1.0, 2.5});
        CHECK(object.object("inner").number("deep") == 1.0);
        CHECK_FALSE(object.optional_text("none").has_value());
        CHECK_FALSE(object.optional_number("absent").has_value());
        CHECK(object.kind("none") == "null");
        CHECK(object.kind("absent") == "absent");
        object.finish();
        return 7;
      });
  REQUIRE(result.has_value());
  CHECK(*result == 7);
}

TEST_CASE("problems name the place of the value") {
  CHECK(problem_of(R"({"a":1})", [](const JsonObject& o) { o.text("b"); }) ==
        "site.json at /b: this key is missing; expected text");
  CHECK_THAT(
      problem_of(R"({"a":{"b":[1,{"c":"x"}]}})", [](const JsonObject& o) { o.object("a").objects("b"); }),
      Catch::Contains("site.json at /a/b/0"));
  CHECK_THAT(problem_of(R"([{"id":"a"},{"id":5}])",
                        [](const JsonObject& o) {
                          for (const auto& item : o.objects("items")) item.text("id");
                        }),
             Catch::Contains("/items/1/id") && Catch::Contains("found '5'"));
  CHECK_THAT(problem_of(R"({"lat":91})", [](const JsonObject& o) { o.number("lat", -90, 90); }),
             Catch::Contains("/lat: this number is out of range; found '91', expected -90 to 90"));
  CHECK_THAT(problem_of(R"({"n":1.5})", [](const JsonObject& o) { o.integer("n", 0, 5); }),
             Catch::Contains("whole number"));
}

TEST_CASE("a misspelled key is refused with the nearest one that was asked for") {
  CHECK_THAT(
      problem_of(R"({"latitud":1})",
                 [](const JsonObject& o) {
                   static_cast<void>(o.optional_number("latitude"));
                   o.finish();
                 }),
      Catch::Contains("/latitud: this key is not known here") && Catch::Contains("did you mean 'latitude'?"));
}

TEST_CASE("a word outside the choice is refused with the choice") {
  CHECK_THAT(problem_of(R"({"units":"uk"})",
                        [](const JsonObject& o) {
                          o.choice("units", {"us", "metric"});
                        }),
             Catch::Contains("one of us and metric"));
}

TEST_CASE("broken JSON is reported with line and column and never thrown") {
  CHECK_THAT(problem_of("{\n  \"a\": 1,\n  \"b\" 2\n}", [](const JsonObject&) {}),
             Catch::Contains("site.json:3:7: this is not valid JSON"));
  for (const char* text : {"", "{", "nonsense", "{\"a\":}", "\xFF\xFE", "5", "\"text\""}) {
    CAPTURE(text);
    CHECK_FALSE(problem_of(text, [](const JsonObject&) {}).empty());
  }
}

TEST_CASE("lists may have holes, and lists of lists are read through") {
  const auto result = read_json(R"({"holes":[1,null,2.5],"shape":[[[1,2],[3,4]],[]]})", "f", Family::data,
                                [](const JsonObject& object) {
                                  const auto holes = object.numbers_or_null("holes");
                                  REQUIRE(holes.size() == 3);
                                  CHECK(holes[0] == 1.0);
                                  CHECK(std::isnan(holes[1]));
                                  CHECK(holes[2] == 2.5);
                                  CHECK(object.nested_numbers("shape") == std::vector<double>{1, 2, 3, 4});
                                  return true;
                                });
  CHECK(result.has_value());
  CHECK_THAT(problem_of(R"({"a":[1,"2"]})", [](const JsonObject& o) { o.numbers_or_null("a"); }),
             Catch::Contains("/a/1"));
  CHECK_THAT(problem_of(R"({"a":[1,["2"]]})", [](const JsonObject& o) { o.nested_numbers("a"); }),
             Catch::Contains("/a"));
}

TEST_CASE("numbers no computer holds and nesting without end are problems and never thrown") {
  CHECK_THAT(problem_of(R"({"a":1e999})", [](const JsonObject&) {}), Catch::Contains("too large"));
  CHECK_THAT(problem_of(std::string(100000, '['), [](const JsonObject&) {}), Catch::Contains("100 deep"));
  const std::string allowed = std::string(90, '[') + std::string(90, ']');
  CHECK(read_json(allowed, "f", Family::data, [](const JsonObject&) { return true; }).has_value());
}
