// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// A map of many sites as GeoJSON (RFC 7946): a point each, longitude before latitude, null where the place
/// is not known. Properties: site, name, group, on; headline, action, kind, urgency (points lost if nothing
/// is done for three weeks), rank (over all sites, 1 the most urgent) and good_through (Monday) of the site's
/// most urgent grass, else of its first; and `targets` with the same of each grass. Ends with a line feed.
std::string sites_geojson(std::span<const advice::SiteAnswer> sites);

}  // namespace soilclock::report
