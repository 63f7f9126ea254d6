// SPDX-License-Identifier: MIT
#include "app/answers.hpp"

#include <algorithm>
#include <ostream>
#include <set>

namespace soilclock::app {

namespace {

bool answered(const advice::SiteAnswer& answer) {
  return std::any_of(answer.targets.begin(), answer.targets.end(),
                     [](const advice::TargetAnswer& target) { return !target.refusal; });
}

}  // namespace

advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on, const advice::Catalogue& catalogue,
                              bool season_tables) {
  auto request = request_for(site, options, on, catalogue);
  if (!request) {
    advice::SiteAnswer answer;
    answer.site = site.id;
    answer.name = site.name;
    answer.place = site.place;
    answer.on = on;
    answer.problems.push_back(request.error());
    return answer;
  }
  request->season_tables = season_tables;
  return answer_site(*request, catalogue);
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

report::AnswerFrame frame_for(const std::vector<advice::SiteAnswer>& answers, Day on, const advice::Catalogue& catalogue) {
  report::AnswerFrame frame;
  frame.on = on;
  std::set<std::string> ids;
  for (const advice::SiteAnswer& answer : answers) {
    for (const advice::TargetAnswer& target : answer.targets) {
      for (const advice::ModelShare& share : target.models) {
        for (const emergence::Citation& citation : catalogue.emergence.at(share.id).sources) ids.insert(citation.source);
      }
    }
  }
  for (const soil::SoilModel& model : catalogue.soil.all()) ids.insert(model.sources.begin(), model.sources.end());
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

void write_problems(const std::vector<advice::SiteAnswer>& answers, Streams& streams) {
  for (const advice::SiteAnswer& answer : answers) {
    for (const Problem& problem : answer.problems) {
      streams.err << "soilclock: " << answer.site << ": " << describe(problem) << "\n";
    }
  }
}

}  // namespace soilclock::app
