// SPDX-License-Identifier: MIT
// Answering for one or many sites: one site's failure does not stop the others.
#pragma once

#include <vector>

#include "advice/answer/answer.hpp"
#include "app/site_requests.hpp"
#include "report/advice_json.hpp"

namespace soilclock::app {

/// The answer where not even the site could be read: its problem and nothing else.
advice::SiteAnswer refused_answer(Problem problem, Day on);

/// The answer of a site; a problem with its files is in the answer.
advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on,
                              const advice::Catalogue& catalogue, bool season_tables);

/// 0 when every site was answered, 1 when some were, else the exit code of the first problem.
int exit_code_of(const std::vector<advice::SiteAnswer>& answers);

/// Sources of the models that took part and the cautions.
report::AnswerFrame frame_for(const std::vector<advice::SiteAnswer>& answers, Day on,
                              const advice::Catalogue& catalogue);

/// Every problem of the answers by report_of_site.
void write_problems(const std::vector<advice::SiteAnswer>& answers, const std::string& format,
                    Streams& streams);

}  // namespace soilclock::app
