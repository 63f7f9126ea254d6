// SPDX-License-Identifier: MIT
// Numbers with a unit as people write them ("55F", "0.5 in", "8mph"), turned into the unit the records are
// kept in.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::records {

/// Kept in: C, mm, cm, m/s, %, m2, degrees.
enum class Quantity { temperature, water, depth, speed, percent, area, direction };

/// The number in the kept unit. `unit` is what a number without a unit is in (the heading of a column says
/// it); when it is empty the unit must stand behind the number. A direction may also be one of the 16 compass
/// points. A value converted from another unit is rounded to 4 decimals (areas to 6), far below what any of
/// the instruments resolves, so that 55F is kept as 12.7778 and not with sixteen digits; a value in the kept
/// unit stays as written. Problem (request): no number, one too large for its conversion, unknown or missing
/// unit.
Result<double> parse_measure(std::string_view text, Quantity quantity, std::string_view unit);

/// The unit the text is in, "F" or "in", where it is not the one its quantity is kept in; else "". The text
/// must be one that parse_measure takes.
std::string other_unit(std::string_view text, Quantity quantity, std::string_view unit);

/// A kept value in another unit of its quantity, to at most three decimals: what was noted as 62F comes back
/// as 62. Nothing when the quantity has no such unit.
std::optional<double> in_unit(double stored, Quantity quantity, std::string_view unit);

/// "C", "mm", ...: the unit a quantity is kept in.
std::string_view stored_unit(Quantity quantity);

/// The unit that the end of a column heading stands for ("c" and "f" in air_temperature_f, "m_per_s",
/// "percent"), as parse_measure takes it; nothing when that ending is no unit of the quantity.
std::optional<std::string> unit_of_heading(std::string_view ending, Quantity quantity);

}  // namespace soilclock::records
