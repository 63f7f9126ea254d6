// SPDX-License-Identifier: MIT
#include "advice/scouting/scouting.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "advice/answer/windows.hpp"
#include "advice/ensemble/quantiles.hpp"
#include "support/clock_ensemble.hpp"
#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

constexpr std::uint64_t seed = 1;
const Day after_all = make_day(2021, 12, 1);

const ScoutingRules& scouting_rules() { return tests::shipped_catalogue().scouting; }

const TargetRun& ensemble() {
  static const tests::ClockModels models;
  static const TargetRun run = tests::clock_ensemble(models, 400, seed);
  return run;
}

LoggedCount count_on(Day day, std::vector<int> counts) {
  LoggedCount count;
  count.day = day;
  count.target = "POAAN";
  count.counts = std::move(counts);
  count.plot_area_m2 = 0.1;
  return count;
}

SiteLog log_of(std::vector<LoggedCount> counts) {
  SiteLog log;
  log.counts = std::move(counts);
  return log;
}

TargetRun scouted(const SiteLog& log) {
  ScoutedRun result = scouted_run(ensemble(), log, after_all, scouting_rules(), seed);
  REQUIRE(result.run);
  REQUIRE(result.run->members.size() == ensemble().members.size());
  return *std::move(result.run);
}

DateBand half(const TargetRun& run) { return date_reaching(run, 0.5); }
int width(const DateBand& band) { return static_cast<int>((*band.high - *band.low).count()); }

/// Ten plots with what the ensemble's middle course would bring at 150 plants a square meter.
LoggedCount as_the_middle(Day day) {
  const Day middle = *half(ensemble()).middle;
  const auto is_middle = [&](const TargetMember& member) {
    return ensemble().season.first + Days{*member.curve.first_day_reaching(0.5)} == middle;
  };
  const auto& members = ensemble().members;
  const auto member = std::find_if(members.begin(), members.end(), is_middle);
  const double share = share_met(member->curve, {ensemble().season.day_of_season(day), false, {}});
  std::vector<int> counts;
  for (const double patch : {0.1, 0.3, 0.5, 0.7, 0.9, 1.0, 1.1, 1.3, 1.8, 2.3}) {
    counts.push_back(static_cast<int>(std::lround(15.0 * share * patch)));
  }
  return count_on(day, counts);
}

Band<double> band_up(const TargetRun& run, Day day) {
  std::vector<double> up;
  for (const TargetMember& member : run.members) up.push_back(member.curve.at(run.season.day_of_season(day)));
  return band_of(up);
}

std::vector<double> all_courses(const TargetRun& run) {
  std::vector<double> values;
  for (const TargetMember& member : run.members) {
    values.push_back(member.phyllochron);
    values.insert(values.end(), member.curve.up.begin(), member.curve.up.end());
  }
  return values;
}

bool said(const std::vector<Remark>& remarks, const std::string& code) {
  return std::any_of(remarks.begin(), remarks.end(),
                     [&](const Remark& remark) { return remark.code == code; });
}

}  // namespace

TEST_CASE("counts that fit the middle of the ensemble narrow the band and leave its middle") {
  const DateBand before = half(ensemble());
  const Day day = *before.middle;
  const DateBand after = half(scouted(
      log_of({as_the_middle(day - Days{7}), as_the_middle(day + Days{2}), as_the_middle(day + Days{12})})));
  CHECK(width(after) <= 0.8 * width(before));
  CHECK(*after.middle >= day - Days{2});
  CHECK(*after.middle <= day + Days{2});
}

TEST_CASE("none found moves the wave later, the more so the more plots were looked at") {
  const Day day = *half(ensemble()).middle;
  const Day few = *half(scouted(log_of({count_on(day, {0, 0})}))).middle;
  const Day many = *half(scouted(log_of({count_on(day, std::vector<int>(30, 0))}))).middle;
  CHECK(few > day);
  CHECK(many > few);
}

TEST_CASE("the order in which counts were noted does not matter, nor how the plots of a day are split") {
  const Day day = *half(ensemble()).middle;
  const LoggedCount first = count_on(day - Days{8}, {0, 1, 0, 2});
  const LoggedCount second = count_on(day, {4, 2, 0, 7});
  LoggedCount fresh = count_on(day + Days{6}, {1, 3});
  fresh.fresh = true;
  LoggedCount part = second;
  part.counts = {7, 4};
  LoggedCount rest = second;
  rest.counts = {0, 2};
  const auto together = all_courses(scouted(log_of({first, second, fresh})));
  CHECK(all_courses(scouted(log_of({fresh, second, first}))) == together);
  const DateBand split = half(scouted(log_of({rest, fresh, first, part})));
  const DateBand whole = half(scouted(log_of({first, second, fresh})));
  CHECK(split.low == whole.low);
  CHECK(split.middle == whole.middle);
  CHECK(split.high == whole.high);
}

