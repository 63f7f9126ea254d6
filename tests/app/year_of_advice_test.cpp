// SPDX-License-Identifier: MIT
// A year of short answers, kept to be read: what a manager is told on the 1st and 15th of each month. A
// change of one word shows as a difference here, so that somebody reads it before others do. To renew the
// kept files after reading the new ones: SOILCLOCK_RENEW_YEAR=1 build/tests/app_tests "[year]"
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <map>

#include "app/demo_year.hpp"
#include "core/text.hpp"
#include "report/wrapped_text.hpp"
#include "support/record_answers.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;
using advice::TargetAnswer;

namespace {

constexpr const char* demo_head =
    "What is said at the demo courses, grass by grass, over a year. Made by "
    "tests/app/year_of_advice_test.cpp;\n"
    "renew it with SOILCLOCK_RENEW_YEAR=1 build/tests/app_tests \"[year]\" and read the difference.\n";
constexpr const char* station_head =
    "What would have been said in 2020 at four US climate reference stations, air and soil measured, turf "
    "not\n"
    "named, irrigated. One year of record: annual bluegrass is answered from its own season on. Made and "
    "renewed\n"
    "as year_of_advice.txt is.\n";

std::string dated(Day on) { return short_date(on, true); }

std::string short_answer(const TargetAnswer& target) {
  std::string text = report::wrapped(target.headline, 2);
  for (const advice::BriefLine& line : target.brief)
    text += report::wrapped(fmt::format("{:<14}{}", line.label, line.text), 4);
  return text;
}

using Asked = std::function<const SiteAnswer&(Day)>;

/// All answers about one grass, oldest first; days before the record reaches back far enough are left out.
std::string year_of(const std::string& target, const std::vector<Day>& days, const Asked& answer) {
  std::string text = fmt::format("\n== {}, {}\n", answer(days.back()).name, target);
  for (const Day on : days) {
    for (const TargetAnswer& one : answer(on).targets) {
      if (one.target == target && !one.refusal) text += "\n" + dated(on) + "\n" + short_answer(one);
    }
  }
  return text;
}

/// Says where the kept file and what is said now first part, with the answer around it.
std::string first_difference(const std::string& stored, const std::string& now) {
  const auto before = lines_of(stored);
  const auto after = lines_of(now);
  std::size_t at = 0;
  while (at < before.size() && at < after.size() && before[at] == after[at]) ++at;
  std::string text = fmt::format("line {}", at + 1);
  for (std::size_t i = at; i-- > 0;) {
    if (!before[i].empty() && before[i].front() != ' ') {
      text += " (" + before[i] + ")";
      break;
    }
  }
  text += "\nkept: " + (at < before.size() ? before[at] : "(end)");
  text += "\nnow:  " + (at < after.size() ? after[at] : "(end)");
  return text;
}

void compare_or_renew(const std::string& name, const std::string& now) {
  const std::string path = std::string{SOILCLOCK_SOURCE_DIR} + "/tests/app/" + name;
  if (std::getenv("SOILCLOCK_RENEW_YEAR") != nullptr) {
    std::ofstream out{path, std::ios::binary};
    out << now;
    REQUIRE(out.good());
    WARN("renewed " << path);
    return;
  }
  const std::string stored = source_text("tests/app/" + name);
  INFO("to renew: SOILCLOCK_RENEW_YEAR=1 build/tests/app_tests \"[year]\"");
  const bool same = stored == now;
  INFO((same ? std::string{} : first_difference(stored, now)));
  CHECK(same);
}

/// A measured station of 2020 asked about both grasses; each day once.
class Station {
 public:
  Station(std::string name, std::string bytes) : name_{std::move(name)}, bytes_{std::move(bytes)} {}
  const SiteAnswer& on(Day day) {
    const auto known = answers_.find(day);
    if (known != answers_.end()) return known->second;
    SiteRequest request = question(bytes_, day);
    request.name = name_;
    request.us_units = true;
    request.targets = {"POAAN", "DIGIS"};
    return answers_.emplace(day, answered(request)).first->second;
  }

 private:
  std::string name_;
  std::string bytes_;
  std::map<Day, SiteAnswer> answers_;
};

}  // namespace

TEST_CASE("the year of advice at the demo courses is the one that was read", "[year][statistics]") {
  std::string text = demo_head;
  for (const std::string& id : demo_ids()) {
    for (const std::string target : {"POAAN", "DIGIS"})
      text += year_of(target, demo_days(), [&](Day on) -> const SiteAnswer& { return demo_answer(id, on); });
  }
  compare_or_renew("year_of_advice.txt", text);
}

TEST_CASE("the year of advice at four measured stations is the one that was read",
          "[records][year][statistics]") {
  std::string text = station_head;
  for (const std::string name :
       {"TN_Crossville_7_NW", "PA_Avondale_2_N", "NH_Durham_2_N", "AL_Selma_13_WNW"}) {
    Station station{name, station_text(name)};
    for (const std::string target : {"POAAN", "DIGIS"})
      text += year_of(target, days_of_a_year(2020, 1),
                      [&](Day on) -> const SiteAnswer& { return station.on(on); });
  }
  compare_or_renew("year_of_advice_stations.txt", text);
}
