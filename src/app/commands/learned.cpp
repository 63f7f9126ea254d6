// SPDX-License-Identifier: MIT
#include "app/commands/learned.hpp"

#include <ostream>

#include "app/answers.hpp"
#include "app/neighbors.hpp"
#include "report/learned_report.hpp"

namespace soilclock::app {

std::string LearnedCommand::examples() const {
  return "  soilclock learned --sites courses.json --on 2026-09-15\n"
         "  soilclock learned --sites courses.json --only copper-heron --target POAAN --format csv\n";
}

void LearnedCommand::declare(Options& options) {
  sites_.declare(options);
  declare_format(options, format_, {"text", "json", "csv"});
}

int LearnedCommand::run(Streams& streams) {
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  std::vector<advice::SiteAnswer> answers;
  Neighbors neighbors{question->sites};
  SharedWeather shared{.neighbors = &neighbors};
  for (const Site& site : question->sites)
    answers.push_back(answer_for(site, sites_, question->on, question->catalogue, {}, &shared));
  if (format_ == "json")
    streams.out << report::learned_json(answers, question->on);
  else if (format_ == "csv")
    streams.out << report::learned_csv(answers);
  else
    streams.out << report::learned_text(answers);
  write_problems(answers, format_, streams);
  return exit_code_of(answers);
}

}  // namespace soilclock::app
