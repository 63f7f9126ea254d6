// SPDX-License-Identifier: MIT
#include "treatment/cautious_reach.hpp"

#include <rapidcheck/catch.h>

#include <deque>

#include "model_files.hpp"
#include "textbook_season.hpp"
#include "treatment/week_kind.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// Members around the textbook season: waves up to twelve days apart, leaf intervals and parts drawn.
class Members {
 public:
  Members(int count, const ReachSettings& settings, const KnownParts& known = {}) {
    const RandomField field{20240607};
    for (int i = 0; i < count; ++i) {
      const auto number = static_cast<std::uint64_t>(i);
      seasons_.emplace_back(4.0 * field.normal(99, number), 0.0, 60.0 + 30.0 * field.uniform(98, number));
      members_.push_back({seasons_.back().cohorts(), draw_parts(field, number, settings, known), 1.0});
    }
  }
  std::span<const Member> span() const { return members_; }

 private:
  std::deque<TextbookSeason> seasons_;
  std::vector<Member> members_;
};

const DayRange fall_and_winter{TextbookSeason::day(-60), TextbookSeason::day(230)};

}  // namespace

TEST_CASE("the best week of pre+post lies with part of the season up and after the best week of pre") {
  const ReachSettings settings = shipped_settings();
  const Members members{300, settings};
  const auto answer = cautious_reach(members.span(), fall_and_winter, {}, shipped_rules(), settings);
  const auto& pre = answer.best_of(Kind::pre);
  const auto& both = answer.best_of(Kind::pre_post);
  const auto& post = answer.best_of(Kind::post);
  REQUIRE(pre);
  REQUIRE(both);
  REQUIRE(post);
  CHECK(pre->week_of < both->week_of);
  CHECK(both->week_of < post->week_of);
  CHECK(both->points.low > pre->points.low);
  CHECK(both->points.low > post->points.low);
  CHECK(both->window_first <= both->week_of);
  CHECK(both->week_of <= both->window_last);
  CHECK(both->early != Limit::none);
  CHECK((both->late == Limit::stage || both->late == Limit::cold));
  CHECK(pre->early == Limit::residual_spent);
  CHECK(pre->late == Limit::plants_up);
  CHECK(post->early == Limit::plants_to_come);
  REQUIRE(both->cost_of_waiting[2]);
  CHECK(*both->cost_of_waiting[0] <= *both->cost_of_waiting[2]);
}

TEST_CASE("a weak residual moves the best week later and a weak foliar part earlier") {
  const ReachRules rules = shipped_rules();
  const ReachSettings settings = shipped_settings();
  const auto best = [&](double foliar_resistant, double residual_resistant) {
    KnownParts known;
    known.foliar_resistant = Fraction::of(foliar_resistant);
    known.residual_resistant = Fraction::of(residual_resistant);
    const Members members{200, settings, known};
    return cautious_reach(members.span(), fall_and_winter, {}, rules, settings)
        .best_of(Kind::pre_post)
        ->week_of;
  };
  const Day usual = best(0.0, 0.0);
  CHECK(best(0.0, 0.5) > usual);
  CHECK(best(0.4, 0.0) < usual);
}

TEST_CASE("kinds follow each other as a season goes: hold, pre, pre+post, post") {
  const ReachRules rules = shipped_rules();
  const ReachSettings settings = shipped_settings();
  const Members members{150, settings};
  const auto answer = cautious_reach(members.span(), fall_and_winter, {}, rules, settings);
  std::vector<WeekKind> order;
  for (const WeekReach& week : answer.weeks) {
    const WeekVerdict verdict = kind_of_week(week, rules, settings);
    if (order.empty() || order.back() != verdict.kind) order.push_back(verdict.kind);
    if (verdict.kind == WeekKind::post) CHECK(verdict.residual_would_add_points >= 0.0);
  }
  CHECK(order == std::vector{WeekKind::hold, WeekKind::pre, WeekKind::pre_post, WeekKind::post});
}

