// SPDX-License-Identifier: MIT
// A consistency table, not a validation: the kill matrix was set knowing these trials.
#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

#include "core/json_reader.hpp"
#include "model_files.hpp"
#include "textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

struct Trial {
  std::string name, source, kind, partner, unlike;
  double residual_weeks, shift_days, warmer, least, most;
  int day;
};

std::vector<Trial> trials() {
  std::ifstream in{std::string{SOILCLOCK_SOURCE_DIR} + "/tests/treatment/dated_trials.json"};
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return taken(read_json(text.str(), "dated_trials.json", Family::fault, [](const JsonObject& top) {
    std::vector<Trial> all;
    top.text("format");
    top.text("title");
    top.texts("notes");
    for (const JsonObject& item : top.objects("trials")) {
      all.push_back(
          {item.text("trial"), item.text("source"), item.choice("kind", {"pre", "pre+post", "post"}),
           item.choice("partner", {"contact", "translocated", "mixture"}),
           item.optional_text("unlike").value_or(""), item.number("residual_weeks", 0, 52),
           item.number("shift_days", -60, 60), item.number("warmer", -10, 10), item.number("least", 0, 100),
           item.number("most", 0, 100), item.integer("day", -60, 250)});
      item.finish();
    }
    top.finish();
    return all;
  }));
}

double reached(const Trial& trial) {
  static const ReachRules rules = [] {
    ReachRules warm = shipped_rules();
    warm.kill.warmth.reset();  // trials were sprayed on days chosen for it
    return warm;
  }();
  const std::map<std::string, Kind> kinds{
      {"pre", Kind::pre}, {"pre+post", Kind::pre_post}, {"post", Kind::post}};
  const std::map<std::string, FoliarPartner> partners{{"contact", FoliarPartner::contact},
                                                      {"translocated", FoliarPartner::translocated},
                                                      {"mixture", FoliarPartner::mixture}};
  Treatment treatment;
  treatment.kind = kinds.at(trial.kind);
  treatment.partner = partners.at(trial.partner);
  treatment.residual_weeks = trial.residual_weeks;
  const TextbookSeason season{trial.shift_days, trial.warmer};
  return 100.0 * reach(season.cohorts(), treatment, TextbookSeason::day(trial.day), rules).total;
}

}  // namespace

TEST_CASE("dated trials agree in direction and rough size: a consistency check, not a validation") {
  constexpr double rough_points = 15.0;
  std::cout << "consistency with dated trials (no validation: the kill matrix was set knowing them)\n";
  for (const Trial& trial : trials()) {
    const double points = reached(trial);
    std::cout << fmt::format("  {:<62} printed {:>3.0f}-{:<3.0f} computed {:>3.0f}{}\n", trial.name,
                             trial.least, trial.most, points,
                             trial.unlike.empty() ? "" : "  (known not to follow)");
    INFO(trial.name);
    const bool near = points >= trial.least - rough_points && points <= trial.most + rough_points;
    CHECK(near == trial.unlike.empty());
  }
}

TEST_CASE("the directions the dated trials show are in the model") {
  std::map<std::string, double> by_name;
  for (const Trial& trial : trials()) by_name[trial.name] = reached(trial);
  const auto at = [&](const std::string& name) { return by_name.at(name); };
  CHECK(at("residual of 26 weeks at the pre date, Georgia") >
        at("residual of 26 weeks, 8 weeks after the pre date, Georgia") + 20.0);
  CHECK(at("residual of 16 weeks in mid-September, Maryland") >
        at("residual of 16 weeks on 13 October, Maryland") + 20.0);
  CHECK(at("contact with residual, November, Alabama") > at("contact with residual, December, Alabama"));
  CHECK(at("contact with residual, December, Alabama") >
        at("contact with residual, mature plants in late winter, Georgia"));
  CHECK(at("mixture on mature plants in late winter, Georgia") >
        at("contact with residual, mature plants in late winter, Georgia") + 10.0);
}