TEST_CASE("counts move the members of one seed the same way each time") {
  const SiteLog log = log_of({count_on(*half(ensemble()).middle, {0, 3, 5, 0, 1})});
  CHECK(all_courses(scouted(log)) == all_courses(scouted(log)));
}

TEST_CASE("only counts of this target and season before the day of the answer are used") {
  const Day day = make_day(2021, 10, 5);
  LoggedCount other = count_on(day, {1});
  other.target = "DIGIS";
  for (const LoggedCount& count : {other, count_on(after_all, {1}), count_on(make_day(2020, 10, 5), {1}),
                                   count_on(make_day(2021, 6, 20), {1})}) {
    const ScoutedRun result = scouted_run(ensemble(), log_of({count}), after_all, scouting_rules(), seed);
    CHECK(!result.run);
    CHECK(result.remarks.empty());
  }
  CHECK(
      scouted_run(ensemble(), log_of({count_on(after_all - Days{1}, {1})}), after_all, scouting_rules(), seed)
          .run);
  CHECK(!scouted_run(ensemble(), {}, after_all, scouting_rules(), seed).run);
}

TEST_CASE("counts after a treatment of the season are left out and said so, those before are kept") {
  SiteLog log =
      log_of({count_on(make_day(2021, 10, 5), {3, 0, 4}), count_on(make_day(2021, 10, 20), {0, 0, 0})});
  SiteApplication treated;
  treated.day = make_day(2021, 10, 5);
  log.applications.push_back(treated);
  const ScoutedRun result = scouted_run(ensemble(), log, after_all, scouting_rules(), seed);
  CHECK(said(result.remarks, "counts-after-treatment"));
  REQUIRE(result.run);
  CHECK(all_courses(*result.run) == all_courses(scouted(log_of({log.counts.front()}))));
  log.applications.front().day = make_day(2021, 3, 5);  // last season
  CHECK(!said(scouted_run(ensemble(), log, after_all, scouting_rules(), seed).remarks,
              "counts-after-treatment"));
}

TEST_CASE("counts no member fits are answered by moved members, and the wave follows the field") {
  const Day late = *half(ensemble()).high + Days{6};
  const SiteLog log = log_of(
      {count_on(late - Days{14}, std::vector<int>(20, 0)), count_on(late - Days{7}, std::vector<int>(20, 0)),
       count_on(late, {0, 1, 0, 0, 2, 0, 1, 0, 0, 1, 3, 0, 0, 0, 0, 1, 0, 2, 0, 0}),
       count_on(late + Days{12}, {9, 12, 15, 7, 8, 11, 16, 9, 21, 14, 12, 9, 3, 18, 10, 11, 12, 8, 7, 16})});
  const ScoutedRun result = scouted_run(ensemble(), log, after_all, scouting_rules(), seed);
  REQUIRE(result.run);
  CHECK(result.moved);
  CHECK(result.effective_members < 100.0);
  CHECK(said(result.remarks, "few-members-fit"));
  CHECK(*half(*result.run).middle > late - Days{3});
  CHECK(*half(*result.run).low < *half(*result.run).high);
}

TEST_CASE("counts that fall are said to disagree, counts that rise are not") {
  const std::vector<int> few{2, 9, 4, 0, 7, 3, 12, 5, 1, 6};
  const std::vector<int> many{14, 9, 22, 31, 5, 17, 12, 26, 8, 19};
  const Day first = *half(ensemble()).middle - Days{4};
  for (const bool falling : {false, true}) {
    const SiteLog log =
        log_of({count_on(first, falling ? many : few), count_on(first + Days{12}, falling ? few : many)});
    ScoutedRun result = scouted_run(ensemble(), log, after_all, scouting_rules(), seed);
    judge_counts(result, ensemble(), seed);
    CHECK(said(result.remarks, "model-and-field-disagree") == falling);
  }
}

TEST_CASE(
    "two areas have totals of their own: a thin one looked at later does not say that plants vanished") {
  LoggedCount dense = count_on(make_day(2021, 10, 1), {40, 55, 38, 61});
  dense.area = "green 3";
  LoggedCount thin = count_on(make_day(2021, 10, 12), {1, 0, 2, 1});
  thin.area = "fairway 7";
  const DateBand apart = half(scouted(log_of({dense, thin})));
  thin.area = dense.area;
  const DateBand together = half(scouted(log_of({dense, thin})));
  CHECK(width(together) < width(apart));
}

