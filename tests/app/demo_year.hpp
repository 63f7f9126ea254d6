// SPDX-License-Identifier: MIT
// The shipped courses asked on the 1st and 15th of each month of a year, and on any other day; each answer is
// computed once.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "app/answers.hpp"
#include "support/shipped_catalogue.hpp"
#include "support/source_texts.hpp"

namespace soilclock::tests {

/// The sites of config/demo_sites.json; their files are read from the source tree.
inline const std::vector<Site>& demo_courses() {
  static const std::vector<Site> sites = [] {
    auto read = read_sites(source_text("config/demo_sites.json"), "demo_sites.json",
                           std::string{SOILCLOCK_SOURCE_DIR} + "/config");
    if (!read) throw std::runtime_error{describe(read.error())};
    return *std::move(read);
  }();
  return sites;
}

inline const Site& demo_course(const std::string& id) {
  for (const Site& site : demo_courses()) {
    if (site.id == id) return site;
  }
  throw std::runtime_error{"no demo course " + id};
}

/// What a user is told about a demo course on a day.
inline const advice::SiteAnswer& demo_answer(const std::string& id, Day on) {
  static std::map<std::pair<std::string, Day>, advice::SiteAnswer> answers;
  const auto known = answers.find({id, on});
  if (known != answers.end()) return known->second;
  return answers
      .emplace(std::pair{id, on},
               app::answer_for(demo_course(id), app::SiteOptions{}, on, shipped_catalogue(), {}))
      .first->second;
}

/// The answer for one grass, which must have been given.
inline const advice::TargetAnswer& demo_target(const std::string& id, const std::string& target, Day on) {
  for (const advice::TargetAnswer& answer : demo_answer(id, on).targets) {
    if (answer.target == target && !answer.refusal) return answer;
  }
  throw std::runtime_error{"no answer for " + target + " at " + id};
}

inline std::vector<std::string> demo_ids() {
  std::vector<std::string> ids;
  for (const Site& site : demo_courses()) ids.push_back(site.id);
  return ids;
}

/// The 1st and 15th of the twelve months before the samples end, oldest first.
inline std::vector<Day> days_of_a_year(int first_year, unsigned first_month) {
  std::vector<Day> days;
  for (unsigned i = 0; i < 12; ++i) {
    const unsigned month = (first_month - 1 + i) % 12 + 1;
    const int year = first_year + (first_month + i > 12 ? 1 : 0);
    for (const unsigned day : {1U, 15U}) days.push_back(make_day(year, month, day));
  }
  return days;
}

inline std::vector<Day> demo_days() { return days_of_a_year(2025, 11); }

}  // namespace soilclock::tests
