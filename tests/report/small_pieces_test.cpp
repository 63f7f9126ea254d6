// SPDX-License-Identifier: MIT
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <limits>
#include <sstream>

#include "core/temperature.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/wrapped_text.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::report;
using tests::lines_of;

namespace {

std::string without_blanks(const std::string& text) {
  std::string result;
  for (const char c : text) {
    if (c != ' ' && c != '\n') result += c;
  }
  return result;
}

}  // namespace

TEST_CASE("short text stays on one indented line") {
  CHECK(wrapped("hold", 0) == "hold\n");
  CHECK(wrapped("- hold", 4) == "    - hold\n");
  CHECK(wrapped("", 0) == "\n");
}

TEST_CASE("long text breaks at blanks before 100 characters, and later lines hang by two") {
  const std::string word(24, 'x');
  const auto lines = lines_of(wrapped(word + " " + word + " " + word + " " + word + " " + word, 2));
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].size() == 2 + 3 * 24 + 2);  // a fourth word would reach 101
  CHECK(lines[1] == "    " + word + " " + word);
  CHECK(lines_of(wrapped(std::string(100, 'y'), 0)).size() == 1);
}

TEST_CASE("wrapping keeps every character and no line is longer than 100 where words allow") {
  rc::prop("for texts of words up to 40 letters", [] {
    const auto lengths = *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 40));
    const auto indent = static_cast<std::size_t>(*rc::gen::inRange(0, 10));
    std::string text;
    for (const int length : lengths)
      text += (text.empty() ? "" : " ") + std::string(static_cast<std::size_t>(length), 'w');
    const std::string result = wrapped(text, indent);
    RC_ASSERT(without_blanks(result) == without_blanks(text));
    for (const std::string& line : lines_of(result)) RC_ASSERT(line.size() <= 100U);
  });
}

TEST_CASE("numbers of a table have their decimals, and what is no number is empty") {
  CHECK(csv_number(1.25, 1) == "1.2");  // exact halves go to the even digit
  CHECK(csv_number(-0.4, 0) == "0");
  CHECK(csv_number(std::numeric_limits<double>::quiet_NaN(), 2).empty());
  CHECK(csv_number(std::numeric_limits<double>::infinity(), 2).empty());
  CHECK(csv_number(std::optional<Temperature>{}, &Temperature::celsius, 2).empty());
  CHECK(csv_number(std::optional{Temperature::from_celsius(3.0)}, &Temperature::celsius, 2) == "3.00");
}

TEST_CASE("numbers of a document are rounded, never minus nought, and null where there is none") {
  CHECK(rounded(12.345, 1) == 12.3);
  CHECK(rounded(-12.35, 0) == -12.0);
  CHECK(rounded(-0.04, 1).dump() == "0.0");
  CHECK(rounded(std::numeric_limits<double>::quiet_NaN(), 1).is_null());
  CHECK(rounded(-std::numeric_limits<double>::infinity(), 1).is_null());
  CHECK(report::date(std::nullopt).is_null());
  CHECK(report::date(make_day(2024, 2, 29)) == "2024-02-29");
  CHECK(dumped(Json{{"name", "broken \xff byte"}}, -1).find("broken") != std::string::npos);
}

TEST_CASE("a problem of a document names only the places it has") {
  const Json bare = problem_json({Family::data, "what", {}, {}, {}, {}});
  CHECK(bare == Json{{"text", "what"}});
  const Json placed = problem_json({Family::data, "what", {"f.csv", 3, 7, "/a"}, {}, {}, {}});
  CHECK(placed.at("file") == "f.csv");
  CHECK(placed.at("line") == 3);
  CHECK(placed.at("column") == 7);
  CHECK(placed.at("place") == "/a");
}
