// SPDX-License-Identifier: MIT
#include "app/answers.hpp"

#include <algorithm>
#include <limits>
#include <ostream>
#include <set>

#include "core/text.hpp"

namespace soilclock::app {

namespace {

bool answered(const advice::SiteAnswer& answer) {
  return std::any_of(answer.targets.begin(), answer.targets.end(),
                     [](const advice::TargetAnswer& target) { return !target.refusal; });
}

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// The place as the user says it; not known where only the weather file can say it, never 0 N 0 E.
Place said_place(const Site& site) { return site.place_known ? site.place : Place{unknown, unknown, {}}; }

}  // namespace

advice::SiteAnswer refused_answer(Problem problem, Day on) {
  advice::SiteAnswer answer;
  answer.place = {unknown, unknown, {}};
  answer.on = on;
  answer.soil.error_c = unknown;
  answer.problems.push_back(std::move(problem));
  return answer;
}

advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on,
                              const advice::Catalogue& catalogue, bool season_tables) {
  auto request = request_for(site, options, on, catalogue);
  if (!request) {
    advice::SiteAnswer answer = refused_answer(request.error(), on);
    answer.site = site.id;
    answer.name = site.name;
    answer.place = said_place(site);
    return answer;
  }
  request->season_tables = season_tables;
  advice::SiteAnswer answer = answer_site(*request, catalogue);
  const bool stopped_early = answer.soil.origin.empty();  // before or just where the place is settled
  if (stopped_early) answer.place = said_place(site);
  if (stopped_early) answer.soil.error_c = unknown;
  return answer;
}

int exit_code_of(const std::vector<advice::SiteAnswer>& answers) {
  const auto good = std::count_if(answers.begin(), answers.end(), answered);
  const auto whole = std::count_if(answers.begin(), answers.end(),
                                   [](const advice::SiteAnswer& answer) { return answer.problems.empty(); });
  if (whole == static_cast<std::ptrdiff_t>(answers.size())) return 0;
  if (good > 0) return 1;
  for (const advice::SiteAnswer& answer : answers) {
    if (!answer.problems.empty()) return exit_code(answer.problems.front().family);
  }
  return 0;
}

report::AnswerFrame frame_for(const std::vector<advice::SiteAnswer>& answers, Day on,
                              const advice::Catalogue& catalogue) {
  report::AnswerFrame frame;
  frame.on = on;
  std::set<std::string> ids;
  const auto cite = [&](const ModelHead& model) {
    for (const Citation& citation : model.sources) ids.insert(citation.source);
  };
  for (const advice::SiteAnswer& answer : answers) {
    for (const advice::TargetAnswer& target : answer.targets) {
      for (const advice::ModelShare& share : target.models) {
        cite(catalogue.emergence.at(share.id));
      }
    }
  }
  for (const soil::SoilModel& model : catalogue.soil.all()) cite(model);
  for (const std::string& id : ids) {
    if (const auto source = catalogue.sources.find(id); source != catalogue.sources.end()) {
      frame.sources.push_back(source->second);
    }
  }
  for (const advice::Caution& caution : catalogue.practice.cautions) {
    frame.cautions.push_back(caution.text);
    if (caution.brief) frame.brief_cautions.push_back(caution.text);
  }
  return frame;
}

void write_problems(const std::vector<advice::SiteAnswer>& answers, const std::string& format,
                    Streams& streams) {
  for (const advice::SiteAnswer& answer : answers) {
    for (const Problem& problem : answer.problems) report_of_site(answer.site, problem, format, streams);
  }
}

}  // namespace soilclock::app
