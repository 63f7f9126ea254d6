// SPDX-License-Identifier: MIT
#include "app/commands/compare.hpp"

#include <fmt/format.h>

#include <ostream>

#include "app/answers.hpp"
#include "app/neighbors.hpp"
#include "report/comparison_report.hpp"

namespace soilclock::app {

std::string CompareCommand::examples() const {
  return "  soilclock compare --sites courses.json\n"
         "  soilclock compare --sites courses.json --only copper-heron --target DIGIS --on 2026-10-15 "
         "--format "
         "csv\n";
}

void CompareCommand::declare(Options& options) {
  sites_.declare(options);
  sites_.declare_plan(options);
  declare_format(options, format_, {"text", "json", "csv"});
}

int CompareCommand::run(Streams& streams) {
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  std::vector<advice::SiteComparison> sites;
  std::vector<advice::SiteAnswer> answers;
  Neighbors neighbors{question->sites};
  SharedWeather shared{.neighbors = &neighbors};
  for (const Site& site : question->sites) {
    if (streams.watched)
      streams.err << fmt::format("\r{} of {} courses", sites.size(), question->sites.size()) << std::flush;
    sites.push_back(comparison_for(site, sites_, question->on, question->catalogue, &shared));
    answers.push_back(sites.back().answer);
  }
  if (streams.watched) streams.err << "\r" << std::string(30, ' ') << "\r";
  const report::AnswerFrame frame = frame_for(answers, question->on, question->catalogue);
  if (format_ == "json")
    streams.out << report::comparison_json(sites, frame);
  else if (format_ == "csv")
    streams.out << report::comparison_csv(sites);
  else
    streams.out << report::comparison_text(sites, frame);
  write_problems(answers, format_, streams);
  return exit_code_of(answers);
}

}  // namespace soilclock::app
