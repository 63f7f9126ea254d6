// SPDX-License-Identifier: MIT
// From the text of a service's answer to days in the records file.
#pragma once

#include <string>
#include <vector>

#include "app/fetch_jobs.hpp"
#include "core/remark.hpp"
#include "net/requests/services.hpp"
#include "records/weather_store.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::app {

/// An answer as it came.
struct AnswerText {
  std::string body;
  Instant given{};
  std::string origin;    ///< host, or name of a saved file
  std::string asked_in;  ///< units the service was asked for ("C,mm"), where its answer does not name them
  std::string units_in;  ///< units the user says a saved answer is in
  bool given_unsaid = false;  ///< `given` is only when the file was last written
};

/// What storing an answer did for one of its sites.
struct StoredAnswer {
  ServedSite site;
  Instant at{};  ///< when it was given
  records::StoringResult stored;
  int members = 0;
  std::vector<Remark> remarks;  ///< doubts about the answer, days spared
};

/// Reads an answer to a job: unreadable, of another service, or none to the job at all is a problem (data).
Result<weather::ServiceAnswer> read_job_answer(const net::Service& service, const FetchJob& job,
                                               const AnswerText& answer);

/// Keeps an answer for all sites of the job, in their order. Problem (data): it is for other points or
/// another station, or holds no temperature; then nothing is kept. Problem (environment): the file cannot be
/// written.
Result<std::vector<StoredAnswer>> store_answer(const net::Service& service, const FetchJob& job,
                                               const AnswerText& text, const weather::ServiceAnswer& answer,
                                               records::WeatherStore& store);

/// Whether a saved answer can have been given when it is said to: its days begin on that day or before, and
/// end no later than any forecast reaches. Problem (request).
std::optional<Problem> issue_time_conflict(const ServedSite& site, const AnswerText& saved,
                                           const weather::ServiceAnswer& answer);

/// What is assumed about a saved answer where nobody named it: the day it was given.
std::optional<Remark> given_assumed(const AnswerText& saved, const weather::ServiceAnswer& answer);

/// Which of a site's services a saved answer is of: the one its shape tells, else the only one. Problem
/// (request): none of them, or it cannot be known.
Result<SiteService> service_of_saved(const Site& site, const AnswerText& saved);

/// Which part of a service an answer saved for a site is: days to come make it a forecast, several members an
/// ensemble.
records::WeatherPart part_of_saved(const ServedSite& site, const AnswerText& saved,
                                   const weather::ServiceAnswer& answer);

}  // namespace soilclock::app
