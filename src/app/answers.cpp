// SPDX-License-Identifier: MIT
#include "app/answers.hpp"

#include "app/earlier_answers.hpp"
#include "app/neighbors.hpp"
#include "pipeline_compare.hpp"

namespace soilclock::app {

namespace {

/// The request of a site with what its neighbors noted.
Result<SiteRequest> request_among(const Site& site, const SiteOptions& options, Day on,
                                  const advice::Catalogue& catalogue, SharedWeather* shared) {
  auto request = request_for(site, options, on, catalogue, shared);
  if (request && shared != nullptr && shared->neighbors != nullptr)
    request->neighbors = shared->neighbors->of(site, options, on, catalogue);
  return request;
}

}  // namespace

advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on,
                              const advice::Catalogue& catalogue, const Wanted& wanted,
                              SharedWeather* shared) {
  const auto request = request_among(site, options, on, catalogue, shared);
  advice::SiteAnswer answer = answered(site, request, on, catalogue, wanted);
  if (!request) return answer;
  if (const auto compared = add_changes(options.records, catalogue.practice.changes, answer); !compared)
    answer.problems.push_back(compared.error());
  return answer;
}

advice::SiteComparison comparison_for(const Site& site, const SiteOptions& options, Day on,
                                      const advice::Catalogue& catalogue, SharedWeather* shared) {
  auto request = request_among(site, options, on, catalogue, shared);
  if (!request) return {answer_for(site, options, on, catalogue, {}, shared), {}, {}, {}};
  return compare_site(std::move(*request), catalogue);
}

void write_problems(const std::vector<advice::SiteAnswer>& answers, const std::string& format,
                    Streams& streams) {
  for (const advice::SiteAnswer& answer : answers) {
    for (const Problem& problem : answer.problems) report_of_site(answer.site, problem, format, streams);
  }
}

}  // namespace soilclock::app
