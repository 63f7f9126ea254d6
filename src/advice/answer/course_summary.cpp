// SPDX-License-Identifier: MIT
#include "advice/answer/course_summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

constexpr int half = 50;  // percent up
constexpr std::size_t longest_name = 40;
constexpr std::size_t most_named = 4;  // names a clause; a longer list is not read. Judgment.

/// A name as it may stand in a sentence.
std::string shown(const std::string& name) { return printable(name, longest_name); }

AreaStanding standing_of(const SiteAnswer& answer, const TargetAnswer& target) {
  AreaStanding area{answer.site,
                    answer.facts.area->name,
                    target.refusal,
                    answer.priority_warning.has_value(),
                    false,
                    target.decision,
                    {},
                    target.emerged_percent.middle};
  const auto& best = target.decision.best_range;
  area.before_the_best = best && best->first > monday_of(answer.on);
  for (const Milestone& milestone : target.milestones) {
    if (milestone.percent == half && milestone.either.empty()) area.half_up = milestone.date.middle;
  }
  return area;
}

/// A name, and what is said behind it.
struct Named {
  std::string name;
  std::string detail;  // may be empty
};

/// What is said of the areas that stand alike: the words before and behind their names, and what stands
/// between those and a detail all of them share.
struct Say {
  const char* before;
  const char* behind;
  const char* joint;
  bool denies = false;  // all areas are "any area"
};

std::string with_kind(const Decision& decision) {
  return decision.kind ? fmt::format("with {}", treatment::name(*decision.kind)) : "";
}

std::string best_from(const Decision& decision) {
  if (!decision.best_range) return "";
  return fmt::format("best from {} {}", short_date(decision.best_range->first), with_kind(decision));
}

/// The words for an area, by how pressing they are.
struct Standing {
  int rank;
  Say say;
  std::string detail;
};

Standing standing_words(const AreaStanding& area) {
  const Decision& decision = area.decision;
  if (area.refusal) return {8, {"no answer for ", "", "", true}, ""};
  switch (decision.action) {
    case Action::treat:
      return {1, {"treat ", " this week", " "}, with_kind(decision)};
    case Action::any_week:
      if (area.before_the_best) return {3, {"good enough now on ", "", ", "}, best_from(decision)};
      return {
          2,
          {"any week will do for ", "", ", "},
          fmt::format("through {} {}", short_date(decision.best_range->last + Days{6}), with_kind(decision))};
    case Action::scout:
      return {4, {"scout ", " before you treat", ""}, ""};
    case Action::wait:
      return {5, {"wait on ", "", ", "}, best_from(decision)};
    case Action::hold_after_treatment:
      return {6, {"hold ", " until survivors show", ""}, ""};
    case Action::no_single_week:
      return {7, {"no single week on ", "", "", true}, ""};
    case Action::nothing_left:
      return {7, {"nothing left to time on ", "", "", true}, ""};
    case Action::no_answer:
      break;
  }
  return {8, {"no answer for ", "", "", true}, ""};
}

/// "both areas", "all three areas", "any area".
std::string all_words(std::size_t areas, const Say& say) {
  if (say.denies) return "any area";
  return areas == 2 ? "both areas" : fmt::format("all {} areas", count_words(static_cast<int>(areas)));
}

/// "tee (best from Oct 12 with pre), green and 3 more".
std::string names_of(const std::vector<Named>& areas, bool with_details) {
  std::vector<std::string> names;
  for (const Named& area : areas) {
    if (names.size() == most_named && areas.size() > most_named + 1) {
      names.push_back(fmt::format("{} more", areas.size() - most_named));
      break;
    }
    names.push_back(with_details ? fmt::format("{} ({})", area.name, area.detail) : area.name);
  }
  return listed(names);
}

std::string clause_of(const Say& say, const std::vector<Named>& areas, bool all) {
  const std::string& shared = areas.front().detail;
  const bool alike =
      std::all_of(areas.begin(), areas.end(), [&](const Named& area) { return area.detail == shared; });
  const std::string names =
      all && alike && areas.size() > 1 ? all_words(areas.size(), say) : names_of(areas, !alike);
  return fmt::format("{}{}{}{}", say.before, names, say.behind,
                     alike && !shared.empty() ? say.joint + shared : "");
}

/// What to do where: areas that stand alike in one clause, the most pressing first.
std::vector<std::string> clauses_of(const std::vector<AreaStanding>& areas) {
  std::vector<std::string> clauses;
  std::vector<Named> seeded;
  for (const AreaStanding& area : areas) {
    if (area.overseeding_first) seeded.push_back({shown(area.name), ""});
  }
  if (!seeded.empty())
    clauses.push_back(
        clause_of({"overseeding comes first on ", "", ""}, seeded, seeded.size() == areas.size()));
  std::vector<Standing> standings;
  for (const AreaStanding& area : areas) standings.push_back(standing_words(area));
  std::set<std::pair<int, std::string>> groups;
  for (const Standing& standing : standings) groups.insert({standing.rank, standing.say.before});
  for (const auto& group : groups) {
    std::vector<Named> named;
    const Say* say = nullptr;
    for (std::size_t i = 0; i < areas.size(); ++i) {
      if (standings[i].say.before != group.second) continue;
      say = &standings[i].say;
      named.push_back({shown(areas[i].name), standings[i].detail});
    }
    clauses.push_back(clause_of(*say, named, named.size() == areas.size()));
  }
  return clauses;
}

