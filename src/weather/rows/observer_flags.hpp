// SPDX-License-Identifier: MIT
// Flags beside daily values: failed quality checks, traces, and when a daily observer reads the instruments.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// (row index, column) of values that must not be used.
using FlaggedCells = std::set<std::pair<std::size_t, std::size_t>>;

/// Values whose attribute column ("M,Q,S" or "M,Q,S,HHMM" behind the value) carries a quality flag.
/// Source: readme of the daily summaries of the US climate data center: a quality flag that is not blank is a
/// failed check.
FlaggedCells failed_quality_flags(const SectionData& data, const RowList& rows, ReadingNotes& notes);

/// Collects when a daily observer reads the instruments.
class ObservationTimes {
 public:
  /// One reading's time ("0700", "7:00"), ignored when it is none; the line is shown with the first in the
  /// morning.
  void add(std::string_view time, std::optional<int> line);
  /// Whether maximum and rain are to be moved to the day before: asked for, and not against the times that
  /// are known. At least half of them in the morning is a doubt of its own, and so is what was done about it.
  /// Basis: common practice of manual stations.
  bool to_be_moved(bool asked, ReadingNotes& notes) const;

 private:
  int known_ = 0;
  int morning_ = 0;
  std::string shown_;
  std::optional<int> line_;
};

/// The part of an attribute text ("M,Q,S" or "M,Q,S,HHMM") at a position, blank when the text is shorter.
std::string_view attribute(std::string_view text, int position);

/// ObservationTimes::to_be_moved by the observation time column, or the fourth attribute.
bool maxima_to_be_moved(const SectionData& data, const RowList& rows, bool asked, ReadingNotes& notes);

}  // namespace soilclock::weather