TEST_CASE("new plants are those since the last look: an equal trickle says that the wave is in its middle") {
  const Day day = *half(ensemble()).middle;
  const auto series = [&](bool fresh, std::vector<std::vector<int>> found) {
    std::vector<LoggedCount> counts;
    for (std::size_t i = 0; i < found.size(); ++i) {
      counts.push_back(count_on(day + Days{8 * (static_cast<int>(i) - 1)}, found[i]));
      counts.back().fresh = fresh;
    }
    return half(scouted(log_of(counts)));
  };
  // 6, then 6 more, then 6 more new ones is 6, 12 and 18 standing.
  const std::vector<int> six{6, 4, 8, 6};
  const DateBand fresh = series(true, {six, six, six});
  const DateBand standing = series(false, {six, {12, 8, 16, 12}, {18, 12, 24, 18}});
  CHECK(std::abs((*fresh.middle - *standing.middle).count()) <= 3);
  CHECK(*series(true, {six, six, {0, 0, 0, 0}}).middle < *fresh.middle);
}

TEST_CASE("ground judged by eye moves the wave the way the eye says, less than plots do") {
  const Day day = *half(ensemble()).middle;
  const auto look = [](Day on, double percent) {
    LoggedCount count;
    count.day = on;
    count.target = "POAAN";
    count.ground_share = Fraction::from_percent(percent);
    return count;
  };
  const DateBand before = half(ensemble());
  const DateBand bare = half(scouted(log_of({look(day + Days{5}, 0.0)})));
  const DateBand late =
      half(scouted(log_of({look(day - Days{8}, 0.0), look(day + Days{4}, 2.0), look(day + Days{14}, 20.0)})));
  const DateBand early =
      half(scouted(log_of({look(day - Days{8}, 6.0), look(day + Days{4}, 8.0), look(day + Days{14}, 8.0)})));
  CHECK(*bare.middle > *before.middle);
  CHECK(*late.middle > *before.middle);
  CHECK(*early.middle < *before.middle);
}

TEST_CASE("older plants than the middle course has speak for an earlier wave") {
  const Day day = *half(ensemble()).middle + Days{10};
  LoggedCount count = count_on(day, {5, 9, 3});
  const auto with = [&](SeenStage stage) {
    count.stage = stage;
    return *half(scouted(log_of({count}))).middle;
  };
  CHECK(with(SeenStage::to_one_tiller) < with(SeenStage::leaves_1_3));
}

TEST_CASE("the first seedlings seen move an ensemble toward that day and narrow the day of 5 percent") {
  const DateBand before = date_reaching(ensemble(), 0.05);
  const auto seen_on = [](Day day) {
    SiteLog log;
    log.first_seen.push_back({day, "POAAN"});
    return scouted(log);
  };
  const auto five = [&](Day day) { return date_reaching(seen_on(day), 0.05); };
  // Nine members in ten say less than 1 % up, and seedlings are seen.
  const Day early = *before.low - Days{18};
  CHECK(band_up(ensemble(), early).high < 0.01);
  CHECK(*five(early).middle < *before.middle);
  CHECK(*five(*before.high + Days{10}).middle > *before.middle);
  const DateBand as_expected = five(*date_reaching(ensemble(), 0.02).middle);
  CHECK(std::abs((*as_expected.middle - *before.middle).count()) <= 2);
  CHECK(width(as_expected) < width(before));
}

TEST_CASE("a note of first seedlings months away from any member moves little, and the earliest one counts") {
  SiteLog log;
  log.first_seen.push_back({make_day(2021, 6, 25), "POAAN"});
  CHECK(std::abs((*half(scouted(log)).middle - *half(ensemble()).middle).count()) <= 1);
  const Day seen = *half(ensemble()).low - Days{10};
  SiteLog once;
  once.first_seen.push_back({seen, "POAAN"});
  SiteLog twice;
  twice.first_seen = {{seen + Days{9}, "POAAN"}, {seen, "POAAN"}};
  CHECK(all_courses(scouted(once)) == all_courses(scouted(twice)));
}

TEST_CASE("first seedlings of another target, season or after a treatment say nothing") {
  const Day seen = *half(ensemble()).low;
  SiteLog other;
  other.first_seen = {{seen, "DIGIS"}, {seen - Days{365}, "POAAN"}, {after_all, "POAAN"}};
  CHECK(!scouted_run(ensemble(), other, after_all, scouting_rules(), seed).run);
  SiteLog treated;
  treated.first_seen = {{seen, "POAAN"}};
  SiteApplication sprayed;
  sprayed.day = seen - Days{1};
  treated.applications.push_back(sprayed);
  const ScoutedRun result = scouted_run(ensemble(), treated, after_all, scouting_rules(), seed);
  CHECK(!result.run);
  CHECK(said(result.remarks, "counts-after-treatment"));
}
