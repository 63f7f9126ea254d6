// SPDX-License-Identifier: MIT
// The dates of an answer as events for a calendar.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// "best-weeks", "good-through", "then", "second-pre", "next-look".
std::string_view name(EventKind event);
/// The event of that name, nothing for other words.
std::optional<EventKind> event_named(std::string_view word);

/// The events of a target, one of a kind at most, in the order of EventKind; a refused one has none.
std::vector<DatedEvent> dated_events(const TargetAnswer& target);

/// Those of the events announced earlier in the season that this answer does not have any more, although they
/// have not passed. A refused target takes nothing back: it does not know better.
std::vector<DatedEvent> withdrawn_events(const TargetAnswer& target, Day on,
                                         std::span<const DatedEvent> announced);

}  // namespace soilclock::advice
