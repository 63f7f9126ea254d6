// SPDX-License-Identifier: MIT
#include "treatment/expected_control.hpp"

#include <rapidcheck/catch.h>

#include <numeric>

#include "model_files.hpp"
#include "support/plain_control.hpp"
#include "support/textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// The table was worked for warm days throughout.
GrassControl warm_grass() {
  GrassControl grass = shipped_control();
  grass.warmth.reset();
  return grass;
}

/// A foliar row that does all it can with one residual: the best dated trials, decay in soil as the European
/// median has it.
DrawnTreatment sure_treatment(const std::string& row, double residual_weeks) {
  constexpr double greatest = 0.96;
  constexpr double activation_energy = 65400.0;
  return {shipped_control().row(row)->kill, {{3, residual_weeks, activation_energy, greatest}}};
}

double points(const TextbookSeason& season, Kind kind, const std::string& row, double half_life_days,
              int day) {
  static const GrassControl grass = warm_grass();
  static const ResidualRule rule = shipped_residual();
  const DrawnTreatment drawn = sure_treatment(row, half_life_days * rule.half_lives_of_use / 7.0);
  const SeasonCohorts cohorts = season.cohorts();
  return 100.0 * ExpectedControl{cohorts, drawn, grass, rule}.on(TextbookSeason::day(day))[index_of(kind)];
}

}  // namespace

TEST_CASE("the worked table of control by date comes out within four points") {
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
  const TextbookSeason season{bluegrass_growth()};
  double worst = 0.0;
  for (const TableRow& row : table) {
    INFO("day " << row.day << " from 1 September");
    CHECK(100.0 * TextbookSeason::emerged(row.day) == Approx(row.e).margin(2.0));
    const std::vector<std::pair<double, double>> pairs{
        {points(season, Kind::pre, "contact", 20, row.day), row.pre20},
        {points(season, Kind::pre, "contact", 30, row.day), row.pre30},
        {points(season, Kind::pre, "contact", 60, row.day), row.pre60},
        {points(season, Kind::pre_post, "contact", 30, row.day), row.mix_contact},
        {points(season, Kind::pre_post, "translocated", 30, row.day), row.mix_moving},
        {points(season, Kind::post, "contact", 30, row.day), row.post_contact},
        {points(season, Kind::post, "translocated", 30, row.day), row.post_moving}};
    for (std::size_t column = 0; column < pairs.size(); ++column) {
      INFO("column " << column);
      CHECK(pairs[column].first == Approx(pairs[column].second).margin(4.0));
      worst = std::max(worst, std::abs(pairs[column].first - pairs[column].second));
    }
  }
  WARN("largest difference from the worked table: " << worst << " points");
}

TEST_CASE("the readings of the worked table hold") {
  const TextbookSeason season{bluegrass_growth()};
  const auto pre = [&](double half_life, int day) {
    return points(season, Kind::pre, "contact", half_life, day);
  };
  const auto both = [&](const std::string& row, int day) {
    return points(season, Kind::pre_post, row, 30, day);
  };
  CHECK(pre(20, 21) > pre(20, 0));    // a short residual must wait
  CHECK(pre(60, -14) > pre(60, 28));  // a long one may go early
  CHECK(both("contact", 28) - pre(30, 28) > 5.0);
  CHECK(both("contact", 56) >= 89.0);
  CHECK(both("contact", 70) < 90.0);
  CHECK(both("translocated", 98) >= 88.0);
}

namespace {

Fraction any_share() { return Fraction::from_percent(*rc::gen::inRange(0, 101)); }

ResidualDraw any_residual(int group) {
  return {group, static_cast<double>(*rc::gen::inRange(2, 30)), 1000.0 * *rc::gen::inRange(28, 66),
          any_share().value()};
}

DrawnTreatment any_treatment() {
  DrawnTreatment drawn;
  for (Fraction& kill : drawn.kill) kill = any_share();
  const int residuals = *rc::gen::inRange(0, 4);
  for (int group = 1; group <= residuals; ++group) drawn.residuals.push_back(any_residual(group));
  return drawn;
}

Day any_day_of_season() {
  return TextbookSeason::day(*rc::gen::inRange(TextbookSeason::first_day, TextbookSeason::last_day + 1));
}

}  // namespace

