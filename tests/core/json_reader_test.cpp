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

TEST_CASE("a list of any length and kind gives the same values and the same words") {
  const auto repeated = [](const std::string& item, std::size_t count, const std::string& last) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += item + ",";
    return "{\"a\":[" + text + last + "]}";
  };
  const auto ones = [](std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += ",1";
    return text;
  };
  for (const std::size_t count : {2U, 62U, 63U, 64U, 200U}) {
    CAPTURE(count);
    const std::string at_last = "/a/" + std::to_string(count);
    const auto numbers = read_json(repeated("1.5", count, "-0"), "f", Family::data, [&](const JsonObject& o) {
      CHECK(o.kind("a") == "array");
      CHECK(o.kind_of_items("a") == "number");
      CHECK(o.nested_numbers("a") == o.numbers("a"));
      CHECK(o.numbers_or_null("a") == o.numbers("a"));
      return o.numbers("a");
    });
    REQUIRE(numbers);
    CHECK(numbers->size() == count + 1);
    CHECK(numbers->front() == 1.5);
    CHECK_FALSE(std::signbit(numbers->back()));  // a whole number has one zero
    const auto holes = read_json(repeated("null", count, "-0.0"), "f", Family::data, [](const JsonObject& o) {
      CHECK(o.kind_of_items("a") == "null");
      return o.numbers_or_null("a");
    });
    REQUIRE(holes);
    CHECK(std::isnan(holes->at(count - 1)));
    CHECK(std::signbit(holes->back()));
    const auto texts =
        read_json(repeated(R"("\u00e9")", count, R"("")"), "f", Family::data, [](const JsonObject& o) {
          CHECK(o.kind_of_items("a") == "string");
          return o.texts("a");
        });
    REQUIRE(texts);
    CHECK(texts->size() == count + 1);
    CHECK(texts->front() == "\xC3\xA9");
    CHECK(texts->back().empty());
    for (const char* odd : {"true", "{}", "[1]", "\"x\""}) {
      CAPTURE(odd);
      CHECK_THAT(problem_of(repeated("1", count, odd), [](const JsonObject& o) { o.numbers("a"); }),
                 Catch::Contains(at_last + ": this value has the wrong type") && Catch::Contains(odd));
      CHECK_THAT(problem_of(repeated("1", count, odd), [](const JsonObject& o) { o.numbers_or_null("a"); }),
                 Catch::Contains(at_last + ": this value has the wrong type") && Catch::Contains(odd));
    }
    CHECK_THAT(problem_of(repeated("1", count, "null"), [](const JsonObject& o) { o.numbers("a"); }),
               Catch::Contains(at_last + ": this value has the wrong type; found 'null'"));
    CHECK_THAT(problem_of(repeated("\"x\"", count, "1"), [](const JsonObject& o) { o.texts("a"); }),
               Catch::Contains(at_last + ": this value has the wrong type; found '1'"));
    CHECK_THAT(problem_of(repeated("7", count, "7"), [](const JsonObject& o) { o.texts("a"); }),
               Catch::Contains("/a/0: this value has the wrong type; found '7', expected text in quotes"));
    CHECK_THAT(problem_of(repeated("\"x\"", count, "\"y\""), [](const JsonObject& o) { o.numbers("a"); }),
               Catch::Contains("/a/0: this value has the wrong type; found '\"x\"', expected a number"));
    CHECK_THAT(problem_of(repeated("null", count, "1"), [](const JsonObject& o) { o.nested_numbers("a"); }),
               Catch::Contains("/a: this value has the wrong type"));
    CHECK_THAT(problem_of(repeated("1", count, "2"), [](const JsonObject& o) { o.objects("a"); }),
               Catch::Contains("/a/0: this value has the wrong type; found '1', expected an object"));
    // Shown as it was written: whole numbers, fractions and holes. The last whole number is none a double
    // holds.
    for (const std::string whole : {"9007199254740992", "9007199254740993"}) {
      const std::string list = "[1.0,null,-0,-0.0," + whole + ones(count) + "]";
      CHECK_THAT(problem_of("{\"a\":" + list + "}", [](const JsonObject& o) { o.text("a"); }),
                 Catch::Contains("found '[1.0,null,0,-0.0," + whole + ",1"));
      CHECK_THAT(problem_of("{\"b\":{\"a\":" + list + "}}", [](const JsonObject& o) { o.text("b"); }),
                 Catch::Contains("found '{\"a\":[1.0,null,0,-0.0," + whole + ",1"));
    }
  }
  const auto top = read_json("[1" + ones(100) + "]", "f", Family::data,
                             [](const JsonObject& o) { return o.kind("items"); });
  CHECK(top == "array");
}

