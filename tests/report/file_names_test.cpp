// SPDX-License-Identifier: MIT
#include "report/file_names.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "made_answers.hpp"
#include "rapidcheck/catch.h"

using namespace soilclock;
using namespace soilclock::tests;
using report::safe_file_name;

TEST_CASE("a plain id is its own name") {
  CHECK(safe_file_name("copper-heron") == "copper-heron");
  CHECK(safe_file_name("green7") == "green7");
}

TEST_CASE("what is changed keeps a mark of its own") {
  CHECK(safe_file_name("Copper Heron").starts_with("copper-heron-"));
  CHECK(safe_file_name(strange_name).starts_with("script-alert-1-script-s-hne-1-1-"));
  const std::vector<std::string> words{"Copper Heron",
                                       "copper heron",
                                       "copper_heron",
                                       "../copper-heron",
                                       "",
                                       "..",
                                       ".",
                                       "con",
                                       "COM1",
                                       "nul",
                                       "\u65e5\u672c",
                                       "\u672c\u65e5",
                                       strange_name,
                                       unbroken_name,
                                       unbroken_name + "W",
                                       "a/b",
                                       "a\\b",
                                       std::string{"a\0b", 3}};
  std::set<std::string> names;
  for (const std::string& word : words) names.insert(safe_file_name(word));
  CHECK(names.size() == words.size());
  CHECK(!names.contains("con"));
  CHECK(!names.contains("nul"));
}

TEST_CASE("laws of safe names") {
  rc::prop("a name holds small letters, digits and single dashes, and is short", [](const std::string& word) {
    const std::string name = safe_file_name(word);
    RC_ASSERT(!name.empty());
    RC_ASSERT(name.size() <= 48U);
    RC_ASSERT(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos);
    RC_ASSERT(name.find("--") == std::string::npos);
    RC_ASSERT(name.front() != '-');
  });
  rc::prop("a name of a name is itself", [](const std::string& word) {
    const std::string name = safe_file_name(word);
    RC_ASSERT(safe_file_name(name) == name);
  });
}
