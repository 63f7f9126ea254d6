// SPDX-License-Identifier: MIT
// Which point of a service's answer belongs to which site.
#pragma once

#include <string>
#include <vector>

#include "app/fetch_jobs.hpp"
#include "net/requests/services.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::app {

/// A problem (data) with a whole answer: nothing of it is stored.
Problem useless_answer(const net::Service& service, const std::string& what, const std::string& found = {},
                       const std::string& expected = {});

/// How far from a site the place of an answer may lie, in degrees of latitude and of longitude.
double farthest_answer_deg(const net::Service& service);

/// The `point` of the answer for each site of the job, in their order: a station by its id, a point of a grid
/// by its place, the nearest one, never by its position in the answer. Problems (data): another station; more
/// or fewer places than sites; a place that is not said; one place twice for sites that do not share a cell.
Result<std::vector<int>> points_of_sites(const net::Service& service, const weather::ServiceAnswer& answer,
                                         const FetchJob& job);

}  // namespace soilclock::app