TEST_CASE("repeated keys are refused at any depth, and equal keys of different objects are not") {
  CHECK_THAT(problem_of(R"({"a":{"b":1,"c":[{"d":1,"d":2}]}})", [](const JsonObject&) {}),
             Catch::Contains("stands twice") && Catch::Contains("'d'"));
  CHECK(read_json(R"({"a":{"a":[{"a":1},{"a":1}]}})", "f", Family::data,
                  [](const JsonObject&) { return true; }));
}

TEST_CASE("objects of a list are read one after another, and the worst of what is wrong is said") {
  std::vector<std::string> read;
  const auto said = [&](const std::string& text) {
    read.clear();
    const auto result = read_json_objects(text, "s.json", Family::request, [&](const JsonObject& object) {
      read.push_back(object.place() + object.text("id"));
      object.finish();
    });
    return result ? "" : describe(result.error());
  };
  using Read = std::vector<std::string>;
  CHECK(said(R"([{"id":"a"},{"id":"b"},{"id":"c"}])").empty());
  CHECK(read == Read{"/0a", "/1b", "/2c"});
  CHECK(said(R"({"id":"a"})").empty());
  CHECK(read == Read{"/a"});
  CHECK(said(" [ ] ").empty());
  CHECK(read.empty());
  // An object is read before the rest of the text is: its end may be far away.
  CHECK_THAT(said("[{\"id\":\"a\"},\n{\"id\" \"b\"}]"),
             Catch::Contains("s.json:2:9: this is not valid JSON"));
  CHECK(read == Read{"/0a"});
  CHECK(said(R"([{"id":1},{"id":"b"},{"id":2}])") ==
        "s.json at /0/id: this value has the wrong type; found '1', expected text in quotes");
  CHECK(read.empty());
  CHECK_THAT(said(R"([{"id":"a","x":1},{"id":"b"}])"), Catch::Contains("at /0/x: this key is not known"));
  // What is no object comes before what is wrong in one, and what is no JSON before both.
  CHECK(said(R"([{"id":1},7,[{"id":"b"}]])") ==
        "s.json at /1: this value has the wrong type; found '7', expected an object {...}");
  CHECK_THAT(said(R"([{"id":"a"},["x",{}],null])"),
             Catch::Contains(R"(/1: this value has the wrong type; found '["x",{}]')"));
  CHECK_THAT(said(R"([{"id":1},7,{"id":"b","id":"b"}])"), Catch::Contains("this key stands twice"));
  CHECK_THAT(said(R"([{"id":1},7)"), Catch::Contains("not valid JSON"));
  for (const std::string item : {"3", "\"a\"", "null", "[1]", "true"}) {
    std::string list = "[" + item;
    for (int i = 0; i < 100; ++i) list += "," + item;
    CHECK_THAT(said(list + "]"), Catch::Contains("s.json at /0: ") &&
                                     Catch::Contains("found '" + (item == "\"a\"" ? "\"a\"" : item) + "'"));
    CHECK_THAT(said(item), item == "[1]" ? Catch::Contains("/0: ")
                                         : Catch::Contains("does not hold a JSON object or list"));
  }
}

TEST_CASE("long lists inside the objects of a list stay with their object") {
  std::string numbers = "[0";
  for (int i = 1; i < 100; ++i) numbers += "," + std::to_string(i);
  const std::string object = "{\"n\":" + numbers + "],\"t\":[\"x\"],\"m\":" + numbers + "]}";
  int objects = 0;
  const auto result =
      read_json_objects("[" + object + "," + object + "]", "f", Family::data, [&](const JsonObject& one) {
        ++objects;
        CHECK(one.numbers("n") == one.numbers("m"));
        CHECK(one.numbers("n").back() == 99.0);
        CHECK(one.texts("t") == std::vector<std::string>{"x"});
      });
  CHECK(result);
  CHECK(objects == 2);
}
