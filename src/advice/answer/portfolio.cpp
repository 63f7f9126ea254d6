// SPDX-License-Identifier: MIT
#include "advice/answer/portfolio.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

/// In the order in which a course is counted.
enum class CourseStanding { treat, good_now, wait, finished, unanswered };

CourseStanding course_standing_of(const TargetAnswer& target) {
  if (target.refusal) return CourseStanding::unanswered;
  if (!still_open(target)) return CourseStanding::finished;
  if (target.decision.action == Action::treat) return CourseStanding::treat;
  return target.decision.action == Action::any_week ? CourseStanding::good_now : CourseStanding::wait;
}

CourseStanding course_standing_of(const SiteAnswer& site) {
  CourseStanding most = CourseStanding::unanswered;
  for (const TargetAnswer& target : site.targets) most = std::min(most, course_standing_of(target));
  return most;
}

std::string courses_words(int count) { return count == 1 ? "1 course" : fmt::format("{} courses", count); }

std::string headline_of(const Portfolio& all) {
  if (all.treat > 0) {
    return fmt::format("{} of {} {} for treatment this week.", all.treat, courses_words(all.courses),
                       all.treat == 1 ? "calls" : "call");
  }
  if (all.good_now > 0) {
    return fmt::format("No hurry anywhere; {} of {} can treat now.", all.good_now,
                       courses_words(all.courses));
  }
  if (all.wait > 0) return fmt::format("Nothing to treat this week on {}.", courses_words(all.courses));
  return all.finished > 0 ? "Nothing left to time this season." : "No course could be answered for.";
}

}  // namespace

const std::string& course_of(const SiteAnswer& site) {
  return site.facts.area ? site.facts.area->course : site.site;
}

Portfolio portfolio_of(std::span<const SiteAnswer> sites) {
  Portfolio all;
  std::map<std::string, CourseStanding> courses;
  for (const SiteAnswer& site : sites) {
    const CourseStanding standing = course_standing_of(site);
    const auto [course, fresh] = courses.emplace(course_of(site), standing);
    course->second = std::min(course->second, standing);
  }
  all.courses = static_cast<int>(courses.size());
  for (const auto& [course, standing] : courses) {
    switch (standing) {
      case CourseStanding::treat:
        ++all.treat;
        break;
      case CourseStanding::good_now:
        ++all.good_now;
        break;
      case CourseStanding::wait:
        ++all.wait;
        break;
      case CourseStanding::finished:
        ++all.finished;
        break;
      case CourseStanding::unanswered:
        ++all.unanswered;
        break;
    }
  }
  all.headline = headline_of(all);
  return all;
}

std::string_view in_short(Action action) {
  switch (action) {
    case Action::treat:
      return "treat this week";
    case Action::any_week:
      return "any week";
    case Action::wait:
      return "wait";
    case Action::hold_after_treatment:
      return "hold";
    case Action::scout:
      return "scout first";
    case Action::no_single_week:
      return "no single week";
    case Action::nothing_left:
      return "nothing left";
    case Action::no_answer:
      break;
  }
  return "no answer";
}

std::string action_in_short(const TargetAnswer& target, Day on) {
  const Decision& decision = target.decision;
  const bool before_the_best = decision.best_range && decision.best_range->first > monday_of(on);
  if (decision.action == Action::any_week && before_the_best) return "good enough now";
  return std::string{in_short(decision.action)};
}

std::string points_lost(double points) {
  return points < 1.0 && points >= 0.5 ? "<1" : number_text(points, 0);
}

}  // namespace soilclock::advice
