// SPDX-License-Identifier: MIT
// What-ifs beside the answer they are held against: parts of a page.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// One what-if: its name, the answer of the site in that case, and the target in it that is compared.
struct AskedCase {
  std::string name;
  const advice::SiteAnswer* site = nullptr;
  const advice::TargetAnswer* target = nullptr;
};

/// What changed in words, the figures of both side by side and the season in that case, with the seedlings up
/// of the answer as it is behind them. Where one of the answers is a refusal, its reason.
std::string what_if_part(const advice::TargetAnswer& as_read, const AskedCase& asked, int weeks_later);

/// One table with a column for the answer as it is and one for each case, then the season of each case.
std::string cases_part(const advice::TargetAnswer& as_read, const std::vector<AskedCase>& cases);

}  // namespace soilclock::report
