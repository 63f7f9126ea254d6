// SPDX-License-Identifier: MIT
#include "treatment/mix.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "core/text.hpp"

namespace soilclock::treatment {

namespace {

constexpr ScoreRange certain(double value) { return {value, value}; }

/// Whether an active counts on plants up: by stage and warmth; an unknown stage or warmth leaves a range.
ScoreRange counts_on_emerged(const Active& active, const MixPlan& plan) {
  if (!active.emerged_to) return certain(0.0);
  ScoreRange counts = certain(1.0);
  if (*active.emerged_to != emergence::StageClass::older) {
    if (!plan.oldest_cohort)
      counts.least = 0.0;
    else if (*plan.oldest_cohort > *active.emerged_to)
      return certain(0.0);
  }
  if (active.least_day_maximum) {
    if (!plan.day_maximum)
      counts.least = 0.0;
    else if (*plan.day_maximum < *active.least_day_maximum)
      return certain(0.0);
  }
  return counts;
}

/// How much of a group's effect is believed in at this site.
ScoreRange belief(int group, const SiteHistory& history, const Actives& actives) {
  const auto known = history.status.find(group);
  if (known != history.status.end()) {
    switch (known->second) {
      case GroupStatus::effective:
        return certain(1.0);
      case GroupStatus::resistant_in_region:
        return certain(0.5);
      case GroupStatus::failed_here:
        return certain(0.0);
    }
  }
  for (const Active* active : actives.of_group(group)) {
    if (active->resistance != ResistanceRecord::none_known) return {0.5, 1.0};
  }
  return certain(1.0);
}

std::string belief_words(const ScoreRange& belief) {
  if (belief == certain(1.0)) return "believed effective";
  if (belief == certain(0.5)) return "resistance described in the region, not tested here";
  if (belief == certain(0.0)) return "confirmed failure here";
  return "resistance described elsewhere, not known here";
}

struct Sides {
  ScoreRange emerged;
  ScoreRange to_come;
};

/// A bare group may stand for any of its actives, so it spans from the weakest to the strongest of them.
Sides sides_of(const PlanEntry& entry, const MixPlan& plan, const Actives& actives) {
  if (entry.active != nullptr) {
    return {counts_on_emerged(*entry.active, plan), certain(entry.active->to_come ? 1.0 : 0.0)};
  }
  const std::vector<const Active*> possible = actives.of_group(entry.group);
  if (possible.empty()) return {{0.0, 1.0}, {0.0, 1.0}};
  Sides sides{{1.0, 0.0}, {1.0, 0.0}};
  for (const Active* active : possible) {
    const ScoreRange emerged = counts_on_emerged(*active, plan);
    const double to_come = active->to_come ? 1.0 : 0.0;
    sides.emerged = {std::min(sides.emerged.least, emerged.least),
                     std::max(sides.emerged.most, emerged.most)};
    sides.to_come = {std::min(sides.to_come.least, to_come), std::max(sides.to_come.most, to_come)};
  }
  return sides;
}

std::vector<GroupCount> counted_groups(const MixPlan& plan, const SiteHistory& history,
                                       const Actives& actives) {
  std::map<int, GroupCount> by_group;
  for (const PlanEntry& entry : plan.entries) {
    GroupCount& count = by_group[entry.group];
    count.group = entry.group;
    const Sides sides = sides_of(entry, plan, actives);
    count.emerged = {std::max(count.emerged.least, sides.emerged.least),
                     std::max(count.emerged.most, sides.emerged.most)};
    count.to_come = {std::max(count.to_come.least, sides.to_come.least),
                     std::max(count.to_come.most, sides.to_come.most)};
    count.entries.push_back(entry.text);
  }
  std::vector<GroupCount> counts;
  for (auto& [group, count] : by_group) {
    const ScoreRange trust = belief(group, history, actives);
    count.emerged = {count.emerged.least * trust.least, count.emerged.most * trust.most};
    count.to_come = {count.to_come.least * trust.least, count.to_come.most * trust.most};
    count.why = belief_words(trust);
    if (count.entries.size() > 1) count.why += "; one site of action, counted once";
    counts.push_back(std::move(count));
  }
  return counts;
}

ScoreRange sum(const std::vector<GroupCount>& counts, ScoreRange GroupCount::*side) {
  ScoreRange total;
  for (const GroupCount& count : counts) {
    total.least += (count.*side).least;
    total.most += (count.*side).most;
  }
  return total;
}

/// Points at 0, 1, 2 and 3 effective groups, straight between.
double points_for(double effective, const PointsByGroups& at) {
  const double within = std::clamp(effective, 0.0, 3.0);
  const auto below = static_cast<std::size_t>(std::min(within, 2.0));
  return at[below] + (at[below + 1] - at[below]) * (within - static_cast<double>(below));
}

std::string range_words(const ScoreRange& range) {
  if (range.least == range.most) return fmt::format("{:g}", range.least);
  return fmt::format("{:g} to {:g}", range.least, range.most);
}

ScoreLine groups_line(std::string item, const ScoreRange& effective, const PointsByGroups& at) {
  ScoreLine line{
      std::move(item), {points_for(effective.least, at), points_for(effective.most, at)}, at[3], {}};
  line.why = range_words(effective) + (effective == certain(1.0) ? " effective group" : " effective groups");
  return line;
}

bool may_count(const GroupCount& count) { return count.emerged.most > 0.0 || count.to_come.most > 0.0; }
bool surely_counts(const GroupCount& count) { return count.emerged.least > 0.0 || count.to_come.least > 0.0; }

/// Whether a past spray had this group alone; groups confirmed to fail here kept it no company.
bool was_alone(int group, const PastSpray& spray, const SiteHistory& history) {
  bool used = false;
  for (const int other : spray.groups) {
    if (other == group) used = true;
    const auto known = history.status.find(other);
    const bool failed = known != history.status.end() && known->second == GroupStatus::failed_here;
    if (other != group && !failed) return false;
  }
  return used;
}

/// Points of a plan that rests on one group: none when that group was alone last season too.
ScoreRange sole_group_points(int group, const SiteHistory& history, const MixtureRule& rule) {
  double points = rule.points.shared_work;
  for (const PastSpray& spray : history.sprays) {
    if (spray.seasons_ago < 1 || spray.seasons_ago > rule.points.alone_remembered_seasons ||
        !was_alone(group, spray, history))
      continue;
    points = std::min(points, spray.seasons_ago == 1 ? 0.0 : rule.points.alone_once);
  }
  if (history.seasons_known >= rule.points.alone_remembered_seasons) return certain(points);
  // Seasons without record may hold the same group alone: last season costs all, earlier ones about half.
  const double worst = history.seasons_known >= 1 ? std::min(points, rule.points.alone_once) : 0.0;
  return {worst, points};
}

ScoreLine sole_line(const std::vector<GroupCount>& counts, const SiteHistory& history,
                    const MixtureRule& rule) {
  ScoreLine line{"same group alone in several seasons", {}, rule.points.shared_work, {}};
  std::vector<const GroupCount*> possible;
  int sure = 0;
  for (const GroupCount& count : counts) {
    if (may_count(count)) possible.push_back(&count);
    sure += surely_counts(count) ? 1 : 0;
  }
  if (possible.empty()) {
    line.why = "no effective group";
  } else if (sure >= 2) {
    line.points = certain(rule.points.shared_work);
    line.why = "two or more groups share the work";
  } else if (possible.size() == 1) {
    line.points = sole_group_points(possible.front()->group, history, rule);
    if (sure == 0) line.points.least = 0.0;
    line.why = fmt::format("rests on group {} alone", possible.front()->group);
    if (history.seasons_known < rule.points.alone_remembered_seasons)
      line.why += "; earlier seasons not known";
  } else {
    line.points = {sure == 0 ? 0.0 : rule.points.shared_work, rule.points.shared_work};
    for (const GroupCount* count : possible) {
      // Without the others this group may be the only one that counts.
      if (sure == 0 || surely_counts(*count)) {
        line.points.least = std::min(line.points.least, sole_group_points(count->group, history, rule).least);
      }
    }
    line.why = "how many groups count is not known";
  }
  return line;
}

ScoreLine timing_line(const std::optional<PlanTiming>& timing, const MixPoints& rule) {
  const double most = rule.date_inside;
  ScoreLine line{"date within the window of the kind", {0.0, most}, most, "not known"};
  if (!timing) return line;
  switch (*timing) {
    case PlanTiming::inside_window:
      return {line.item, certain(most), most, "inside"};
    case PlanTiming::within_a_week:
      return {line.item, certain(rule.date_near), most, "a week outside"};
    case PlanTiming::outside_window:
      break;
  }
  return {line.item, certain(0.0), most, "outside"};
}

ScoreLine escapes_line(const std::optional<bool>& planned, double most) {
  ScoreLine line{"escapes dealt with before seedheads", {0.0, most}, most, "not known"};
  if (planned) line.points = certain(*planned ? most : 0.0);
  if (planned) line.why = *planned ? "planned" : "not planned";
  return line;
}

ScoreLine practices_line(const std::optional<int>& practices, const MixPoints& rule) {
  const double most = rule.practice * rule.practices_counted;
  ScoreLine line{"other than chemical practices", {0.0, most}, most, "not known"};
  if (!practices) return line;
  const int counted = std::clamp(*practices, 0, rule.practices_counted);
  line.points = certain(rule.practice * counted);
  line.why = fmt::format("{} followed", counted);
  return line;
}

std::vector<RepeatedGroup> repeats_of(const std::vector<GroupCount>& counts, const SiteHistory& history) {
  std::vector<RepeatedGroup> repeats;
  for (const GroupCount& count : counts) {
    std::set<int> seasons;
    for (const PastSpray& spray : history.sprays) {
      const bool used =
          std::find(spray.groups.begin(), spray.groups.end(), count.group) != spray.groups.end();
      if (used && spray.seasons_ago >= 1) seasons.insert(spray.seasons_ago);
    }
    if (!seasons.empty()) repeats.push_back({count.group, {seasons.begin(), seasons.end()}});
  }
  return repeats;
}

std::string grade_word(double score, const MixPoints& rule) {
  if (score < rule.usual_from) return "one escape from trouble";
  return score <= rule.usual_to ? "usual" : "diversified";
}

void add_flags(MixScore& score, const SiteHistory& history, const MixtureRule& rule) {
  const auto add = [&score](std::string text) { score.flags.push_back(std::move(text)); };
  std::vector<int> effective;
  for (const GroupCount& count : score.groups) {
    if (may_count(count)) effective.push_back(count.group);
    if (count.entries.size() > 1) {
      add(fmt::format("{} share one site of action (group {}): they count once", listed(count.entries),
                      count.group));
    }
    if (!may_count(count)) {
      add(fmt::format("group {} counts neither on plants up nor on plants to come here", count.group));
    }
  }
  if (effective.size() == 1) {
    for (const RepeatedGroup& repeat : score.repeats) {
      if (repeat.group != effective.front() || repeat.seasons_ago.front() != 1) continue;
      add(fmt::format("group {} was used last season and is the only one that counts now", repeat.group));
    }
  }
  if (score.effective_on_emerged.most == 0.0) add("nothing in the plan counts on plants that are up");
  if (score.effective_on_to_come.most == 0.0) add("nothing in the plan counts on plants to come");
  if (history.seasons_known < rule.points.alone_remembered_seasons)
    add("earlier seasons are not known: the score is a range");
}

}  // namespace

MixScore score_mix(const MixPlan& plan, const SiteHistory& history, const Actives& actives,
                   const MixtureRule& rule) {
  MixScore score;
  score.groups = counted_groups(plan, history, actives);
  score.effective_on_emerged = sum(score.groups, &GroupCount::emerged);
  score.effective_on_to_come = sum(score.groups, &GroupCount::to_come);
  score.repeats = repeats_of(score.groups, history);
  score.lines = {
      groups_line("groups that count on plants up", score.effective_on_emerged, rule.points.on_plants_up),
      groups_line("groups that count on plants to come", score.effective_on_to_come,
                  rule.points.on_plants_to_come),
      sole_line(score.groups, history, rule),
      timing_line(plan.timing, rule.points),
      escapes_line(plan.escapes_planned, rule.points.escapes),
      practices_line(plan.other_practices, rule.points)};
  for (const ScoreLine& line : score.lines) {
    score.total.least += line.points.least;
    score.total.most += line.points.most;
  }
  score.grade = grade_word(score.total.least, rule.points);
  const std::string best = grade_word(score.total.most, rule.points);
  if (best != score.grade) score.grade += " to " + best;
  add_flags(score, history, rule);
  return score;
}

}  // namespace soilclock::treatment
