// SPDX-License-Identifier: MIT
// Collects what a fetch brings, site by site, into its report.
#pragma once

#include <vector>

#include "app/answer_storing.hpp"
#include "report/fetch_report.hpp"

namespace soilclock::app {

class FetchTally {
 public:
  explicit FetchTally(const std::vector<Site>& sites);

  /// The parts a service offers each site, before anything came.
  void expect(const net::Service& service, const std::vector<ServedSite>& sites,
              const std::vector<records::WeatherPart>& parts);
  void came(const net::Service& service, records::WeatherPart part, const StoredAnswer& answer);
  /// A problem is reported once a site, however many requests met it.
  void failed(const FetchJob& job, const Problem& problem);
  void counted(const net::Service& service, double this_run, double today);
  /// What the records file holds now. Problem: it cannot be read.
  Checked describe(const net::Service& service, const std::vector<ServedSite>& sites,
                   records::WeatherStore& store);
  const report::FetchReport& report() const { return report_; }

 private:
  report::FetchedPart* find(const net::Service& service, const ServedSite& site, records::WeatherPart part);
  report::FetchReport report_;
};

}  // namespace soilclock::app
