// SPDX-License-Identifier: MIT
// Seasons, sites, calls and what-ifs side by side, as text, JSON and CSV.
#pragma once

#include <string>
#include <vector>

#include "advice/comparison/comparison.hpp"
#include "report/advice_json.hpp"

namespace soilclock::report {

/// Tables of at most 100 columns; what could not be compared is said.
std::string comparison_text(const std::vector<advice::SiteComparison>& sites, const AnswerFrame& frame);

/// The "soilclock-comparison" document, version 1; Celsius and days, dates "YYYY-MM-DD" or null.
std::string comparison_json(const std::vector<advice::SiteComparison>& sites, const AnswerFrame& frame);

/// One value a row: site, target, table, row, item, value.
std::string comparison_csv(const std::vector<advice::SiteComparison>& sites);

/// "Sep 14", or "-" where there is none.
std::string day_cell(const std::optional<Day>& day);

/// "+5", "0", "-3", or "-".
std::string shift_cell(const std::optional<int>& days);

/// "68 (57)": middle and low end, or "-".
std::string control_cell(const std::optional<Band<double>>& control);

}  // namespace soilclock::report
