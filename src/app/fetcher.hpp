// SPDX-License-Identifier: MIT
// Asks the services for the weather of sites and stores what comes, answer by answer.
#pragma once

#include <vector>

#include "app/answer_storing.hpp"
#include "app/command.hpp"
#include "app/fetch_jobs.hpp"
#include "report/fetch_report.hpp"

namespace soilclock::app {

/// Fetches everything that the sites' services offer and the records file lacks. Each answer is stored as a
/// whole before the next is asked for; what fails is reported with its site and the rest goes on. A request
/// for several sites that fails is asked again site by site. After three failures in a row, or one for a
/// single site that used up the time of an answer (net::ClientSettings::total_limit), a service is left alone
/// until the next run; a place or station it does not know is no such failure. Waits where a service allows
/// so many calls a minute or an hour; when its day is used up, the rest is a problem. Problem: an unknown
/// service, a contact that is asked for and not there, a records file that cannot be read, or no network
/// library.
Result<report::FetchReport> fetch_weather(const std::vector<Site>& sites, const net::Services& services,
                                          records::Store& store, const Streams& streams,
                                          const FetchOptions& options);

/// Keeps one saved answer for one site, as if the service had given it at `given`. Nothing is asked for.
Result<report::FetchReport> store_saved(const Site& site, const net::Services& services,
                                        records::Store& store, const AnswerText& saved);

/// 0 when nothing failed, 1 when something came for some site, else the code of the first problem.
int fetch_exit_code(const report::FetchReport& report);

}  // namespace soilclock::app
