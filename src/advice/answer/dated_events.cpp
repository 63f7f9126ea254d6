// SPDX-License-Identifier: MIT
#include "advice/answer/dated_events.hpp"

#include <algorithm>
#include <array>

namespace soilclock::advice {

std::string_view name(EventKind event) {
  switch (event) {
    case EventKind::best_weeks:
      return "best-weeks";
    case EventKind::good_through:
      return "good-through";
    case EventKind::then:
      return "then";
    case EventKind::second_pre:
      return "second-pre";
    case EventKind::next_look:
      break;
  }
  return "next-look";
}

std::optional<EventKind> event_named(std::string_view word) {
  static constexpr std::array all{EventKind::best_weeks, EventKind::good_through, EventKind::then,
                                  EventKind::second_pre, EventKind::next_look};
  const auto found =
      std::find_if(all.begin(), all.end(), [&](EventKind event) { return name(event) == word; });
  return found == all.end() ? std::nullopt : std::optional{*found};
}

std::vector<DatedEvent> dated_events(const TargetAnswer& target) {
  std::vector<DatedEvent> events;
  if (target.refusal) return events;
  const auto add = [&](EventKind what, Day first, Days length) {
    events.push_back({what, {first, first + length}});
  };
  const Decision& decision = target.decision;
  if (decision.best_range)
    add(EventKind::best_weeks, decision.best_range->first,
        decision.best_range->last + one_week - decision.best_range->first);
  if (decision.good_through) add(EventKind::good_through, *decision.good_through, one_week);
  if (decision.then) add(EventKind::then, decision.then->week_of, one_week);
  if (target.second_pre) add(EventKind::second_pre, target.second_pre->date, Days{1});
  if (target.next_look) add(EventKind::next_look, target.next_look->date, Days{1});
  return events;
}

std::vector<DatedEvent> withdrawn_events(const TargetAnswer& target, Day on,
                                         std::span<const DatedEvent> announced) {
  std::vector<DatedEvent> withdrawn;
  if (target.refusal) return withdrawn;
  const std::vector<DatedEvent> present = dated_events(target);
  for (const DatedEvent& event : announced) {
    const bool stays = std::any_of(present.begin(), present.end(),
                                   [&](const DatedEvent& now) { return now.what == event.what; });
    if (!stays && event.days.end() > on) withdrawn.push_back(event);
  }
  return withdrawn;
}

}  // namespace soilclock::advice
