// SPDX-License-Identifier: MIT
// Bayes' rule over members by notes of earlier seasons, against sums worked by hand.
#include "advice/scouting/earlier_season.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "support/clock_ensemble.hpp"
#include "support/shipped_catalogue.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

constexpr const char* earlier_rule_file = "models/scouting/earlier_seasons.json";

/// Two models that bring forth the same; every fourth member is the first one's.
const TargetRun& prior_of_two() {
  static const tests::ClockModels models;
  static const emergence::EmergenceModel other = tests::shipped_model("POAAN_soil_crossing");
  static const TargetRun run = [] {
    TargetRun made = tests::clock_ensemble(models, 400, 1);
    made.job.models.push_back({&other, 0.75});
    made.job.models.front().weight = 0.25;
    for (std::size_t m = 0; m < made.members.size(); ++m) made.members[m].model = m % 4 == 0 ? 0 : 1;
    return made;
  }();
  return run;
}

/// The shipped numbers; members are never moved, however few are left.
ScoutingRules unmoved_rules() {
  ScoutingRules rules = tests::shipped_catalogue().scouting;
  rules.counts.least_effective = 0.0;
  return rules;
}

/// A season whose notes have one likelihood under the first model and another under all others, whatever the
/// days.
EarlierSeason noted_season(double first, double others, const std::string& neighbor = {}) {
  EarlierSeason earlier{prior_of_two().season.previous().first, neighbor, 3, 30, {}, {}};
  for (const TargetMember& member : prior_of_two().members) {
    MemberFit fit{prior_of_two().job.models[member.model].model, member.curve.first_day_reaching(0.5), {}};
    fit.log_likelihood.fill(std::log(member.model == 0 ? first : others));
    earlier.members.push_back(fit);
  }
  return earlier;
}

double first_weight(const Learned& learned) { return learned.models.front().weight; }

Learned learned_by(const std::vector<EarlierSeason>& own, const std::vector<EarlierSeason>& neighbors = {}) {
  return learned_run(prior_of_two(), own, neighbors, unmoved_rules()).learned;
}

/// The first model's weight when each season's notes are so likely, by hand.
double weight_by_hand(double first, double others, int seasons, double power = 1.0) {
  const EarlierSeasonRule rule = unmoved_rules().earlier_seasons;
  const double before = first_weight(learned_by({noted_season(1.0, 1.0)}));
  const double anywhere = before * first + (1.0 - before) * others;
  const auto mixed = [&](double likelihood) {
    const double one = (1.0 - rule.outlier_share) * likelihood + rule.outlier_share * anywhere;
    return std::pow(one, power * seasons);
  };
  const double gained = before * mixed(first) / (before * mixed(first) + (1.0 - before) * mixed(others));
  return rule.weight_kept * before + (1.0 - rule.weight_kept) * gained;
}

}  // namespace

TEST_CASE("models gain by what their members said of earlier seasons, as worked by hand") {
  CHECK(first_weight(learned_by({noted_season(1.0, 1.0)})) == Approx(0.25).margin(1e-9));
  CHECK(first_weight(learned_by({noted_season(0.4, 0.1)})) ==
        Approx(weight_by_hand(0.4, 0.1, 1)).margin(1e-9));
  CHECK(first_weight(learned_by({noted_season(0.4, 0.1), noted_season(0.4, 0.1)})) ==
        Approx(weight_by_hand(0.4, 0.1, 2)).margin(1e-9));
  const double power = unmoved_rules().earlier_seasons.neighbor_power;
  CHECK(first_weight(learned_by({}, {noted_season(0.4, 0.1, "next door")})) ==
        Approx(weight_by_hand(0.4, 0.1, 1, power)).margin(1e-9));
}

TEST_CASE("a season that says nothing changes nothing, and its doubt is the share of such seasons") {
  const LearnedRun result =
      learned_run(prior_of_two(), std::vector{noted_season(0.2, 0.2)}, {}, unmoved_rules());
  REQUIRE(result.run.members.size() == prior_of_two().members.size());
  std::vector<double> before;
  std::vector<double> after;
  for (const TargetMember& member : prior_of_two().members) before.push_back(member.curve.at(110));
  for (const TargetMember& member : result.run.members) after.push_back(member.curve.at(110));
  CHECK(before == after);
  CHECK(result.learned.days == Approx(0.0).margin(1e-9));
  CHECK(result.learned.seasons.front().doubt ==
        Approx(unmoved_rules().earlier_seasons.outlier_share).margin(1e-9));
}

TEST_CASE("no model dies, and one that a season was not run for neither gains nor loses") {
  const double before = first_weight(learned_by({noted_season(1.0, 1.0)}));
  const double kept = unmoved_rules().earlier_seasons.weight_kept;
  const std::vector<EarlierSeason> against(8, noted_season(1e-9, 1.0));
  CHECK(first_weight(learned_by(against)) >= kept * before);
  EarlierSeason unknown = noted_season(1e-9, 1.0);
  for (MemberFit& fit : unknown.members) {
    if (fit.model == prior_of_two().job.models.front().model) fit.model = nullptr;
  }
  CHECK(first_weight(learned_by({unknown})) > first_weight(learned_by({noted_season(1e-9, 1.0)})));
}

TEST_CASE("where hardly a member is left, members moved by some days join them") {
  constexpr double days_late = 14.0;
  double usual = 0.0;
  EarlierSeason late = noted_season(1.0, 1.0);
  for (const MemberFit& fit : late.members) usual += *fit.half / static_cast<double>(late.members.size());
  for (MemberFit& fit : late.members) {
    for (std::size_t i = 0; i < moves; ++i) {
      const double half = *fit.half + move_step_days * (static_cast<double>(i) - moves_a_side);
      fit.log_likelihood[i] = -0.5 * std::pow(half - usual - days_late, 2.0);  // known to a day
    }
  }
  const std::vector<EarlierSeason> seasons(3, late);
  const ScoutingRules& rules = tests::shipped_catalogue().scouting;
  const LearnedRun result = learned_run(prior_of_two(), seasons, {}, rules);
  CHECK(result.run.members.size() == prior_of_two().members.size());
  CHECK(result.learned.days == Approx(days_late).margin(3.0));
  const bool moved =
      std::any_of(result.run.members.begin(), result.run.members.end(), [](const auto& member) {
        const auto& own = prior_of_two().members[member.scenario].curve;
        return member.curve.first_day_reaching(0.5) != own.first_day_reaching(0.5);
      });
  CHECK(moved);
}

TEST_CASE("a rule out of range is refused with its place") {
  std::string text = tests::source_text(earlier_rule_file);
  const std::string good = "\"outlier_share\": {\"value\": 0.1";
  REQUIRE(text.find(good) != std::string::npos);
  CHECK(read_earlier_season_rule(text, earlier_rule_file));
  text.replace(text.find(good), good.size(), "\"outlier_share\": {\"value\": 1.1");
  const auto refused = read_earlier_season_rule(text, earlier_rule_file);
  REQUIRE(!refused);
  CHECK(refused.error().where.json_pointer == "/outlier_share/value");
}