TEST_CASE("the fast sum agrees with a plain cohort-by-cohort one") {
  const TextbookSeason season{bluegrass_growth()};
  const SeasonCohorts cohorts = season.cohorts();
  const GrassControl grass = shipped_control();
  const ResidualRule rule = shipped_residual();
  rc::prop("every kind is the same to rounding, cold days and all", [&] {
    const DrawnTreatment drawn = any_treatment();
    const Day day = any_day_of_season();
    const auto fast = ExpectedControl{cohorts, drawn, grass, rule}.on(day);
    for (const Kind kind : all_kinds) {
      const double plain = tests::plain_control(cohorts, drawn, grass, rule, kind, day);
      RC_ASSERT(std::abs(fast[index_of(kind)] - plain) < 1e-9);
    }
  });
  rc::prop("control of post is the sum of what is killed of each day's seedlings, up to the cap", [&] {
    const DrawnTreatment drawn = any_treatment();
    const Day day = any_day_of_season();
    const ExpectedControl control{cohorts, drawn, grass, rule};
    const std::vector<double> killed = killed_of_those_up(cohorts, drawn, grass, Kind::post, day);
    const double sum = std::inner_product(killed.begin(), killed.end(), cohorts.emerging_share.begin(), 0.0);
    RC_ASSERT(std::abs(std::min(sum, grass.cap.value()) - control.on(day)[index_of(Kind::post)]) < 1e-9);
  });
}

TEST_CASE("laws of expected control") {
  const TextbookSeason season{bluegrass_growth()};
  const SeasonCohorts cohorts = season.cohorts();
  const GrassControl grass = shipped_control();
  const ResidualRule rule = shipped_residual();
  const auto control = [&](const DrawnTreatment& drawn, Day day) {
    return ExpectedControl{cohorts, drawn, grass, rule}.on(day);
  };
  rc::prop("it lies between none and the cap, and is none outside the season", [&] {
    const Day day = TextbookSeason::day(*rc::gen::inRange(-400, 700));
    for (const double share : control(any_treatment(), day)) {
      RC_ASSERT(share >= 0.0);
      RC_ASSERT(share <= grass.cap.value());
      RC_ASSERT(cohorts.days().contains(day) || share == 0.0);
    }
  });
  rc::prop("a residual never takes away from post, nor a foliar part from pre", [&] {
    const auto on = control(any_treatment(), any_day_of_season());
    RC_ASSERT(on[index_of(Kind::pre_post)] >= on[index_of(Kind::post)]);
    RC_ASSERT(on[index_of(Kind::pre_post)] >= on[index_of(Kind::pre)] - 1e-12);
  });
  rc::prop("what works less, lasts less or lacks a residual never controls more", [&] {
    const DrawnTreatment drawn = any_treatment();
    DrawnTreatment worse = drawn;
    const auto change = *rc::gen::inRange(0, 4);
    for (Fraction& kill : worse.kill) {
      if (change == 0) kill = Fraction::of(0.8 * kill.value());
    }
    for (ResidualDraw& part : worse.residuals) {
      if (change == 1) part.works *= 0.8;
      if (change == 2) part.weeks *= 0.8;
    }
    if (change == 3 && !worse.residuals.empty()) worse.residuals.pop_back();
    const Day day = any_day_of_season();
    const auto before = control(drawn, day);
    const auto after = control(worse, day);
    for (std::size_t kind = 0; kind < kind_count; ++kind) RC_ASSERT(after[kind] <= before[kind] + 1e-12);
  });
}

TEST_CASE("two residuals of different groups act one after the other") {
  // 20 C throughout and one cohort, ten days after: each half-life of 20 d leaves a dose of 2^-0.5.
  const std::vector<double> share{0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0};
  const std::vector<double> age(11, 0.0);
  const std::vector<Temperature> warm(11, Temperature::from_celsius(20.0));
  const SeasonCohorts cohorts{make_day(2021, 9, 1), share, age, warm, warm, 1.0, bluegrass_growth().limits};
  const GrassControl grass = shipped_control();
  const ResidualRule rule = shipped_residual();
  const double weeks = 20.0 * rule.half_lives_of_use / 7.0;
  const DrawnTreatment drawn{{}, {{3, weeks, 50000.0, 0.6}, {14, weeks, 50000.0, 0.5}}};
  const double effect = dose_effect(std::exp2(-0.5), rule);
  const auto on = ExpectedControl{cohorts, drawn, grass, rule}.on(cohorts.first);
  CHECK(on[index_of(Kind::pre)] == Approx(1.0 - (1.0 - 0.6 * effect) * (1.0 - 0.5 * effect)));
  CHECK(on[index_of(Kind::post)] == 0.0);
}

