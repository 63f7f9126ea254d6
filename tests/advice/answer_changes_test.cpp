// SPDX-License-Identifier: MIT
#include "advice/answer/answer_changes.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>

#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using treatment::Kind;

namespace {

const Day changes_monday = make_day(2026, 10, 12);
const Day changes_today = changes_monday + Days{3};
const Day changes_season = make_day(2026, 6, 21);

const ChangeRules& change_rules() { return tests::shipped_catalogue().practice.changes; }

MondaySpan weeks_from(int week) {
  return {changes_monday + one_week * week, changes_monday + one_week * (week + 2)};
}

/// Pre, best from the week so many weeks from this one.
TargetAnswer answer_now(Action action, int best_from, Kind kind = Kind::pre) {
  TargetAnswer answer;
  answer.season_start = changes_season;
  answer.decision.action = action;
  if (action == Action::nothing_left) return answer;
  answer.decision.kind = kind;
  answer.decision.best_range = weeks_from(best_from);
  return answer;
}

EarlierAnswer answer_before(Action action, int best_from, Kind kind = Kind::pre) {
  return {changes_today - one_week, changes_season, action, kind, weeks_from(best_from)};
}

std::vector<ChangeKind> kinds_of(const std::optional<ChangesSince>& since) {
  REQUIRE(since);
  std::vector<ChangeKind> kinds;
  for (const AnswerChange& change : since->changes) kinds.push_back(change.what);
  return kinds;
}

std::optional<ChangesSince> compared(const TargetAnswer& now, const EarlierAnswer& earlier) {
  return changes_since(now, changes_today, earlier, change_rules());
}

using Kinds = std::vector<ChangeKind>;

}  // namespace

TEST_CASE("what stands as it stood is no change") {
  const auto since = compared(answer_now(Action::wait, 3), answer_before(Action::wait, 3));
  CHECK(kinds_of(since).empty());
  CHECK(since->since == changes_today - one_week);
  CHECK(changes_words(*since).empty());
  CHECK(kinds_of(compared(answer_now(Action::treat, 0), answer_before(Action::treat, 0))).empty());
}

TEST_CASE("treatment that is called for now and was not is a change, and the other way round is none") {
  const auto since = compared(answer_now(Action::treat, 0), answer_before(Action::any_week, 0));
  CHECK(kinds_of(since) == Kinds{ChangeKind::newly_urgent});
  CHECK(changes_words(*since) == "treat this week (was: any week)");
  CHECK(kinds_of(compared(answer_now(Action::any_week, 0), answer_before(Action::treat, 0))).empty());
}

TEST_CASE("best weeks have moved when they begin more than a week earlier or later") {
  CHECK(kinds_of(compared(answer_now(Action::wait, 4), answer_before(Action::wait, 3))).empty());
  CHECK(kinds_of(compared(answer_now(Action::wait, 2), answer_before(Action::wait, 3))).empty());
  const auto later = compared(answer_now(Action::wait, 5), answer_before(Action::wait, 3));
  CHECK(kinds_of(later) == Kinds{ChangeKind::best_weeks_moved});
  CHECK(changes_words(*later) == "best weeks Nov 16 to Dec 6 (were Nov 2 to Nov 22)");
  CHECK(kinds_of(compared(answer_now(Action::wait, 1), answer_before(Action::wait, 3))) ==
        Kinds{ChangeKind::best_weeks_moved});
}

TEST_CASE("best weeks that have begun do not move because time passes") {
  CHECK(kinds_of(compared(answer_now(Action::treat, 0), answer_before(Action::treat, -5))).empty());
  CHECK(kinds_of(compared(answer_now(Action::any_week, 4), answer_before(Action::any_week, -5))) ==
        Kinds{ChangeKind::best_weeks_moved});
}

TEST_CASE("another kind of treatment is a change, named with the one before") {
  const auto since =
      compared(answer_now(Action::wait, 3, Kind::pre_post), answer_before(Action::wait, 3, Kind::pre));
  CHECK(kinds_of(since) == Kinds{ChangeKind::kind_changed});
  CHECK(changes_words(*since) == "pre+post (was: pre)");
  EarlierAnswer without = answer_before(Action::no_single_week, 0);
  without.kind.reset();
  without.best_range.reset();
  CHECK(kinds_of(compared(answer_now(Action::wait, 3), without)).empty());
}

TEST_CASE("a season that is finished since is one change, told once") {
  CHECK(kinds_of(compared(answer_now(Action::nothing_left, 0), answer_before(Action::treat, 0))) ==
        Kinds{ChangeKind::newly_finished});
  CHECK(kinds_of(compared(answer_now(Action::nothing_left, 0), answer_before(Action::nothing_left, 0)))
            .empty());
}

TEST_CASE("answers of the same day, of later ones, of another season or none at all are not compared") {
  const TargetAnswer now = answer_now(Action::treat, 0);
  EarlierAnswer earlier = answer_before(Action::wait, 3);
  earlier.on = changes_today;
  CHECK(!compared(now, earlier));
  earlier.on = changes_today + Days{1};
  CHECK(!compared(now, earlier));
  earlier = answer_before(Action::wait, 3);
  earlier.season_start = changes_season - Days{365};
  CHECK(!compared(now, earlier));
  TargetAnswer refused = now;
  refused.refusal = Problem{};
  CHECK(!compared(refused, answer_before(Action::wait, 3)));
}

TEST_CASE("what changed over many sites is listed in their order, with the latest day compared with") {
  const auto changed = [](Action before, int days_ago) {
    EarlierAnswer earlier = answer_before(before, 0);
    earlier.on = changes_today - Days{days_ago};
    TargetAnswer target = answer_now(Action::treat, 0);
    target.changed = compared(target, earlier);
    return target;
  };
  SiteAnswer first;
  first.targets = {changed(Action::treat, 2), changed(Action::wait, 9)};
  SiteAnswer second;
  second.targets = {changed(Action::wait, 5), answer_now(Action::wait, 0)};
  const std::vector<SiteAnswer> sites{first, second};
  const auto found = changed_targets(sites);
  REQUIRE(found.size() == 2);
  CHECK((found[0].site == 0 && found[0].target == 1 && found[1].site == 1 && found[1].target == 0));
  CHECK(found[0].since == changes_today - Days{9});
  CHECK(compared_with(sites) == changes_today - Days{2});
  CHECK(!compared_with(std::span{sites}.subspan(2)));
}

TEST_CASE("an answer compared with itself has no change") {
  rc::prop("whatever was said", [] {
    const auto action =
        *rc::gen::element(Action::treat, Action::any_week, Action::wait, Action::nothing_left);
    const auto kind = *rc::gen::element(Kind::pre, Kind::pre_post, Kind::post);
    const TargetAnswer now = answer_now(action, *rc::gen::inRange(0, 12), kind);
    const EarlierAnswer earlier{changes_today - Days{*rc::gen::inRange(1, 90)}, changes_season, action,
                                now.decision.kind, now.decision.best_range};
    const auto since = compared(now, earlier);
    RC_ASSERT(since.has_value());
    RC_ASSERT(since->changes.empty());
  });
}
