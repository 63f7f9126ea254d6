// SPDX-License-Identifier: MIT
#include "advice/answer/dated_events.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::advice;

namespace {

const Day events_monday = make_day(2026, 10, 12);

/// Best from this Monday for two weeks, good a week longer, and a day to look again.
TargetAnswer dated_target() {
  TargetAnswer target;
  target.decision.best_range = MondaySpan{events_monday, events_monday + one_week};
  target.decision.good_through = events_monday + 2 * one_week;
  target.next_look = DatedReason{events_monday + Days{10}, "ask again"};
  return target;
}

std::vector<EventKind> kinds_of_events(const std::vector<DatedEvent>& events) {
  std::vector<EventKind> kinds;
  for (const DatedEvent& event : events) kinds.push_back(event.what);
  return kinds;
}

using EventKinds = std::vector<EventKind>;

}  // namespace

TEST_CASE("each date of an answer is one event with its days") {
  const auto events = dated_events(dated_target());
  CHECK(kinds_of_events(events) ==
        EventKinds{EventKind::best_weeks, EventKind::good_through, EventKind::next_look});
  CHECK((events[0].days == DayRange{events_monday, events_monday + 2 * one_week}));
  CHECK((events[1].days == DayRange{events_monday + 2 * one_week, events_monday + 3 * one_week}));
  CHECK((events[2].days == DayRange{events_monday + Days{10}, events_monday + Days{11}}));
  TargetAnswer refused = dated_target();
  refused.refusal = Problem{};
  CHECK(dated_events(refused).empty());
}

TEST_CASE("what was announced, is to come and is not in the answer is taken back") {
  const DayRange coming{events_monday + one_week, events_monday + 2 * one_week};
  const std::vector<DatedEvent> announced{{EventKind::best_weeks, coming}, {EventKind::second_pre, coming}};
  const auto withdrawn = withdrawn_events(dated_target(), events_monday, announced);
  CHECK(kinds_of_events(withdrawn) == EventKinds{EventKind::second_pre});
  CHECK((withdrawn[0].days == coming));
  CHECK(withdrawn_events(dated_target(), coming.end() - Days{1}, announced).size() == 1);
  CHECK(withdrawn_events(dated_target(), coming.end(), announced).empty());
  TargetAnswer refused = dated_target();
  refused.refusal = Problem{};
  CHECK(withdrawn_events(refused, events_monday, announced).empty());
}

TEST_CASE("the names of events lead back to them") {
  for (const EventKind event : {EventKind::best_weeks, EventKind::good_through, EventKind::then,
                                EventKind::second_pre, EventKind::next_look})
    CHECK(event_named(name(event)) == event);
  CHECK(!event_named("party"));
}
