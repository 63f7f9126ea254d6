// SPDX-License-Identifier: MIT
// Every door through which text or bytes of others come in, one function each: it takes any bytes, and
// returns unless a promise of the reader is broken. libFuzzer calls them with inputs it makes up, the tests
// with those that once failed.
#pragma once

#include <string_view>

#include "core/problem.hpp"

namespace soilclock::fuzz {

/// Any weather text; the first byte chooses what the user says beside it, the rest is the text.
void weather_text(std::string_view bytes);
/// The answer of any service, and what the client asks of a body.
void service_answer(std::string_view bytes);
/// A site file, and a table of sites.
void site_file(std::string_view bytes);
/// One file of models/ or config/practice.json beside the shipped others: its name up to the first line end,
/// then its text.
void model_file(std::string_view bytes);
/// Dates, times, offsets, zones, numbers with and without units: one cell or option a line.
void dates_and_units(std::string_view bytes);
/// A table of records as `log import` takes it, and what it holds given out and taken in again.
void log_import(std::string_view bytes);
/// The bytes of a records file, opened and read.
void records_file(std::string_view bytes);
/// The user's service settings.
void settings(std::string_view bytes);

/// Ends the program with what was broken unless it holds.
void demand(bool holds, const char* promise);
/// A problem that a reader returns for bad input: it says what is wrong, its line is one of the file, and no
/// fault of our own.
void demand_good(const Problem& problem);

}  // namespace soilclock::fuzz
