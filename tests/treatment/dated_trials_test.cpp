// SPDX-License-Identifier: MIT
// A consistency table, not a validation: the kill rows were set knowing these trials.
#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

#include "core/json_reader.hpp"
#include "model_files.hpp"
#include "support/textbook_season.hpp"

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

/// What the foliar part of a trial kills: one of the class rows, or both by the mixture rule.
KillByStage kill_of(const std::string& partner, const GrassControl& grass) {
  const FoliarAction contact{14, grass.row("contact")->kill, {}};
  const FoliarAction translocated{9, grass.row("translocated")->kill, {}};
  if (partner == "contact") return contact.kill;
  if (partner == "translocated") return translocated.kill;
  return combined_kill(std::vector{contact, translocated}, shipped_mixture());
}

double expected_points(const Trial& trial) {
  GrassControl grass = shipped_control();
  grass.warmth.reset();  // trials were sprayed on days chosen for it
  const ResidualRule rule = shipped_residual();
  const std::map<std::string, Kind> kinds{
      {"pre", Kind::pre}, {"pre+post", Kind::pre_post}, {"post", Kind::post}};
  DrawnTreatment drawn{kill_of(trial.partner, grass), {}};
  if (trial.residual_weeks > 0.0) {
    const double energy =
        0.5 * (rule.activation_energy_least_j_per_mol + rule.activation_energy_most_j_per_mol);
    drawn.residuals.push_back({0, trial.residual_weeks, energy, 0.01 * grass.greatest.most});
  }
  const TextbookSeason season{bluegrass_growth(), trial.shift_days, trial.warmer};
  const SeasonCohorts cohorts = season.cohorts();
  const auto control = ExpectedControl{cohorts, drawn, grass, rule}.on(TextbookSeason::day(trial.day));
  return 100.0 * control[index_of(kinds.at(trial.kind))];
}

}  // namespace

TEST_CASE("dated trials agree in direction and rough size: a consistency check, not a validation") {
  constexpr double rough_points = 15.0;
  std::cout << "consistency with dated trials (no validation: the kill rows were set knowing them)\n";
  for (const Trial& trial : trials()) {
    const double points = expected_points(trial);
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
  for (const Trial& trial : trials()) by_name[trial.name] = expected_points(trial);
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
