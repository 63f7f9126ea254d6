// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>

#include "advice/answer/course_summary.hpp"

namespace soilclock::report {

/// A map of many courses as GeoJSON (RFC 7946): a point each, longitude before latitude, null where the place
/// is not known. Properties: site, name, group, on; headline, action, kind, urgency (points lost if nothing
/// is done for three weeks), rank (over all sites and areas, 1 the most urgent) and good_through (Monday) of
/// the course's most urgent grass, else of its first; and `targets` with the same of each grass, each with
/// its area. A course with areas is one point, and its headline is what they come to, where `courses` says
/// it. Ends with a line feed.
std::string sites_geojson(std::span<const advice::SiteAnswer> sites,
                          std::span<const advice::CourseSummary> courses = {});

}  // namespace soilclock::report
