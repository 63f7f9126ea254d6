// SPDX-License-Identifier: MIT
#include "app/commands/advise.hpp"

#include <istream>
#include <ostream>

#include "app/neighbors.hpp"
#include "app/text_store.hpp"
#include "core/text.hpp"
#include "report/advice_csv.hpp"
#include "report/advice_document.hpp"
#include "report/advice_text.hpp"

namespace soilclock::app {

std::string AdviseCommand::examples() const {
  return "  soilclock advise --sites courses.json --on 2026-10-15\n"
         "  soilclock advise --sites courses.json --only copper-heron --plan \"prodiamine + simazine\"\n"
         "  soilclock advise --weather course.csv --latitude 36.0 --longitude -85.1 --irrigated yes --target "
         "POAAN\n";
}

void AdviseCommand::declare(Options& options) {
  sites_.declare(options);
  sites_.declare_plan(options);
  declare_format(options, format_, {"text", "json", "csv"});
  options.flag("--details", details_, "everything behind a text answer, below it");
  options.flag("--past-seasons", past_seasons_,
               "json: the seasons of the record that are over, beside this one (takes longer)");
}

int AdviseCommand::run(Streams& streams) {
  if (sites_.sites == "-") return run_lines(streams);
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  if (format_ == "json") return write_document(*question, streams);
  std::vector<advice::SiteAnswer> answers;
  Neighbors neighbors{question->sites};
  SharedWeather shared{.neighbors = &neighbors};
  for (const Site& site : question->sites)
    answers.push_back(answer_for(site, sites_, question->on, question->catalogue, wanted(), &shared));
  const report::AnswerFrame frame = frame_for(answers, question->on, question->catalogue);
  if (format_ == "csv")
    streams.out << report::advice_csv(answers);
  else
    write_text(answers, frame, streams);
  write_problems(answers, format_, streams);
  return exit_code_of(answers);
}

Wanted AdviseCommand::wanted() const { return {.past_seasons = past_seasons_}; }

/// One answer is held at a time: those of ten thousand sites would not fit.
int AdviseCommand::write_document(const Question& question, Streams& streams) const {
  report::AdviceDocument document;
  TextStore store;
  AnswerSummary summary;
  Neighbors neighbors{question.sites};
  SharedWeather shared{.neighbors = &neighbors};
  for (const Site& site : question.sites) {
    const advice::SiteAnswer answer =
        answer_for(site, sites_, question.on, question.catalogue, wanted(), &shared);
    summary.add(answer);
    write_problems({answer}, format_, streams);
    if (const auto stored = store.add(document.add(answer)); !stored) return report(stored.error(), streams);
  }
  if (const auto whole = store.rewind(); !whole) return report(whole.error(), streams);
  const auto written = document.write(
      summary.frame(question.on, question.catalogue), [&] { return store.next(); },
      [&](std::string_view part) { streams.out << part; });
  return written ? summary.exit_code() : report(written.error(), streams);
}

/// One site gets its short answer, several a table, below what the areas of a course come to; details stand
/// below where they were asked for.
void AdviseCommand::write_text(const std::vector<advice::SiteAnswer>& answers,
                               const report::AnswerFrame& frame, Streams& streams) const {
  streams.out << report::courses_text(frame.courses);
  if (answers.size() == 1)
    streams.out << report::advice_brief(answers.front());
  else
    streams.out << report::advice_table(answers);
  if (details_) {
    for (const advice::SiteAnswer& answer : answers) streams.out << "\n" << report::advice_details(answer);
  }
  streams.out << report::closing_text(frame);
}

/// One site a line in, one answer a line out, in the same order.
int AdviseCommand::run_lines(Streams& streams) {
  if (const auto problem = sites_.misuse()) return report(*problem, streams);
  if (format_ != "json") {
    return report(
        {Family::request, "sites on standard input are answered line by line", {}, {}, "--format json", {}},
        streams);
  }
  const auto catalogue = load_models(sites_.models, sites_.practice);
  if (!catalogue) return report(catalogue.error(), streams);
  if (const auto plan = plan_for({}, sites_.plan, *catalogue); !plan) return report(plan.error(), streams);
  if (const auto on = sites_.day({}, streams); !on) return report(on.error(), streams);
  int failed = 0;
  int lines = 0;
  int first_code = 0;
  std::string line;
  for (int number = 1; std::getline(streams.in, line); ++number) {
    if (trimmed(line).empty()) continue;
    ++lines;
    const auto sites = read_site_line(line, number);
    const auto on = sites_.day(sites.value_or(std::vector<Site>{}), streams);
    std::vector<advice::SiteAnswer> answers;
    SharedWeather shared;
    if (!sites) answers.push_back(refused_answer(sites.error(), *on));
    for (const Site& site : sites.value_or(std::vector<Site>{}))
      answers.push_back(answer_for(site, sites_, *on, *catalogue, wanted(), &shared));
    const int code = exit_code_of(answers);
    failed += code == 0 ? 0 : 1;
    if (first_code == 0) first_code = code;
    write_problems(answers, format_, streams);
    streams.out << report::advice_json_line(answers, frame_for(answers, *on, *catalogue));
    streams.out.flush();
  }
  if (lines == 0) {
    return report(
        {Family::request, "standard input holds no site", {}, {}, "one site as JSON on each line", {}},
        streams);
  }
  if (failed == 0) return 0;
  return failed < lines ? 1 : first_code;
}

}  // namespace soilclock::app
