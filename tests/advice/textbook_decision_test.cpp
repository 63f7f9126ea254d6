// SPDX-License-Identifier: MIT
// Decisions over a season whose course is known by formula.
#include <catch2/catch.hpp>
#include <deque>

#include "control_points.hpp"
#include "support/textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;
using treatment::TextbookSeason;

namespace {

/// Waves up to twelve days apart, phyllochrons drawn.
class Members {
 public:
  explicit Members(int count) {
    const RandomField field{20240607};
    for (int i = 0; i < count; ++i) {
      const auto number = static_cast<std::uint64_t>(i);
      seasons_.emplace_back(4.0 * field.normal(99, number), 0.0, 60.0 + 30.0 * field.uniform(98, number));
      cohorts_.push_back(seasons_.back().cohorts());
    }
  }
  std::span<const treatment::SeasonCohorts> span() const { return cohorts_; }

 private:
  std::deque<TextbookSeason> seasons_;
  std::vector<treatment::SeasonCohorts> cohorts_;
};

const std::vector<Day>& season_weeks() {
  static const std::vector<Day> days = mondays(TextbookSeason::day(-60), make_day(2022, 2, 28));
  return days;
}

Weeks table_of(const treatment::TreatmentParts& parts) {
  static const Members members{200};
  return control_table(members.span(), parts, season_weeks());
}

/// The decision of every Monday, the weeks before it passed.
std::vector<Decision> week_by_week(const Weeks& table) {
  std::vector<Decision> decisions;
  for (std::size_t week = 0; week < table.size(); ++week) {
    const std::span all{table};
    decisions.push_back(decide(all.subspan(week), all.first(week), shipped_rules()));
  }
  return decisions;
}

}  // namespace

TEST_CASE("the best week of pre comes before that of pre+post, and that before post") {
  const Weeks table = table_of(unnamed_bluegrass_parts());
  const BestWeek pre = best_week(table, Kind::pre);
  const BestWeek both = best_week(table, Kind::pre_post);
  const BestWeek post = best_week(table, Kind::post);
  CHECK(pre.week_of < both.week_of);
  CHECK(both.week_of < post.week_of);
  CHECK(both.score > pre.score);
  CHECK(both.score > post.score);
}

TEST_CASE("a weak residual moves the best week later and a weak foliar part earlier") {
  const auto best = [](double foliar_resistant, double residual_resistant) {
    treatment::TreatmentParts parts = unnamed_bluegrass_parts();
    parts.foliar.front().resistant = Fraction::of(foliar_resistant);
    parts.residual.front().resistant = Fraction::of(residual_resistant);
    return best_week(table_of(parts), Kind::pre_post).week_of;
  };
  const Day usual = best(0.0, 0.0);
  CHECK(best(0.0, 0.5) > usual);
  CHECK(best(0.4, 0.0) < usual);
}

TEST_CASE("through a season: wait, then go, then late, then nothing left, and the kind never goes back") {
  const Weeks table = table_of(unnamed_bluegrass_parts());
  const std::vector<Decision> decisions = week_by_week(table);
  CHECK(decisions.front().action == Action::wait);
  const auto called = [&](std::size_t week) {
    return calls_for_treatment(decisions[week], table[week].week_of);
  };
  std::size_t first = 0;
  while (first < decisions.size() && !called(first)) ++first;
  REQUIRE(first < decisions.size());
  INFO("first call " << iso(table[first].week_of) << ": " << shown(decisions[first]));
  // The season's best is what an obedient manager gets, to a point.
  const Kind kind = *decisions[first].kind;
  CHECK(*table[first].score(kind) >= best_week(table, kind).score - shipped_rules().range_within);
  CHECK(*table[first].score(kind) >= best_week(table, Kind::pre_post).score - shipped_rules().part_worth);
  CHECK(!decisions[first].late);
  bool late = false;
  for (std::size_t week = first + 1; week < decisions.size(); ++week) {
    const Decision& d = decisions[week];
    INFO(iso(table[week].week_of) << ": " << shown(d));
    CHECK(d.action != Action::wait);
    CHECK((!late || d.late));
    late = d.late.has_value();
    if (d.kind && decisions[week - 1].kind) CHECK(*d.kind >= *decisions[week - 1].kind);
  }
  CHECK(late);
}

TEST_CASE("what was put down in October leaves little to treat for") {
  static const Members members{100};
  const treatment::TreatmentRules rules = bluegrass_rules();
  const RandomField random{20240607};
  const Day october = TextbookSeason::day(45);
  std::deque<std::vector<double>> left;
  std::vector<treatment::SeasonCohorts> net{members.span().begin(), members.span().end()};
  for (std::size_t i = 0; i < net.size(); ++i) {
    treatment::LoggedApplication noted;
    noted.day = october;
    noted.kind = Kind::pre_post;
    noted.drawn = treatment::draw_treatment(random, i, unnamed_bluegrass_parts(), rules);
    left.push_back(treatment::surviving_shares(net[i], std::vector{noted}, *rules.grass, *rules.residual));
    net[i].emerging_share = left.back();
  }
  const std::vector<Day> weeks = mondays(october, make_day(2022, 2, 28));
  const Weeks with = control_table(net, unnamed_bluegrass_parts(), weeks);
  const Weeks without = control_table(members.span(), unnamed_bluegrass_parts(), weeks);
  for (std::size_t week = 0; week < with.size(); ++week) {
    for (const Kind kind : treatment::all_kinds) CHECK(*with[week].score(kind) <= *without[week].score(kind));
  }
  // Nothing stops what the mixture missed as well as it would have the whole season.
  CHECK(best_week(with, Kind::pre_post).score < 0.4 * best_week(without, Kind::pre_post).score);
}