TEST_CASE("a logged October pre+post leaves little to reach and calls for a second pre once it is spent") {
  const ReachRules rules = shipped_rules();
  const ReachSettings settings = shipped_settings();
  const Members members{150, settings};
  const LoggedApplication october{TextbookSeason::day(45), {3, 14}, Kind::pre_post, 6.0, {}, 1.0, 0};
  const std::vector logged{october};
  const auto with = cautious_reach(members.span(), fall_and_winter, logged, rules, settings);
  const auto without = cautious_reach(members.span(), fall_and_winter, {}, rules, settings);
  bool second_pre_came = false;
  for (std::size_t i = 0; i < with.weeks.size(); ++i) {
    const WeekReach& week = with.weeks[i];
    CHECK(week.emerged.middle == without.weeks[i].emerged.middle);
    CHECK(week.of(Kind::pre_post).middle <= without.weeks[i].of(Kind::pre_post).middle + 1e-9);
    CHECK(week.logged_dose_left.has_value() == (week.week_of >= october.day));
    if (week.week_of < october.day) continue;
    const WeekVerdict verdict = kind_of_week(week, rules, settings);
    INFO(iso(week.week_of) << " dose left " << *week.logged_dose_left << ", to come "
                           << verdict.to_come_percent);
    const bool spent = *week.logged_dose_left < rules.residual.spent_below;
    if (verdict.kind == WeekKind::second_pre) {
      second_pre_came = true;
      CHECK(spent);
      CHECK(verdict.to_come_percent >= 5.0);
      CHECK(verdict.firm == (verdict.to_come_percent >= 10.0));
    }
  }
  CHECK(second_pre_came);
}

TEST_CASE("an application of another season changes nothing") {
  const ReachRules rules = shipped_rules();
  const ReachSettings settings = shipped_settings();
  const Members members{20, settings};
  const std::vector logged{
      LoggedApplication{TextbookSeason::day(45 - 365), {3}, Kind::pre, 12.0, {}, 1.0, 0}};
  const auto with = cautious_reach(members.span(), fall_and_winter, logged, rules, settings);
  const auto without = cautious_reach(members.span(), fall_and_winter, {}, rules, settings);
  for (std::size_t i = 0; i < with.weeks.size(); ++i) {
    CHECK(with.weeks[i].of(Kind::pre).low == without.weeks[i].of(Kind::pre).low);
    CHECK(!with.weeks[i].logged_dose_left);
  }
}

TEST_CASE("ties within a point go to the earlier week and the window is one run of weeks") {
  ReachSettings settings;
  std::vector<WeekReach> weeks(8);
  const std::vector<double> lows{10, 50, 56, 59.5, 60, 56, 40, 59};
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    weeks[i].week_of = make_day(2025, 9, 1) + Days{7 * static_cast<int>(i)};
    weeks[i].points[1] = {lows[i], lows[i] + 10, lows[i] + 20};
  }
  const auto best = best_week(weeks, Kind::pre_post, settings);
  REQUIRE(best);
  CHECK(best->week_of == weeks[3].week_of);
  CHECK(best->window_first == weeks[2].week_of);
  CHECK(best->window_last == weeks[5].week_of);
  CHECK(best->cost_of_waiting[0] == 0.0);
  CHECK(*best->cost_of_waiting[1] == Approx(3.5));
  CHECK(*best->cost_of_waiting[2] == Approx(19.5));
  CHECK(!best_week(weeks, Kind::pre, settings));
  CHECK(!best_week(std::span<const WeekReach>{}, Kind::pre, settings));
}

TEST_CASE("no members or no days give an empty answer") {
  const ReachRules rules = shipped_rules();
  CHECK(cautious_reach({}, fall_and_winter, {}, rules, {}).weeks.empty());
  const Members members{3, {}};
  CHECK(cautious_reach(members.span(), DayRange{}, {}, rules, {}).weeks.empty());
}

TEST_CASE("the weighted quantile agrees with repeating values as often as they weigh") {
  rc::prop("whole-number weights", [] {
    const auto values = *rc::gen::nonEmpty<std::vector<int>>();
    std::vector<double> plain(values.begin(), values.end());
    std::vector<double> weights;
    std::vector<double> repeated;
    for (const double value : plain) {
      const int times = *rc::gen::inRange(1, 5);
      weights.push_back(times);
      repeated.insert(repeated.end(), static_cast<std::size_t>(times), value);
    }
    std::sort(repeated.begin(), repeated.end());
    std::vector<std::size_t> order;
    for (const double share : {0.1, 0.5, 0.9}) {
      const auto at =
          static_cast<std::size_t>(std::ceil(share * static_cast<double>(repeated.size()) - 1e-9));
      RC_ASSERT(weighted_quantile(plain, weights, share, order) == repeated[at - 1]);
    }
  });
}

TEST_CASE("the settings that come along are the ones the program starts with") {
  const ReachSettings shipped = shipped_settings();
  const ReachSettings built_in;
  CHECK(shipped.foliar_failure_most == built_in.foliar_failure_most);
  CHECK(shipped.residual_failure_most == built_in.residual_failure_most);
  CHECK(shipped.residual_weeks_least == built_in.residual_weeks_least);
  CHECK(shipped.residual_weeks_most == built_in.residual_weeks_most);
  CHECK(shipped.window_points == built_in.window_points);
}
