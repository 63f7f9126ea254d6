// SPDX-License-Identifier: MIT
// Control printed for dated trials, and what the treatment floor works out for a season like theirs. A
// consistency table, not a validation: the kill rows were set knowing these trials.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/json_reader.hpp"
#include "support/textbook_season.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::treatment {

/// A trial of tests/treatment/dated_trials.json.
struct Trial {
  std::string name, source, kind, partner, unlike;
  double residual_weeks, shift_days, warmer, least, most;
  int day;
};

inline std::vector<Trial> dated_trials() {
  std::ifstream in{std::string{SOILCLOCK_SOURCE_DIR} + "/tests/treatment/dated_trials.json"};
  std::ostringstream text;
  text << in.rdbuf();
  auto trials = read_json(text.str(), "dated_trials.json", Family::fault, [](const JsonObject& top) {
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
  });
  if (!trials) throw std::runtime_error{describe(trials.error())};
  return *std::move(trials);
}

/// The model files a trial is worked out with.
struct TrialModels {
  GrassControl grass;
  ResidualRule residual;
  MixtureRule mixture;
  emergence::GrowthModel growth;
};

/// What the foliar part of a trial kills: one of the class rows, or both by the mixture rule.
inline KillByStage kill_of(const std::string& partner, const TrialModels& models) {
  const FoliarAction contact{14, models.grass.row("contact")->kill, {}};
  const FoliarAction translocated{9, models.grass.row("translocated")->kill, {}};
  if (partner == "contact") return contact.kill;
  if (partner == "translocated") return translocated.kill;
  return combined_kill(std::vector{contact, translocated}, models.mixture);
}

/// Control in percent points on the day of the trial.
inline double expected_points(const Trial& trial, const TrialModels& models) {
  GrassControl grass = models.grass;
  grass.warmth.reset();  // trials were sprayed on days chosen for it
  const ResidualRule& rule = models.residual;
  const std::map<std::string, Kind> kinds{
      {"pre", Kind::pre}, {"pre+post", Kind::pre_post}, {"post", Kind::post}};
  DrawnTreatment drawn{kill_of(trial.partner, models), {}};
  if (trial.residual_weeks > 0.0) {
    const double energy =
        0.5 * (rule.activation_energy_least_j_per_mol + rule.activation_energy_most_j_per_mol);
    drawn.residuals.push_back({0, trial.residual_weeks, energy, 0.01 * grass.greatest.most});
  }
  const TextbookSeason season{models.growth, trial.shift_days, trial.warmer};
  const SeasonCohorts cohorts = season.cohorts();
  const auto control = ExpectedControl{cohorts, drawn, grass, rule}.on(TextbookSeason::day(trial.day));
  return 100.0 * control[index_of(kinds.at(trial.kind))];
}

}  // namespace soilclock::treatment
