// SPDX-License-Identifier: MIT
#include "treatment/actives.hpp"

#include <set>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

int group(const std::string& text) { return taken(read_plan_entry(text, shipped_actives())).group; }

}  // namespace

TEST_CASE("common names carry the group numbers of the 2020 revision") {
  const std::vector<std::pair<std::string, int>> groups{
      {"prodiamine", 3},     {"dithiopyr", 3},    {"pronamide", 3},    {"indaziflam", 29},
      {"oxadiazon", 14},     {"flumioxazin", 14}, {"simazine", 5},     {"foramsulfuron", 2},
      {"glyphosate", 9},     {"glufosinate", 10}, {"diquat", 22},      {"ethofumesate", 15},
      {"S-metolachlor", 15}, {"mesotrione", 27},  {"methiozolin", 30}, {"quinclorac", 4},
      {"endothall", 31},     {"clethodim", 1}};
  for (const auto& [name, number] : groups) {
    INFO(name);
    CHECK(group(name) == number);
  }
  CHECK(shipped_actives().all().size() >= 39);
  CHECK(shipped_actives().find("DCPA") == nullptr);  // use ended
}

TEST_CASE("names are found by alias and whatever their case, groups by number, old numbers by the new ones") {
  CHECK(taken(read_plan_entry(" Propyzamide ", shipped_actives())).text == "pronamide");
  CHECK(group("14") == 14);
  CHECK(group("Group 3") == 3);
  CHECK(group("8") == 15);
  CHECK(group("7") == 5);
  CHECK(taken(read_plan_entry("group 14", shipped_actives())).active == nullptr);
}

TEST_CASE("what is neither active nor group is refused with the nearest name") {
  const auto misspelled = read_plan_entry("prodiamin", shipped_actives());
  REQUIRE(!misspelled);
  CHECK(misspelled.error().remedy.find("prodiamine") != std::string::npos);
  CHECK(!read_plan_entry("", shipped_actives()));
  CHECK(!read_plan_entry("99", shipped_actives()));
  CHECK(!read_plan_entry("3.5", shipped_actives()));
  CHECK(!read_plan_entry("group", shipped_actives()));
}

TEST_CASE("residual weeks of the measured actives cover what was measured") {
  // Schleicher et al. 1995: at least 90 percent for 59 and 87 d; Brosnan et al. 2012: through 28 to 30 weeks.
  const auto covers = [](const char* name, double weeks) {
    const ParameterSpan& span = shipped_actives().find(name)->residual_weeks;
    return span.least <= weeks && weeks <= span.most;
  };
  CHECK(covers("pendimethalin", 59.0 / 7.0));
  CHECK(covers("dithiopyr", 87.0 / 7.0));
  CHECK(covers("indaziflam", 28.0));
}

TEST_CASE("a list with a mistake does not load") {
  const std::string good = model_text("actives.json");
  const auto refused = [&](const std::string& from, const std::string& to) {
    std::string bad = good;
    const auto at = bad.find(from);
    REQUIRE(at != std::string::npos);
    bad.replace(at, from.size(), to);
    const auto result = read_actives(bad, "actives.json");
    REQUIRE(!result);
    return result.error();
  };
  CHECK(refused("\"pendimethalin\"", "\"prodiamine\"").what == "this name or alias is listed twice");
  CHECK(refused("\"least\": 12, \"most\": 24", "\"least\": 24, \"most\": 12").what == "the span is reversed");
  CHECK(refused("\"uptake\": \"soil\"", "\"uptake\": \"roots\"").where.json_pointer == "/actives/0/uptake");
  CHECK(refused("\"emerged_to\"", "\"emerged_until\"").where.json_pointer == "/actives/0/emerged_to");
}
