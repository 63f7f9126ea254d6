// SPDX-License-Identifier: MIT
// Which of several columns for one quantity is used, and what is said about headings that are not plain.
#pragma once

#include <optional>

#include "core/problem.hpp"
#include "weather/columns/column_plan.hpp"

namespace soilclock::weather {

/// How far a heading is from the plain name of its quantity: unknown words, numbers of sensors.
int oddity(const HeadingMeaning& meaning);

/// Of columns that are equally plain the higher one is better: outdoors, precipitation (which holds the snow
/// too), the clock of the place.
int preference(const std::string& heading);

/// The same text in both columns of every row.
bool same_cells(const Table& table, const TableSection& section, std::size_t a, std::size_t b);

/// Leaves one column for each quantity but the date: the plainest. Equal claims with different cells are
/// doubted.
void keep_one_each(ColumnPlan& plan, const Table& table, const TableSection& section, ReadingNotes& notes);

/// Error: a minimum or maximum stands only under a heading of something else ("forecast", "normal").
Checked ask_about_qualified(const ColumnPlan& plan, std::optional<int> line, const ReadingNotes& notes);

/// Doubts used headings with words that are not known, and rain that no column is read for.
void note_unknown_words(const ColumnPlan& plan, const Table& table, const TableSection& section,
                        ReadingNotes& notes);

}  // namespace soilclock::weather
