// SPDX-License-Identifier: MIT
// A what-if beside the answer it is held against.
#pragma once

#include <string>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// What changed in words, the figures of both side by side and the season in that case; a part of a page.
/// Where one of the answers is a refusal, its reason.
std::string what_if_part(const advice::TargetAnswer& as_read, const advice::SiteAnswer& asked_site,
                         const advice::TargetAnswer& asked, int weeks_later);

}  // namespace soilclock::report
