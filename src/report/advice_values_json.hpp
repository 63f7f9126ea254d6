// SPDX-License-Identifier: MIT
#pragma once

#include "report/advice_json.hpp"
#include "report/json_values.hpp"

namespace soilclock::report {

/// A site as it stands in the document of advice; ranks are open (null).
Json site_json(const advice::SiteAnswer& site);

/// The document without its sites.
Json frame_json(const AnswerFrame& frame);

}  // namespace soilclock::report
