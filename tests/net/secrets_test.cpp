// SPDX-License-Identifier: MIT
// A key is known again however it is written, and nothing else is taken for it.
#include "net/secrets.hpp"

#include <fmt/format.h>
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "net/requests/query.hpp"
#include "net/requests/services.hpp"

using namespace soilclock;
using namespace soilclock::net;
using Catch::Contains;

namespace {

std::string hide(const std::string& text, const std::string& secret) {
  return redact(text, {{"X-Api-Key", secret}});
}

/// Printable ASCII without blanks at the ends, as a key is read.
rc::Gen<std::string> keys() {
  return rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('!', '\x7f')));
}

/// Each character at will as it is or escaped in one of the ways of JSON, addresses and HTML.
std::string written_anyhow(const std::string& key) {
  std::string text;
  for (const char c : key) {
    const unsigned code = static_cast<unsigned char>(c);
    const bool bare_is_clear = c != '\\' && c != '%' && c != '&' && c != '+';
    switch (*rc::gen::inRange(bare_is_clear ? 0 : 1, 7)) {
      case 0:
        text += c;
        break;
      case 1:
        text += fmt::format("\\u{:04x}", code);
        break;
      case 2:
        text += fmt::format("\\u{:04X}", code);
        break;
      case 3:
        text += fmt::format("%{:02X}", code);
        break;
      case 4:
        text += fmt::format("%{:02x}", code);
        break;
      case 5:
        text += fmt::format("&#{};", code);
        break;
      default:
        text += fmt::format("&#x{:X};", code);
    }
  }
  return text;
}

}  // namespace

TEST_CASE("a key is hidden as it is, in other case, and behind the escapes of JSON, addresses and HTML") {
  const std::string key = "ab/cd+EF==";
  for (const char* text : {"ab/cd+EF==", "AB/CD+ef==", R"(ab\/cd+EF==)", R"(ab\u002fcd\u002BEF\u003d\u003D)",
                           "ab%2Fcd%2bEF%3D%3d", "ab&#47;cd&#x2B;EF&#x3d;&#61;", R"(ab\/cd%2BEF=&#61;)"}) {
    INFO(text);
    CHECK(hide(text, key) == "***");
    CHECK(hide("the key \"" + std::string{text} + "\" is " + text + ".", key) == "the key \"***\" is ***.");
  }
  CHECK(hide("my+own key%20x", "my own key x") == "***");
  CHECK(hide("a&amp;b&lt;c&gt;d&quot;e&apos;f", "a&b<c>d\"e'f") == "***");
  CHECK(hide(R"(a\\b\"c and a\b"c)", "a\\b\"c") == "*** and ***");
  CHECK(hide("100%25 or 100%", "100%") == "*** or ***");
}

TEST_CASE("a key that is cut off behind its eighth character is still hidden") {
  CHECK(hide("the key abcdefghij...", "abcdefghijklmnop") == "the key ***...");
  CHECK(hide(R"(the key abc\u0064efg%6)", "abcdefghijklmnop") == R"(the key abc\u0064efg%6)");
  CHECK(hide(R"(the key abc\u0064efg%68)", "abcdefghijklmnop") == "the key ***");
  CHECK(hide("the key abcdefg...", "abcdefghijklmnop") == "the key abcdefg...");
  CHECK(hide("the key abc...", "abc") == "the key ***...");
}

TEST_CASE("what is no key stays as it was") {
  for (const char* text :
       {"", "100 % of & more + less \\", "&#;&#x;&#xZ;%ZZ%4\\u12", "&amp", "ab/cd", "a-b_c"}) {
    INFO(text);
    CHECK(hide(text, "ab/cd+EF==") == text);
    CHECK(hide(text, "") == text);
    CHECK(redact(std::string{text}, std::vector<std::pair<std::string, std::string>>{}) == text);
  }
}

TEST_CASE("every text of a problem is without the key of the service, and the rest of it is as it was") {
  Service service;
  service.key = "ab/cd+EF==";
  const std::string said = "<ab%2Fcd+EF==>";
  Problem problem{Family::data, said, {said, 3, 7, "/" + said}, said, said, said};
  const Problem redacted = redact(problem, service);
  for (const std::string& text :
       {redacted.what, redacted.where.file, redacted.found, redacted.expected, redacted.remedy})
    CHECK(text == "<***>");
  CHECK(redacted.where.json_pointer == "/<***>");
  CHECK(redacted.where.line == 3);
  CHECK(redacted.where.column == 7);
  CHECK(redacted.family == Family::data);
  service.key.clear();
  CHECK(describe(redact(problem, service)) == describe(problem));
}

TEST_CASE("a key in a good answer that turns out unreadable is hidden when the problem is") {
  Service service;
  service.key = "ab/cd+EF==";
  const auto read = read_json(R"({"hourly": {"ab\/cd+EF==": 1}})", "answer", Family::data,
                              [](const JsonObject& top) { return top.object("hourly").text("ab/cd+EF=="); });
  REQUIRE_FALSE(read);
  REQUIRE_THAT(describe(read.error()), Contains("cd+EF"));
  CHECK_THAT(describe(redact(read.error(), service)), !Contains("cd") && !Contains("EF"));
}

TEST_CASE("laws of hiding") {
  rc::prop("a key in any mixture of escapes is gone, and what stands around it is not", [] {
    const std::string key = *keys();
    const std::string text = written_anyhow(key);
    RC_ASSERT(hide("\t" + text + "\n", key) == "\t***\n");
  });
  rc::prop("a key as an address writes it is gone", [] {
    const std::string key = *keys();
    RC_ASSERT(hide(query_text({{"", key}}).substr(1), key) == "***");
  });
  rc::prop("no text makes hiding fail, and none comes out with the key in it", [] {
    const auto key =
        *rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::elementOf(std::string{"abc"})));
    const auto text = *rc::gen::container<std::string>(rc::gen::weightedOneOf<char>(
        {{1, rc::gen::arbitrary<char>()}, {6, rc::gen::elementOf(std::string{"aAbBcC\\u%&#x;+0612"})}}));
    RC_ASSERT(lowered(hide(text, key)).find(key) == std::string::npos);
    RC_ASSERT(hide(text + "\n" + key, key).ends_with("\n***"));
  });
}
