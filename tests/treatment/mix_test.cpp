// SPDX-License-Identifier: MIT
#include "treatment/mix.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const Actives& actives() {
  static const Actives all = taken(read_actives(model_text("actives.json"), "actives.json"));
  return all;
}

MixScore scored(const MixPlan& plan, const SiteHistory& history) {
  static const MixtureRule rule = shipped_mixture();
  return score_mix(plan, history, actives(), rule);
}

MixPlan plan_of(const std::vector<std::string>& entries) {
  MixPlan plan;
  for (const std::string& entry : entries) plan.entries.push_back(taken(read_plan_entry(entry, actives())));
  plan.oldest_cohort = emergence::StageClass::to_one_tiller;
  plan.day_maximum = Temperature::from_celsius(22.0);
  plan.timing = PlanTiming::inside_window;
  plan.escapes_planned = true;
  plan.other_practices = 3;
  return plan;
}

SiteHistory clean_history() {
  SiteHistory history;
  history.seasons_known = 3;
  for (int group = 0; group <= 34; ++group) history.status[group] = GroupStatus::effective;
  return history;
}

double score(const std::vector<std::string>& entries) {
  const MixScore result = scored(plan_of(entries), clean_history());
  CHECK(result.total.least == result.total.most);
  return result.total.least;
}