TEST_CASE("cold days take from the foliar part and not from the residual") {
  const TextbookSeason season{bluegrass_growth()};
  const SeasonCohorts cohorts = season.cohorts();
  const ResidualRule rule = shipped_residual();
  const GrassControl cold_counts = shipped_control();
  const GrassControl warm = warm_grass();
  const DrawnTreatment drawn = sure_treatment("translocated", 12.0);
  const Day january = TextbookSeason::day(140);
  const auto cold_day = ExpectedControl{cohorts, drawn, cold_counts, rule}.on(january);
  const auto warm_day = ExpectedControl{cohorts, drawn, warm, rule}.on(january);
  CHECK(cold_day[index_of(Kind::pre)] == warm_day[index_of(Kind::pre)]);
  CHECK(cold_day[index_of(Kind::post)] ==
        Approx(cold_counts.warmth->least * warm_day[index_of(Kind::post)]).epsilon(0.01));
}

TEST_CASE("a foliar part takes the warmest days of its week, a residual does not care") {
  const ResidualRule rule = shipped_residual();
  const GrassControl grass = shipped_control();
  // One cohort up from the start; a freeze that ends on the fifth day.
  std::vector<double> share(20, 0.0);
  share.front() = 1.0;
  const std::vector<double> age(20, 0.0);
  std::vector<Temperature> air_max(20, Temperature::from_celsius(0.0));
  std::fill(air_max.begin() + 4, air_max.end(), Temperature::from_celsius(25.0));
  const std::vector<Temperature> soil(20, Temperature::from_celsius(8.0));
  const SeasonCohorts cohorts{make_day(2021, 1, 4),     share, age, soil, air_max, 1.0,
                              bluegrass_growth().limits};
  const DrawnTreatment drawn = sure_treatment("translocated", 12.0);
  const ExpectedControl control{cohorts, drawn, grass, rule};
  const auto on_day = [&](int day, int days) { return control.on(cohorts.first + Days{day}, days); };
  CHECK(on_day(0, 7)[index_of(Kind::post)] == on_day(4, 1)[index_of(Kind::post)]);
  CHECK(on_day(0, 7)[index_of(Kind::post)] == Approx(drawn.kill[0].value()));
  CHECK(on_day(0, 1)[index_of(Kind::post)] < 0.9 * drawn.kill[0].value());
  CHECK(on_day(0, 7)[index_of(Kind::pre)] == on_day(0, 1)[index_of(Kind::pre)]);
}

TEST_CASE("days are ages for a grass that counts days") {
  const GrassControl goosegrass = shipped_control("goosegrass");
  const ResidualRule rule = shipped_residual();
  // All seedlings up on the first day; the first stage ends after ten and a half days.
  std::vector<double> share(30, 0.0);
  share.front() = 1.0;
  std::vector<double> age(30);
  std::iota(age.begin(), age.end(), 0.0);
  const std::vector<Temperature> warm(30, Temperature::from_celsius(25.0));
  const SeasonCohorts cohorts{
      make_day(2021, 5, 1), share, age, warm, warm, 1.0, shipped_growth("ELEIN_stage_days").limits};
  const DrawnTreatment drawn{goosegrass.row("unnamed")->kill, {}};
  const ExpectedControl control{cohorts, drawn, goosegrass, rule};
  const auto post_after = [&](int days) {
    return control.on(cohorts.first + Days{days})[index_of(Kind::post)];
  };
  CHECK(post_after(10) == Approx(drawn.kill[0].value()));
  CHECK(post_after(11) == Approx(drawn.kill[1].value()));
  CHECK(post_after(22) == Approx(drawn.kill[2].value()));
}