/// How far apart the areas stand: by the day half of the seedlings are up, else by what is up now. Nothing
/// where fewer than two were answered or nothing is left to time anywhere.
std::string apart_of(GrassOnAreas& grass) {
  std::vector<const AreaStanding*> answered;
  bool open = false;
  for (const AreaStanding& area : grass.areas) {
    if (area.refusal) continue;
    answered.push_back(&area);
    open = open || area.decision.action != Action::nothing_left;
  }
  if (answered.size() < 2) return "";
  const bool dated = std::all_of(answered.begin(), answered.end(),
                                 [](const AreaStanding* area) { return area->half_up.has_value(); });
  if (dated) {
    const auto [first, last] =
        std::minmax_element(answered.begin(), answered.end(),
                            [](const auto* a, const auto* b) { return *a->half_up < *b->half_up; });
    grass.half_up_apart = static_cast<int>((*(*last)->half_up - *(*first)->half_up).count());
    if (!open) return "";
    if (*grass.half_up_apart == 0)
      return fmt::format("half up on the same day, {}", short_date(*(*first)->half_up));
    return fmt::format("half up {} day{} apart, {} first ({}) and {} last ({})",
                       count_words(*grass.half_up_apart), *grass.half_up_apart == 1 ? "" : "s",
                       shown((*first)->name), short_date(*(*first)->half_up), shown((*last)->name),
                       short_date(*(*last)->half_up));
  }
  const bool known = std::all_of(answered.begin(), answered.end(), [](const AreaStanding* area) {
    return std::isfinite(area->emerged_percent);
  });
  if (!open || !known) return "";
  const auto [least, most] = std::minmax_element(
      answered.begin(), answered.end(),
      [](const auto* a, const auto* b) { return a->emerged_percent < b->emerged_percent; });
  return fmt::format("{}% up on {} and {}% on {}", number_text((*most)->emerged_percent, 0),
                     shown((*most)->name), number_text((*least)->emerged_percent, 0), shown((*least)->name));
}

std::string as_sentence(std::string words) {
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words + ".";
}

void word(GrassOnAreas& grass) {
  std::vector<std::string> clauses = clauses_of(grass.areas);
  if (const std::string apart = apart_of(grass); !apart.empty()) clauses.push_back(apart);
  grass.sentence = as_sentence(fmt::format("{}", fmt::join(clauses, "; ")));
  for (const std::string& clause : clauses) grass.lines.push_back(as_sentence(clause));
}

}  // namespace

void CourseSummaries::add(const SiteAnswer& answer) {
  if (!answer.facts.area) return;
  const AreaFacts& facts = *answer.facts.area;
  auto course = std::find_if(courses_.begin(), courses_.end(),
                             [&](const Gathered& known) { return known.summary.course == facts.course; });
  if (course == courses_.end())
    course = courses_.insert(courses_.end(),
                             {{facts.course, facts.course_name, answer.on, {}}, facts.among.size(), {}, {}});
  course->added.push_back(answer.site);
  for (const TargetAnswer& target : answer.targets) {
    std::vector<GrassOnAreas>& grasses = course->summary.grasses;
    auto grass = std::find_if(grasses.begin(), grasses.end(),
                              [&](const GrassOnAreas& known) { return known.target == target.target; });
    if (grass == grasses.end())
      grass = grasses.insert(grasses.end(), {target.target, target.title, {}, {}, {}, {}});
    grass->areas.push_back(standing_of(answer, target));
  }
  if (answer.targets.empty()) {
    AreaStanding failed{answer.site, facts.name, {}, false, false, {}, {}, std::nan("")};
    failed.refusal = answer.problems.empty() ? Problem{} : answer.problems.front();
    course->unanswered.push_back(std::move(failed));
  }
}

std::vector<CourseSummary> CourseSummaries::made() const {
  std::vector<CourseSummary> summaries;
  for (const Gathered& course : courses_) {
    if (course.added.size() != course.areas) continue;
    CourseSummary summary = course.summary;
    if (summary.grasses.empty()) summary.grasses.emplace_back();
    const auto place = [&](const AreaStanding& area) {
      return std::find(course.added.begin(), course.added.end(), area.site);
    };
    for (GrassOnAreas& grass : summary.grasses) {
      grass.areas.insert(grass.areas.end(), course.unanswered.begin(), course.unanswered.end());
      std::stable_sort(grass.areas.begin(), grass.areas.end(),
                       [&](const auto& a, const auto& b) { return place(a) < place(b); });
      word(grass);
    }
    summaries.push_back(std::move(summary));
  }
  return summaries;
}

std::vector<CourseSummary> course_summaries(std::span<const SiteAnswer> answers) {
  CourseSummaries summaries;
  for (const SiteAnswer& answer : answers) summaries.add(answer);
  return summaries.made();
}

}  // namespace soilclock::advice