bool flagged(const MixScore& score, const std::string& part) {
  return std::any_of(score.flags.begin(), score.flags.end(),
                     [&](const std::string& flag) { return flag.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("three effective groups score above two and two above one") {
  // A fact of the trade; mixtures over single groups: Evans et al. 2016, Pest Management Science 72:74-80.
  const double one = score({"simazine"});
  const double two = score({"simazine", "foramsulfuron"});
  const double three = score({"simazine", "foramsulfuron", "flumioxazin"});
  CHECK(one < two);
  CHECK(two < three);
}

TEST_CASE("groups are counted apart on plants up and on plants to come") {
  const MixScore result = scored(plan_of({"prodiamine", "foramsulfuron"}), clean_history());
  CHECK(result.effective_on_emerged == ScoreRange{1.0, 1.0});
  CHECK(result.effective_on_to_come == ScoreRange{1.0, 1.0});
  const MixScore residual = scored(plan_of({"prodiamine"}), clean_history());
  CHECK(residual.effective_on_emerged == ScoreRange{0.0, 0.0});
  CHECK(flagged(residual, "nothing in the plan counts on plants that are up"));
}

TEST_CASE("group 3 counts once however many of its actives are in the plan") {
  const MixScore result = scored(plan_of({"prodiamine", "pronamide", "dithiopyr"}), clean_history());
  CHECK(result.effective_on_to_come == ScoreRange{1.0, 1.0});
  CHECK(result.groups.size() == 1);
  CHECK(flagged(result, "count once"));
}

TEST_CASE("a plan resting on the one group used last season is flagged and gets no points for it") {
  SiteHistory history = clean_history();
  history.sprays.push_back({1, {3}});
  const MixScore again = scored(plan_of({"prodiamine"}), history);
  CHECK(flagged(again, "group 3 was used last season"));
  CHECK(again.lines[2].points == ScoreRange{0.0, 0.0});
  REQUIRE(again.repeats.size() == 1);
  CHECK(again.repeats.front().seasons_ago == std::vector{1});
  history.sprays = {{3, {3}}};
  CHECK(scored(plan_of({"prodiamine"}), history).lines[2].points == ScoreRange{8.0, 8.0});
  history.sprays = {{1, {3, 14}}};  // in company last season
  CHECK(scored(plan_of({"prodiamine"}), history).lines[2].points == ScoreRange{15.0, 15.0});
}

TEST_CASE("what is not known is a range, and knowing it only narrows it") {
  const MixScore unknown = scored(plan_of({"prodiamine"}), SiteHistory{});
  CHECK(unknown.total.least < unknown.total.most);
  CHECK(flagged(unknown, "earlier seasons are not known"));
  const MixScore known = scored(plan_of({"prodiamine"}), clean_history());
  CHECK(unknown.total.least <= known.total.least);
  CHECK(known.total.most <= unknown.total.most);
  MixPlan vague = plan_of({"flumioxazin"});
  vague.oldest_cohort.reset();
  CHECK(scored(vague, clean_history()).effective_on_emerged == ScoreRange{0.0, 1.0});
  CHECK(scored(plan_of({"group 3"}), clean_history()).effective_on_emerged == ScoreRange{0.0, 1.0});
}

TEST_CASE("a contact active counts no longer past two tillers and a warm-day active not in the cold") {
  MixPlan plan = plan_of({"flumioxazin", "bispyribac-sodium"});
  CHECK(scored(plan, clean_history()).effective_on_emerged.least == 2.0);
  plan.oldest_cohort = emergence::StageClass::three_to_five_tillers;
  CHECK(scored(plan, clean_history()).effective_on_emerged.least == 1.0);
  plan.day_maximum = Temperature::from_celsius(12.0);
  CHECK(scored(plan, clean_history()).effective_on_emerged.most == 0.0);
}

TEST_CASE("resistance described in the region halves a group and a confirmed failure removes it") {
  SiteHistory history = clean_history();
  history.status[9] = GroupStatus::resistant_in_region;
  CHECK(scored(plan_of({"glyphosate"}), history).effective_on_emerged == ScoreRange{0.5, 0.5});
  history.status[9] = GroupStatus::failed_here;
  CHECK(scored(plan_of({"glyphosate"}), history).effective_on_emerged == ScoreRange{0.0, 0.0});
}

TEST_CASE("the lines add up to the total and the best plan there is reaches one hundred") {
  const MixScore best = scored(
      [] {
        MixPlan plan = plan_of({"simazine", "foramsulfuron", "flumioxazin", "indaziflam"});
        plan.other_practices = 5;
        return plan;
      }(),
      clean_history());
  CHECK(best.total == ScoreRange{100.0, 100.0});
  CHECK(best.grade == "diversified");
  double of = 0.0;
  for (const ScoreLine& line : best.lines) of += line.of;
  CHECK(of == 100.0);
}

namespace {

MixPlan any_plan() {
  MixPlan plan;
  const int entries = *rc::gen::inRange(0, 6);
  for (int i = 0; i < entries; ++i) {
    if (*rc::gen::arbitrary<bool>()) {
      const Active& active = actives().all()[*rc::gen::inRange<std::size_t>(0, actives().all().size())];
      plan.entries.push_back({active.name, active.group, &active});
    } else {
      const int group = *rc::gen::inRange(0, 35);
      plan.entries.push_back({"group " + std::to_string(group), group, nullptr});
    }
  }
  if (*rc::gen::arbitrary<bool>())
    plan.oldest_cohort = static_cast<emergence::StageClass>(*rc::gen::inRange(0, 5));
  if (*rc::gen::arbitrary<bool>()) plan.day_maximum = Temperature::from_celsius(*rc::gen::inRange(-10, 40));
  if (*rc::gen::arbitrary<bool>()) plan.timing = static_cast<PlanTiming>(*rc::gen::inRange(0, 3));
  if (*rc::gen::arbitrary<bool>()) plan.escapes_planned = *rc::gen::arbitrary<bool>();
  if (*rc::gen::arbitrary<bool>()) plan.other_practices = *rc::gen::inRange(-3, 12);
  return plan;
}

SiteHistory any_history() {
  SiteHistory history;
  history.seasons_known = *rc::gen::inRange(0, 6);
  const int sprays = *rc::gen::inRange(0, 6);
  for (int i = 0; i < sprays; ++i) {
    history.sprays.push_back(
        {*rc::gen::inRange(0, 8), *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 35))});
  }
  const int standings = *rc::gen::inRange(0, 8);
  for (int i = 0; i < standings; ++i) {
    history.status[*rc::gen::inRange(0, 35)] = static_cast<GroupStatus>(*rc::gen::inRange(0, 3));
  }
  return history;
}

}  // namespace

TEST_CASE("laws of the score over ten thousand random plans and logs") {
  const auto law = [] {
    MixPlan plan = any_plan();
    const SiteHistory history = any_history();
    const MixScore before = scored(plan, history);
    RC_ASSERT(before.total.least >= 0.0);
    RC_ASSERT(before.total.least <= before.total.most);
    RC_ASSERT(before.total.most <= 100.0);
    double least = 0.0;
    for (const ScoreLine& line : before.lines) {
      RC_ASSERT(line.points.least >= 0.0);
      RC_ASSERT(line.points.least <= line.points.most);
      RC_ASSERT(line.points.most <= line.of);
      least += line.points.least;
    }
    RC_ASSERT(least == before.total.least);

    // Adding any active never lowers the least; adding an effective one never lowers either end.
    const Active& more = actives().all()[*rc::gen::inRange<std::size_t>(0, actives().all().size())];
    plan.entries.push_back({more.name, more.group, &more});
    const MixScore after = scored(plan, history);
    const auto counted = std::find_if(after.groups.begin(), after.groups.end(),
                                      [&](const GroupCount& count) { return count.group == more.group; });
    const bool effective = counted->emerged.least > 0.0 || counted->to_come.least > 0.0;
    if (effective) {
      RC_ASSERT(after.total.least >= before.total.least);
      RC_ASSERT(after.total.most >= before.total.most);
    }
  };
  const rc::detail::TestMetadata metadata{"mix-laws", "bounds and monotony"};
  rc::detail::TestParams params;
  params.maxSuccess = 10000;
  params.seed = 20240611;
  const auto result = rc::detail::checkTestable(law, metadata, params);
  std::ostringstream words;
  rc::detail::printResultMessage(result, words);
  INFO(words.str());
  CHECK(result.template is<rc::detail::SuccessResult>());
}
