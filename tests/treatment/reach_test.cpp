// SPDX-License-Identifier: MIT
#include "treatment/reach.hpp"

#include <rapidcheck/catch.h>

#include "model_files.hpp"
#include "textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// The table was worked for warm days throughout.
ReachRules warm_rules() {
  ReachRules rules = shipped_rules();
  rules.kill.warmth.reset();
  return rules;
}

double points(const TextbookSeason& season, Kind kind, FoliarPartner partner, double half_life_days,
              int day) {
  Treatment treatment;
  treatment.kind = kind;
  treatment.partner = partner;
  treatment.residual_weeks = half_life_days * 2.5 / 7.0;
  static const ReachRules rules = warm_rules();
  return 100.0 * reach(season.cohorts(), treatment, TextbookSeason::day(day), rules).total;
}

}  // namespace

TEST_CASE("the worked table of reach by date comes out within four points") {
  // Arithmetic of an independent run of the same season, printed to whole points: days from 1 September, then
  // pre with half-lives of 20, 30 and 60 d, pre+post with a contact and a translocated partner (30 d), post
  // with either.
  struct TableRow {
    int day;
    double e, soil, pre20, pre30, pre60, mix_contact, mix_moving, post_contact, post_moving;
  };
  const std::vector<TableRow> table{
      {-35, 0, 26, 5, 42, 93, 42, 42, 0, 0},    {-14, 0, 25, 39, 80, 95, 80, 80, 0, 0},
      {0, 0, 24, 72, 91, 96, 91, 91, 0, 0},     {14, 3, 22, 85, 92, 94, 94, 94, 2, 2},
      {21, 5, 21, 86, 91, 91, 95, 95, 5, 5},    {28, 10, 20, 85, 87, 87, 95, 95, 9, 9},
      {35, 17, 19, 80, 81, 81, 95, 95, 15, 16}, {42, 27, 18, 71, 72, 72, 94, 95, 24, 25},
      {49, 40, 16, 60, 61, 61, 93, 95, 35, 37}, {56, 53, 15, 48, 48, 48, 91, 94, 46, 49},
      {63, 65, 14, 36, 36, 36, 89, 94, 56, 61}, {70, 75, 13, 26, 26, 26, 86, 93, 62, 69},
      {84, 86, 11, 14, 14, 14, 79, 92, 66, 78}, {98, 90, 9, 10, 10, 10, 73, 90, 63, 81},
      {126, 92, 6, 8, 8, 8, 63, 89, 55, 81},    {161, 95, 7, 5, 5, 5, 57, 88, 52, 83}};
  const TextbookSeason season;
  const auto contact = FoliarPartner::contact;
  const auto moving = FoliarPartner::translocated;
  double worst = 0.0;
  for (const TableRow& row : table) {
    INFO("day " << row.day << " from 1 September");
    CHECK(100.0 * TextbookSeason::emerged(row.day) == Approx(row.e).margin(2.0));
    const std::vector<std::pair<double, double>> pairs{
        {points(season, Kind::pre, contact, 20, row.day), row.pre20},
        {points(season, Kind::pre, contact, 30, row.day), row.pre30},
        {points(season, Kind::pre, contact, 60, row.day), row.pre60},
        {points(season, Kind::pre_post, contact, 30, row.day), row.mix_contact},
        {points(season, Kind::pre_post, moving, 30, row.day), row.mix_moving},
        {points(season, Kind::post, contact, 30, row.day), row.post_contact},
        {points(season, Kind::post, moving, 30, row.day), row.post_moving}};
    for (std::size_t column = 0; column < pairs.size(); ++column) {
      INFO("column " << column);
      CHECK(pairs[column].first == Approx(pairs[column].second).margin(4.0));
      worst = std::max(worst, std::abs(pairs[column].first - pairs[column].second));
    }
  }
  WARN("largest difference from the worked table: " << worst << " points");
}

