// SPDX-License-Identifier: MIT
#include "app/commands/season.hpp"

#include <ostream>

#include "app/answers.hpp"
#include "app/neighbors.hpp"
#include "report/season_report.hpp"

namespace soilclock::app {

std::string SeasonCommand::examples() const {
  return "  soilclock season --sites courses.json --only copper-heron --format csv\n"
         "  soilclock season --weather course.csv --latitude 36.0 --longitude -85.1 --target DIGIS\n";
}

void SeasonCommand::declare(Options& options) {
  sites_.declare(options);
  sites_.declare_plan(options);
  declare_format(options, format_, {"text", "json", "csv"});
}

int SeasonCommand::run(Streams& streams) {
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  std::vector<advice::SiteAnswer> answers;
  Neighbors neighbors{question->sites};
  SharedWeather shared{.neighbors = &neighbors};
  for (const Site& site : question->sites) {
    answers.push_back(
        answer_for(site, sites_, question->on, question->catalogue, {.season_tables = true}, &shared));
  }
  if (format_ == "json")
    streams.out << report::season_json(answers, question->on);
  else if (format_ == "csv")
    streams.out << report::season_csv(answers);
  else {
    for (const advice::SiteAnswer& answer : answers)
      streams.out << report::season_text({answer}, answer.facts.us_units);
  }
  write_problems(answers, format_, streams);
  return exit_code_of(answers);
}

}  // namespace soilclock::app
