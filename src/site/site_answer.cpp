// SPDX-License-Identifier: MIT
#include "site/site_answer.hpp"

#include <algorithm>
#include <limits>

#include "core/text.hpp"

namespace soilclock {

namespace {

bool any_answer(const advice::SiteAnswer& answer) {
  return std::any_of(answer.targets.begin(), answer.targets.end(),
                     [](const advice::TargetAnswer& target) { return !target.refusal; });
}

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// What the site file says of a site that cannot be answered for.
advice::SiteFacts said_facts(const Site& site) {
  advice::SiteFacts facts;
  facts.group = site.group;
  facts.area = site.area;
  if (site.time_zone) facts.time_zone = site.time_zone->name();
  return facts;
}

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

advice::SiteAnswer answered(const Site& site, const Result<SiteRequest>& request, Day on,
                            const advice::Catalogue& catalogue, const Wanted& wanted) {
  if (!request) {
    advice::SiteAnswer answer = refused_answer(request.error(), on);
    answer.site = site.id;
    answer.name = site.name;
    answer.place = said_place(site);
    answer.facts = said_facts(site);
    return answer;
  }
  SiteRequest asked = *request;
  asked.season_tables = wanted.season_tables;
  asked.past_seasons = wanted.past_seasons;
  advice::SiteAnswer answer = answer_site(asked, catalogue);
  const bool stopped_early = answer.soil.origin.empty();  // before or just where the place is settled
  if (stopped_early) answer.place = said_place(site);
  if (stopped_early) answer.soil.error_c = unknown;
  return answer;
}

void AnswerSummary::add(const advice::SiteAnswer& answer) {
  ++sites_;
  good_ += any_answer(answer) ? 1U : 0U;
  whole_ += answer.problems.empty() ? 1U : 0U;
  courses_.add(answer);
  if (!first_problem_ && !answer.problems.empty()) first_problem_ = answer.problems.front().family;
  for (const advice::TargetAnswer& target : answer.targets) {
    for (const advice::ModelShare& share : target.models) models_.insert(share.id);
  }
}

int AnswerSummary::exit_code() const {
  if (whole_ == sites_) return 0;
  if (good_ > 0) return 1;
  return first_problem_ ? soilclock::exit_code(*first_problem_) : 0;
}

report::AnswerFrame AnswerSummary::frame(Day on, const advice::Catalogue& catalogue) const {
  report::AnswerFrame frame;
  frame.on = on;
  frame.program = SOILCLOCK_VERSION;
  frame.courses = courses_.made();
  std::set<std::string> ids;
  const auto cite = [&](const ModelHead& model) {
    for (const Citation& citation : model.sources) ids.insert(citation.source);
  };
  for (const std::string& model : models_) cite(catalogue.emergence.at(model));
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

std::string problem_line(const std::string& site, const Problem& problem) {
  const std::string name = site.empty() ? "" : printable(site, 80) + ": ";
  return "soilclock: " + name + describe(problem) + "\n";
}

int exit_code_of(const std::vector<advice::SiteAnswer>& answers) {
  AnswerSummary summary;
  for (const advice::SiteAnswer& answer : answers) summary.add(answer);
  return summary.exit_code();
}

report::AnswerFrame frame_for(const std::vector<advice::SiteAnswer>& answers, Day on,
                              const advice::Catalogue& catalogue) {
  AnswerSummary summary;
  for (const advice::SiteAnswer& answer : answers) summary.add(answer);
  return summary.frame(on, catalogue);
}

}  // namespace soilclock