TEST_CASE("the readings of the worked table hold") {
  const TextbookSeason season;
  const auto pre = [&](double half_life, int day) {
    return points(season, Kind::pre, FoliarPartner::contact, half_life, day);
  };
  const auto both = [&](FoliarPartner partner, int day) {
    return points(season, Kind::pre_post, partner, 30, day);
  };
  CHECK(pre(20, 21) > pre(20, 0));    // a short residual must wait
  CHECK(pre(60, -14) > pre(60, 28));  // a long one may go early
  CHECK(both(FoliarPartner::contact, 28) - pre(30, 28) > 5.0);
  CHECK(both(FoliarPartner::contact, 56) >= 89.0);
  CHECK(both(FoliarPartner::contact, 70) < 90.0);
  CHECK(both(FoliarPartner::translocated, 98) >= 88.0);
}

namespace {

/// A plain second route: cohort by cohort, day by day, without prefix sums or shared tables.
Reach slow_reach(const SeasonCohorts& c, const Treatment& t, Day day, const ReachRules& rules) {
  const auto at = (day - c.first).count();
  double foliar = 0.0;
  double residual = 0.0;
  for (long i = 0; i < static_cast<long>(c.emerging_share.size()); ++i) {
    const auto index = static_cast<std::size_t>(i);
    if (i <= at) {
      const double age = c.thermal_age_c_days[static_cast<std::size_t>(at)] - c.thermal_age_c_days[index];
      double kill = rules.kill.of(t.partner, stage_of(age, c.phyllochron_c_days, rules.kill.limits)).value() *
                    (1.0 - t.foliar_failure.value());
      if (t.kind == Kind::pre) {
        kill = at - i <= 4 ? rules.kill.young_seedlings.value() * (1.0 - t.residual_failure.value()) : 0.0;
      }
      foliar += c.emerging_share[index] * kill;
    } else if (t.kind != Kind::post) {
      const auto dose_left = [&](long applied) {
        double half_lives = 0.0;
        for (long d = applied + 1; d <= i; ++d) {
          half_lives += decay_factor(c.soil[static_cast<std::size_t>(d)]) / (t.residual_weeks * 7.0 / 2.5);
        }
        return std::pow(2.0, -half_lives);
      };
      double dose = t.first_dose * dose_left(at);
      if (t.second_dose && i > at + t.second_dose->days_later) {
        dose += t.second_dose->share_of_dose * dose_left(at + t.second_dose->days_later);
      }
      const bool active = i > at + *t.activation_delay_days;
      residual +=
          active ? c.emerging_share[index] * efficacy(dose) * (1.0 - t.residual_failure.value()) : 0.0;
    }
  }
  const double sum = foliar + residual;
  const double scale = sum > 0.95 ? 0.95 / sum : 1.0;
  return {sum * scale, foliar * scale, residual * scale};
}

Treatment any_treatment() {
  Treatment treatment;
  treatment.kind = *rc::gen::element(Kind::pre, Kind::pre_post, Kind::post);
  treatment.partner = *rc::gen::element(FoliarPartner::contact, FoliarPartner::translocated,
                                        FoliarPartner::mixture, FoliarPartner::non_selective);
  treatment.residual_weeks = *rc::gen::inRange(2, 30);
  treatment.foliar_failure = Fraction::from_percent(*rc::gen::inRange(0, 101));
  treatment.residual_failure = Fraction::from_percent(*rc::gen::inRange(0, 101));
  treatment.activation_delay_days = *rc::gen::inRange(0, 20);
  if (*rc::gen::arbitrary<bool>()) {
    treatment.first_dose = 0.5;
    treatment.second_dose = SecondDose{*rc::gen::inRange(1, 90), 0.5};
  }
  return treatment;
}

}  // namespace

