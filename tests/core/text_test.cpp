// SPDX-License-Identifier: MIT
#include "core/text.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "core/problem.hpp"
#include "core/random.hpp"

using namespace soilclock;

TEST_CASE("only a plain number with a point is a number") {
  CHECK(parse_number("1.5") == 1.5);
  CHECK(parse_number("+3") == 3.0);
  CHECK(parse_number("-0.25") == -0.25);
  for (const char* text : {"", "nan", "inf", "1,5", " 1", "1 ", "1x", "--1", "0x10", "1e999"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_number(text).has_value());
  }
}

TEST_CASE("a short decimal is the same double, bit for bit, as strtod gives") {
  const auto check = [](const std::string& text) {
    CAPTURE(text);
    char* end = nullptr;
    const double expected = std::strtod(text.c_str(), &end);
    const auto number = parse_number(text);
    REQUIRE(number);
    CHECK(*end == '\0');
    CHECK(*number == expected);
    CHECK(std::signbit(*number) == std::signbit(expected));
  };
  for (const char* text : {"0", "-0", "-0.0", "5.", ".5", "-.5", "007.50", "99999999999999",
                           "9999999999999.9", "0.00000000000001", "999999999999999", "1234567890123456789",
                           "0.1234567890123456", "123456789012345.6", "12.5e3"})
    check(text);
  const soilclock::RandomField draws{5};
  for (std::uint64_t i = 0; i < 200'000; ++i) {
    std::string digits = std::to_string(static_cast<std::uint64_t>(draws.uniform(0, i) * 1e18));
    digits.resize(1 + static_cast<std::size_t>(draws.uniform(1, i) * 17.0), '7');
    const auto point = static_cast<std::size_t>(draws.uniform(2, i) * static_cast<double>(digits.size() + 1));
    digits.insert(point, ".");
    check(draws.uniform(3, i) < 0.5 ? digits : "-" + digits);
  }
  for (const char* text : {".", "-", "-.", "1.2.3", "--1", "1-", "1 ", " 1", "1,5", "0x1", "inf", "1e999"})
    CHECK_FALSE(parse_number(text));
}

TEST_CASE("blanks at both ends go and ASCII is lowered") {
  CHECK(trimmed(" \t a b \r\n") == "a b");
  CHECK(trimmed(" \n").empty());
  CHECK(lowered("TMax \xC3\x84") == "tmax \xC3\x84");
}

TEST_CASE("printable keeps whole characters, shows broken bytes as question marks and cuts") {
  CHECK(printable("21 \xC2\xB0"
                  "C",
                  60) ==
        "21 \xC2\xB0"
        "C");
  CHECK(printable("21 \xB0"
                  "C",
                  60) == "21 ?C");
  CHECK(printable("a\x01\x7F\nb\tc", 60) == "a???b c");
  CHECK(printable("a\xC2\x9B"
                  "b",
                  60) == "a?b");  // U+009B starts a terminal's command in 8 bits
  CHECK(printable("a\xE2\x80\xAE"
                  "b",
                  60) == "a?b");  // U+202E turns the direction of writing
  CHECK(printable("a\xE2\x81\xA6"
                  "b\xE2\x80\xA8",
                  60) == "a?b?");
  CHECK(printable("\xE2\x80\x99\xE2\x82\xAC\xC2\xB0", 60) == "\xE2\x80\x99\xE2\x82\xAC\xC2\xB0");
  CHECK(printable("\xE2\x82", 60) == "??");
  CHECK(printable("\xC0\xAF", 60) == "??");
  CHECK(printable("abcdef", 3) == "abc...");
  CHECK(printable("\xC3\xA4\xC3\xB6\xC3\xBC", 2) == "\xC3\xA4\xC3\xB6...");
  CHECK(printable("abc", 3) == "abc");
}

TEST_CASE("whatever bytes come in, what is shown is valid UTF-8 on one line") {
  rc::prop("a strict JSON writer accepts every printable text", [] {
    const auto bytes = *rc::gen::container<std::string>(rc::gen::map(rc::gen::inRange(0, 256), [](int byte) {
      return static_cast<char>(static_cast<unsigned char>(byte));
    }));
    const std::string shown = printable(bytes, 40);
    RC_ASSERT(shown.find('\n') == std::string::npos);
    // dump() throws on bytes that are no UTF-8, except that surrogates and overlong forms must be judged by
    // it too.
    std::string written;
    try {
      written = nlohmann::json(shown).dump();
    } catch (const nlohmann::json::exception&) {
      RC_FAIL("not UTF-8");
    }
    RC_ASSERT(!written.empty());
  });
}

TEST_CASE("the nearest word is offered only when it is near") {
  const std::vector<std::string> words{"average", "sine", "triangle", "four-case"};
  CHECK(nearest("averge", words) == "average");
  CHECK(nearest("Sine", words) == "sine");
  CHECK(nearest("triangel", words) == "triangle");
  CHECK_FALSE(nearest("horizontal", words).has_value());
  CHECK_FALSE(nearest("x", {}).has_value());
}

TEST_CASE("lists read as in a sentence") {
  CHECK(listed({}).empty());
  CHECK(listed({"a"}) == "a");
  CHECK(listed({"a", "b"}) == "a and b");
  CHECK(listed({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("a problem is one line with place, finding, expectation and remedy") {
  const Problem problem{
      Family::data, "this is not a temperature", {"june.csv", 4, 7, {}}, "abc", "a number", "leave it blank"};
  CHECK(describe(problem) ==
        "june.csv:4:7: this is not a temperature; found 'abc', expected a number; leave it blank");
  CHECK(
      describe(
          {Family::request, "this key is missing", {"sites.json", {}, {}, "/items/0/id"}, {}, "text", {}}) ==
      "sites.json at /items/0/id: this key is missing; expected text");
  CHECK(describe({Family::environment, "the disk is full", {}, {}, {}, {}}) == "the disk is full");
  CHECK_THAT(describe({Family::data, "odd", {}, std::string(500, 'x'), {}, {}}), Catch::Contains("x...'"));
  CHECK(describe({Family::request, "an odd\nname", {}, {}, "'\x1b[1mpoa'", "write\r\nit"}) ==
        "an odd?name; expected '?[1mpoa'; write??it");
}

TEST_CASE("each family of problems has its exit code") {
  CHECK(exit_code(Family::request) == 2);
  CHECK(exit_code(Family::data) == 3);
  CHECK(exit_code(Family::environment) == 4);
  CHECK(exit_code(Family::fault) == 70);
}
