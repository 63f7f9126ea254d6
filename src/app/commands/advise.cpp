// SPDX-License-Identifier: MIT
#include "app/commands/advise.hpp"

#include <fmt/format.h>

#include <istream>
#include <memory>
#include <ostream>

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
  options.under(Heading::advanced);
  options.whole("--jobs N", jobs_, "sites worked on at the same time, each on a core of its own (default 1)");
}

std::optional<Problem> AdviseCommand::misuse() const {
  if (!jobs_ || (*jobs_ >= 1 && *jobs_ <= most_jobs)) return std::nullopt;
  return Problem{
      Family::request,        "--jobs is out of range",          {},
      std::to_string(*jobs_), fmt::format("1 to {}", most_jobs), "more jobs than cores gain nothing"};
}

int AdviseCommand::run(Streams& streams) {
  if (const auto problem = misuse()) return report(*problem, streams);
  if (sites_.sites == "-") return run_lines(streams);
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  if (format_ == "json") return write_document(*question, streams);
  std::vector<advice::SiteAnswer> answers;
  answer_in_order(jobs(), *question, sites_, wanted(), [&](advice::SiteAnswer answer) {
    answers.push_back(std::move(answer));
    return true;
  });
  const report::AnswerFrame frame = frame_for(answers, question->on, question->catalogue);
  if (format_ == "csv")
    streams.out << report::advice_csv(answers);
  else
    write_text(answers, frame, streams);
  write_problems(answers, format_, streams);
  return exit_code_of(answers);
}

Wanted AdviseCommand::wanted() const { return {.past_seasons = past_seasons_}; }

/// No more answers are held than are worked on: those of ten thousand sites would not fit.
int AdviseCommand::write_document(const Question& question, Streams& streams) const {
  report::AdviceDocument document;
  TextStore store;
  AnswerSummary summary;
  Checked stored;
  answer_in_order(jobs(), question, sites_, wanted(), [&](const advice::SiteAnswer& answer) {
    summary.add(answer);
    write_problems({answer}, format_, streams);
    stored = store.add(document.add(answer));
    return stored.has_value();
  });
  if (!stored) return report(stored.error(), streams);
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

namespace {

/// A line of standard input with its answers, which are there one after another.
struct AskedLine {
  std::vector<Site> sites;
  Day on{};
  std::vector<advice::SiteAnswer> answers;
};

/// How many lines were answered, and how well.
struct LineCount {
  int lines = 0;
  int failed = 0;
  int first_code = 0;

  void add(int code) {
    ++lines;
    failed += code == 0 ? 0 : 1;
    if (first_code == 0) first_code = code;
  }
  int exit_code() const {
    if (failed == 0) return 0;
    return failed < lines ? 1 : first_code;
  }
};

}  // namespace

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
  LineCount count;
  const auto write_line = [&](const AskedLine& line) {
    count.add(exit_code_of(line.answers));
    write_problems(line.answers, format_, streams);
    streams.out << report::advice_json_line(line.answers, frame_for(line.answers, line.on, *catalogue));
    streams.out.flush();
    return true;
  };
  SharedWeather shared;
  std::shared_ptr<AskedLine> line;
  std::size_t next_site = 0;
  int number = 0;
  work_in_order(jobs(), [&]() -> Work {
    if (!line || next_site == line->sites.size()) {
      std::string text;
      do {
        if (!std::getline(streams.in, text)) return {};
        ++number;
      } while (trimmed(text).empty());
      line = std::make_shared<AskedLine>();
      next_site = 0;
      shared.course.clear();  // the next line asks anew, whatever its course is called
      auto sites = read_site_line(text, number);
      line->on = *sites_.day(sites.value_or(std::vector<Site>{}), streams);
      if (!sites) {
        line->answers.push_back(refused_answer(sites.error(), line->on));
        return [=] { return [=] { return write_line(*line); }; };
      }
      line->sites = std::move(*sites);
    }
    return answering(line->sites[next_site++], sites_, line->on, *catalogue, wanted(), &shared,
                     [=](advice::SiteAnswer answer) {
                       line->answers.push_back(std::move(answer));
                       return line->answers.size() < line->sites.size() || write_line(*line);
                     });
  });
  if (count.lines == 0) {
    return report(
        {Family::request, "standard input holds no site", {}, {}, "one site as JSON on each line", {}},
        streams);
  }
  return count.exit_code();
}

}  // namespace soilclock::app