TEST_CASE("the fast reach agrees with a plain cohort-by-cohort sum") {
  const TextbookSeason season;
  const ReachRules rules = warm_rules();
  rc::prop("total and both parts are the same to rounding", [&] {
    const Treatment treatment = any_treatment();
    const Day day =
        TextbookSeason::day(*rc::gen::inRange(TextbookSeason::first_day, TextbookSeason::last_day + 1));
    const Reach fast = reach(season.cohorts(), treatment, day, rules);
    const Reach slow = slow_reach(season.cohorts(), treatment, day, rules);
    RC_ASSERT(std::abs(fast.total - slow.total) < 1e-9);
    RC_ASSERT(std::abs(fast.foliar - slow.foliar) < 1e-9);
    RC_ASSERT(std::abs(fast.residual - slow.residual) < 1e-9);
  });
  rc::prop("reach is the sum of what is killed of each day's seedlings, up to the cap", [&] {
    Treatment treatment = any_treatment();
    const Day day =
        TextbookSeason::day(*rc::gen::inRange(TextbookSeason::first_day, TextbookSeason::last_day + 1));
    const SeasonCohorts cohorts = season.cohorts();
    const std::vector<double> killed =
        ReachTable{cohorts, treatment, rules}.killed_by_cohort(treatment.kind, day);
    double sum = 0.0;
    for (std::size_t i = 0; i < killed.size(); ++i) sum += killed[i] * cohorts.emerging_share[i];
    RC_ASSERT(std::abs(std::min(sum, 0.95) - reach(cohorts, treatment, day, rules).total) < 1e-9);
  });
}

TEST_CASE("laws of reach") {
  const TextbookSeason season;
  const ReachRules rules = shipped_rules();
  rc::prop("within 0 and the cap, parts add up, and a residual never takes away from post", [&] {
    Treatment treatment = any_treatment();
    const Day day = TextbookSeason::day(*rc::gen::inRange(-400, 700));
    const SeasonCohorts cohorts = season.cohorts();
    const auto row = ReachTable{cohorts, treatment, rules}.on(day);
    for (const Kind kind : all_kinds) {
      const Reach& reach = row.of(kind);
      RC_ASSERT(reach.total >= 0.0);
      RC_ASSERT(reach.total <= 0.95 + 1e-12);
      RC_ASSERT(std::abs(reach.foliar + reach.residual - reach.total) < 1e-12);
    }
    RC_ASSERT(row.of(Kind::pre_post).total >= row.of(Kind::post).total - 1e-12);
    Treatment worse = treatment;
    worse.residual_failure = failing(worse.residual_failure, Fraction::of(0.2));
    worse.foliar_failure = failing(worse.foliar_failure, Fraction::of(0.2));
    const auto worse_row = ReachTable{cohorts, worse, rules}.on(day);
    for (const Kind kind : all_kinds) RC_ASSERT(worse_row.of(kind).total <= row.of(kind).total + 1e-12);
  });
}

TEST_CASE("a residual that is never watered in reaches nothing that is still to come") {
  const TextbookSeason season;
  const ReachRules rules = warm_rules();
  Treatment treatment;
  treatment.kind = Kind::pre;
  const Day day = TextbookSeason::day(14);
  const double watered = reach(season.cohorts(), treatment, day, rules).total;
  treatment.activation_delay_days = 14;
  const double late = reach(season.cohorts(), treatment, day, rules).total;
  treatment.activation_delay_days.reset();
  CHECK(reach(season.cohorts(), treatment, day, rules).total == 0.0);
  CHECK(watered > late);
  CHECK(late > 0.5);
}

TEST_CASE("a split residual reaches further into the late flush than one full dose") {
  const TextbookSeason season;
  const ReachRules rules = warm_rules();
  Treatment whole;
  whole.kind = Kind::pre;
  whole.residual_weeks = 8.0;
  Treatment split = whole;
  split.first_dose = 0.5;
  split.second_dose = SecondDose{49, 0.5};
  const Day day = TextbookSeason::day(0);
  CHECK(reach(season.cohorts(), split, day, rules).total >
        reach(season.cohorts(), whole, day, rules).total + 0.02);
}

TEST_CASE("cold days take from the foliar part and not from the residual") {
  const TextbookSeason season;
  ReachRules rules = shipped_rules();
  Treatment treatment;
  treatment.partner = FoliarPartner::translocated;
  const Day january = TextbookSeason::day(140);
  const Reach cold = reach(season.cohorts(), treatment, january, rules);
  rules.kill.warmth.reset();
  const Reach warm = reach(season.cohorts(), treatment, january, rules);
  CHECK(cold.residual == warm.residual);
  CHECK(cold.foliar == Approx(0.55 * warm.foliar).epsilon(0.01));
}
