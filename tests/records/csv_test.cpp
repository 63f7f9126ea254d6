// SPDX-License-Identifier: MIT
#include "records/csv.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include "core/csv.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

using Texts = std::vector<std::vector<std::string>>;

Texts texts(const std::vector<CsvRow>& rows) {
  Texts result;
  for (const CsvRow& row : rows) {
    result.emplace_back();
    for (const CsvCell& cell : row) result.back().push_back(cell.text);
  }
  return result;
}

Texts read(std::string_view text) {
  const auto rows = parse_csv(text, "table.csv");
  REQUIRE(rows);
  return texts(*rows);
}

}  // namespace

TEST_CASE("the examples of RFC 4180 are read as it says") {
  // Shafranovich 2005, RFC 4180, section 2, rules 1 to 7.
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == Texts{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Texts{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Texts{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Texts{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"b\"\"bb\",\"ccc\"") == Texts{{"aaa", "b\"bb", "ccc"}});
}

TEST_CASE("a byte order mark, empty lines and all three line ends are taken") {
  CHECK(read("\xEF\xBB\xBF"
             "a,b\n\n1,2\r3,\r\n,4") == Texts{{"a", "b"}, {"1", "2"}, {"3", ""}, {"", "4"}});
  CHECK(read("").empty());
  CHECK(read("a,") == Texts{{"a", ""}});
  CHECK(read("\"\"\n") == Texts{{""}});
}

TEST_CASE("a cell knows its line even behind a cell with line ends") {
  const auto rows = parse_csv("a,b\n\"x\ny\r\nz\",2\n3,4\n", "table.csv");
  REQUIRE(rows);
  CHECK((*rows)[1][0].line == 2);
  CHECK((*rows)[1][1].line == 4);
  CHECK((*rows)[2][0].line == 5);
}

TEST_CASE("broken quoting is refused with its place") {
  for (const char* text : {"a,b\n1,\"two\n", "a,b\n1,\"two\"2\n", "a,b\n1,tw\"o\n"}) {
    CAPTURE(text);
    const auto rows = parse_csv(text, "table.csv");
    REQUIRE_FALSE(rows);
    CHECK(rows.error().family == Family::data);
    CHECK(rows.error().where.file == "table.csv");
    CHECK(rows.error().where.line == 2);
    CHECK(rows.error().where.column == 2);
  }
}

TEST_CASE("any rows are read back as they were written") {
  rc::prop("write then read", [] {
    const auto cell =
        rc::gen::container<std::string>(rc::gen::elementOf(std::string{",\"\r\n ab=0\xC3\xA9;\t"}));
    const auto rows =
        *rc::gen::container<Texts>(rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(cell)));
    std::string text;
    for (const auto& row : rows) text += csv_row(row);
    const auto again = parse_csv(text, "table.csv");
    RC_ASSERT(again.has_value());
    RC_ASSERT(texts(*again) == rows);
  });
}
