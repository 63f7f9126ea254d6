// SPDX-License-Identifier: MIT
// From the text of a service's answer to days in the records file.
#pragma once

#include <string>
#include <vector>

#include "app/fetch_jobs.hpp"
#include "core/remark.hpp"
#include "net/services.hpp"
#include "records/weather_store.hpp"

namespace soilclock::app {

/// An answer as it came.
struct AnswerText {
  std::string body;
  Instant given{};
  std::string origin;  ///< host, or name of a saved file
};

/// What keeping an answer did for one of its sites.
struct KeptAnswer {
  ServedSite site;
  records::KeepingResult kept;
  int members = 0;
  std::vector<Remark> remarks;  ///< doubts about the answer, days spared
};

/// Reads an answer and keeps it for all sites of the job, in their order. Problem (data): it is no answer to
/// the job (unreadable, other points, no temperature); then nothing is kept. Problem (world): the file cannot
/// be written.
Result<std::vector<KeptAnswer>> keep_answer(const net::Service& service, const FetchJob& job,
                                            const AnswerText& answer, records::WeatherStore& store);

/// Which of a site's services a saved answer is of: the one its shape tells, else the only one. Problem
/// (request): none of them, or it cannot be told.
Result<SiteService> service_of_saved(const Site& site, const AnswerText& saved);

/// Which part of a service a saved answer is: days to come make it a forecast, several members an ensemble.
/// Problem (data): it cannot be read.
Result<records::WeatherPart> part_of_saved(const net::Service& service, const ServedSite& site,
                                           const AnswerText& saved);

}  // namespace soilclock::app
