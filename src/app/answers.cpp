// SPDX-License-Identifier: MIT
#include "app/answers.hpp"

#include <memory>

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

Work answering(const Site& site, const SiteOptions& options, Day on, const advice::Catalogue& catalogue,
               const Wanted& wanted, SharedWeather* shared, TakeAnswer take) {
  auto read = request_among(site, options, on, catalogue, shared);
  // What is called later is copied about.
  const auto request = std::make_shared<const Result<SiteRequest>>(std::move(read));
  return [&site, &options, on, &catalogue, wanted, request, take = std::move(take)]() -> Finish {
    const auto answer = std::make_shared<advice::SiteAnswer>(answered(site, *request, on, catalogue, wanted));
    return [&options, &catalogue, was_read = request->has_value(), answer, take] {
      if (was_read) {
        const auto compared = add_changes(options.records, catalogue.practice.changes, *answer);
        if (!compared) answer->problems.push_back(compared.error());
      }
      return take(std::move(*answer));
    };
  };
}

void answer_in_order(int jobs, const Question& question, const SiteOptions& options, const Wanted& wanted,
                     const TakeAnswer& take) {
  Neighbors neighbors{question.sites};
  SharedWeather shared{.neighbors = &neighbors};
  auto site = question.sites.begin();
  work_in_order(jobs, [&]() -> Work {
    if (site == question.sites.end()) return {};
    return answering(*site++, options, question.on, question.catalogue, wanted, &shared, take);
  });
}

advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on,
                              const advice::Catalogue& catalogue, const Wanted& wanted,
                              SharedWeather* shared) {
  advice::SiteAnswer answer;
  const Work work = answering(site, options, on, catalogue, wanted, shared, [&](advice::SiteAnswer one) {
    answer = std::move(one);
    return true;
  });
  work()();
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
