// SPDX-License-Identifier: MIT
// Text becomes part of a page in one place; nothing a user types may become markup.
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include "report/markup/escaping.hpp"
#include "report/markup/markup.hpp"

using namespace soilclock::report;

namespace {

/// What a browser makes of references in text: the way back, written on its own.
std::string read_back(std::string text) {
  const auto replace = [&](const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
      text.replace(at, from.size(), to);
  };
  replace("&lt;", "<");
  replace("&gt;", ">");
  replace("&quot;", "\"");
  replace("&amp;", "&");
  return text;
}

}  // namespace

TEST_CASE("markup, quotes and references are escaped, other letters stay") {
  CHECK(escaped("<script>alert(1)</script>") == "&lt;script&gt;alert(1)&lt;/script&gt;");
  CHECK(escaped("a & b \"c\" 'd'") == "a &amp; b &quot;c&quot; 'd'");
  CHECK(escaped("&lt;") == "&amp;lt;");
  CHECK(escaped("Söhne 日本 =1+1") == "Söhne 日本 =1+1");
  CHECK(escaped("") == "");
}

TEST_CASE("control characters and broken UTF-8 do not reach a page") {
  CHECK(escaped(std::string{"a\0b\x1b[0m\xff", 8}) == "a?b?[0m?");
}

TEST_CASE("escaped text reads back as it was and holds nothing that opens a tag or closes a value") {
  rc::prop("any printable text", [] {
    const auto text = *rc::gen::container<std::string>(rc::gen::inRange<char>(' ', '~'));
    const std::string safe = escaped(text);
    RC_ASSERT(safe.find_first_of("<>\"") == std::string::npos);
    RC_ASSERT(read_back(safe) == text);
  });
}

TEST_CASE("elements close in the order they were opened and values cannot leave their quotes") {
  Markup markup;
  markup.open("p", {{"class", "a\" onload=\"x"}, {"", "left out"}});
  markup.element("b", "1 < 2", {{"id", "x"}});
  markup.leaf("rect", {{"width", 3}, {"height", 2.25}});
  markup.close();
  CHECK(markup.written() ==
        "<p class=\"a&quot; onload=&quot;x\"><b id=\"x\">1 &lt; 2</b><rect width=\"3\" "
        "height=\"2.3\"/>\n</p>\n");
}

TEST_CASE("numbers of a drawing have one decimal at most and no minus zero") {
  CHECK(drawn(12.0) == "12");
  CHECK(drawn(12.04) == "12");
  CHECK(drawn(-12.06) == "-12.1");
  CHECK(drawn(-0.04) == "0");
}
