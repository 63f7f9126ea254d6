// SPDX-License-Identifier: MIT
// The same stages run over a site's past seasons and over small changes of the site, side by side. Pure, as
// the pipeline is.
#pragma once

#include "advice/comparison/comparison.hpp"
#include "pipeline.hpp"

namespace soilclock {

/// Answers a site and compares its seasons, rules and what-ifs. Problems are in the answer.
advice::SiteComparison compare_site(SiteRequest request, const advice::Catalogue& catalogue);

}  // namespace soilclock
