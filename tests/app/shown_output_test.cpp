// SPDX-License-Identifier: MIT
#include "app/shown_output.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <ostream>
#include <sstream>

#include "core/text.hpp"

using namespace soilclock;

namespace {

/// What comes through when the text is written in pieces of this length.
std::string shown_in_pieces(const std::string& text, std::size_t length) {
  std::stringbuf behind;
  app::ShownOutput door{behind};
  std::ostream out{&door};
  for (std::size_t at = 0; at < text.size(); at += length) {
    out << text.substr(at, length);
    if (at % 2 == 0) out.flush();
  }
  out.flush();
  return behind.str();
}

}  // namespace

TEST_CASE("nothing acts on a terminal; what stands there can be read") {
  CHECK(shown_in_pieces("a\x1B[31mb\x7F\n", 100) == "a\\u001B[31mb\\u007F\n");
  CHECK(shown_in_pieces("a\xC2\x9B"
                        "2J\n",
                        100) == "a\\u009B2J\n");
  CHECK(shown_in_pieces("a\xE2\x80\xAE"
                        "b\n",
                        100) == "a\\u202Eb\n");
  CHECK(shown_in_pieces("a\rb\n", 100) == "a\\u000Db\n");
  CHECK(shown_in_pieces("a\xFF\n", 100) == "a?\n");
}

TEST_CASE("words, line ends and tabs pass unchanged") {
  const std::string text =
      "21 \xC2\xB0"
      "C\tna\xC3\xAFve \xE2\x80\x94 \xF0\x9F\x8C\xB1\r\nno line end";
  CHECK(shown_in_pieces(text, 100) == text);
}

TEST_CASE("what comes through does not depend on how it is cut") {
  rc::prop("pieces of any length give the same text without controls", [] {
    const auto units = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "a", "\n", "\t", "\x1B", "\xC2\xB0", "\xC2\x9B", "\xE2\x80\xAE", "\xE2\x82\xAC", "\xF0\x9F\x8C\xB1"));
    std::string text;
    for (const std::string& unit : units) text += unit;
    const std::string whole = shown_in_pieces(text, text.size() + 1);
    RC_ASSERT(shown_in_pieces(text, *rc::gen::inRange<std::size_t>(1, 6)) == whole);
    RC_ASSERT(whole.find('\x1B') == std::string::npos);
    RC_ASSERT(whole.find("\xE2\x80\xAE") == std::string::npos);
  });
}
