// SPDX-License-Identifier: MIT
// Answers for sites as the user named them, and what stands around the answers.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"
#include "report/advice_json.hpp"
#include "site/site_request.hpp"

namespace soilclock {

/// What an answer is to hold beside the advice.
struct Wanted {
  bool season_tables = false;
  bool past_seasons = false;
};

/// The answer where not even the site could be read: its problem and nothing else.
advice::SiteAnswer refused_answer(Problem problem, Day on);

/// The answer of a site to its request; where there is none, the problem that stood in its way is the answer.
advice::SiteAnswer answered(const Site& site, const Result<SiteRequest>& request, Day on,
                            const advice::Catalogue& catalogue, const Wanted& wanted);

/// "soilclock: NAME: what is wrong", as a line for people; without a name where the site has none.
std::string problem_line(const std::string& site, const Problem& problem);

/// What is said of all answers together, course by course where they are of areas, gathered one after
/// another.
class AnswerSummary {
 public:
  void add(const advice::SiteAnswer& answer);

  /// 0 when every site was answered, 1 when some were, else the exit code of the first problem.
  int exit_code() const;

  /// Sources of the models named, the cautions, and what the areas of courses come to.
  report::AnswerFrame frame(Day on, const advice::Catalogue& catalogue) const;

 private:
  std::size_t sites_ = 0;
  std::size_t good_ = 0;   ///< with an answer
  std::size_t whole_ = 0;  ///< without a problem
  std::optional<Family> first_problem_;
  std::set<std::string> models_;
  advice::CourseSummaries courses_;
};

/// The same of answers that are all there.
int exit_code_of(const std::vector<advice::SiteAnswer>& answers);
report::AnswerFrame frame_for(const std::vector<advice::SiteAnswer>& answers, Day on,
                              const advice::Catalogue& catalogue);

}  // namespace soilclock
