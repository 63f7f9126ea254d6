// SPDX-License-Identifier: MIT
#include "report/message.hpp"

#include <fmt/format.h>

#include <vector>

#include "advice/answer/answer_changes.hpp"
#include "advice/answer/brief.hpp"
#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/text_columns.hpp"

namespace soilclock::report {

namespace {

constexpr std::size_t message_columns = 100;

/// "Copper Heron, annual bluegrass, Oct 15, 2026": the name gives way where it is long.
std::string first_line(const std::string& name, Day on, const std::string& grass) {
  const std::string rest = (grass.empty() ? "" : ", " + lowered(grass)) + ", " + short_date(on, true);
  return fitted(name, message_columns - columns_of(rest)) + rest;
}

/// The weeks to wait for; else until when this one stays good.
std::string weeks_line(const advice::TargetAnswer& target) {
  const advice::Decision& decision = target.decision;
  if (!decision.good_through) return "";
  if (decision.action == advice::Action::wait) {
    return fmt::format("Best weeks: {} from {} to {}, control {}% (at least {}%).",
                       treatment::name(*decision.kind), short_date(decision.best_range->first),
                       short_date(decision.best_range->last + Days{6}),
                       number_text(decision.control->middle, 0), number_text(decision.control->low, 0));
  }
  std::string text = fmt::format("Good through {}", short_date(*target.decision.good_through + Days{6}));
  const std::string waiting = advice::waiting_words(target);
  if (!waiting.empty()) text += "; " + waiting;
  return text + ".";
}

std::string next_line(const advice::TargetAnswer& target) {
  std::vector<std::string> parts;
  if (target.second_pre)
    parts.push_back(fmt::format("second pre about {}", short_date(target.second_pre->date)));
  if (const auto& then = target.decision.then)
    parts.push_back(fmt::format("{} from {} gets {}%", treatment::name(then->kind), short_date(then->week_of),
                                number_text(then->control.middle, 0)));
  if (target.next_look) parts.push_back(fmt::format("look again {}", short_date(target.next_look->date)));
  return parts.empty() ? "" : fmt::format("Next: {}.", fmt::join(parts, "; "));
}

std::string changed_line(const advice::TargetAnswer& target) {
  if (!target.changed || target.changed->changes.empty()) return "";
  return fmt::format("Changed since {}: {}.", short_date(target.changed->since),
                     advice::changes_words(*target.changed));
}

std::string lines_of(const std::vector<std::string>& lines, const AnswerFrame& frame) {
  std::string text;
  for (const std::string& line : lines) {
    if (!line.empty()) text += fitted(line, message_columns) + "\n";
  }
  const std::string care = fmt::format("{}", fmt::join(frame.brief_cautions, " "));
  return care.empty() ? text : text + fitted(care, message_columns) + "\n";
}

}  // namespace

std::string message(const advice::SiteAnswer& site, const advice::TargetAnswer& target,
                    const AnswerFrame& frame) {
  const std::string head = first_line(site.name, site.on, target.title);
  if (target.refusal) return lines_of({head, "No answer: " + describe(*target.refusal)}, frame);
  if (site.priority_warning)
    return lines_of(
        {head, "First: " + *site.priority_warning, target.in_short, weeks_line(target), changed_line(target)},
        frame);
  return lines_of({head, target.in_short, weeks_line(target), next_line(target), changed_line(target)},
                  frame);
}

std::string message(const advice::CourseSummary& course, const AnswerFrame& frame) {
  std::vector<std::string> lines;
  for (const advice::GrassOnAreas& grass : course.grasses) {
    lines.push_back(first_line(course.name, course.on, grass.title));
    lines.insert(lines.end(), grass.lines.begin(), grass.lines.end());
  }
  return lines_of(lines, frame);
}

std::string message(const advice::SiteAnswer& site, const AnswerFrame& frame) {
  const auto ranked = advice::by_urgency({&site, 1});
  if (!ranked.empty()) return message(site, site.targets[ranked.front().target], frame);
  if (!site.targets.empty()) return message(site, site.targets.front(), frame);
  return lines_of({first_line(site.name, site.on, ""),
                   "No answer: " + (site.problems.empty() ? std::string{"no grass was asked for"}
                                                          : describe(site.problems.front()))},
                  frame);
}

}  // namespace soilclock::report
