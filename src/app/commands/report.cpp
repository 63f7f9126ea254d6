// SPDX-License-Identifier: MIT
#include "app/commands/report.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>
#include <span>

#include "app/answers.hpp"
#include "app/earlier_answers.hpp"
#include "app/local_files.hpp"
#include "app/neighbors.hpp"
#include "app/page_files.hpp"
#include "report/calendar_file.hpp"
#include "report/file_names.hpp"
#include "report/message.hpp"
#include "report/page/course_page.hpp"
#include "report/page/handout_page.hpp"
#include "report/page/portfolio_page.hpp"
#include "report/sites_geojson.hpp"
#include "site/site_areas.hpp"

namespace soilclock::app {

namespace {

using std::filesystem::path;

/// A site's own files: its page and the message to paste. None where nothing was answered.
Checked write_site(const std::string& folder, const std::string& stem, const advice::SiteAnswer& answer,
                   const report::AnswerFrame& frame) {
  if (answer.targets.empty()) return {};
  if (auto page = write_whole(path{folder} / (stem + ".html"), report::course_page(answer, frame)); !page)
    return page;
  return write_whole(path{folder} / (stem + ".txt"), report::message(answer, frame));
}

/// The handouts: one a course and grass, and one a grass for all courses where there are several.
Checked write_handouts(const std::string& folder, const std::vector<std::string>& stems,
                       const std::vector<advice::SiteComparison>& sites, const report::AnswerFrame& frame) {
  for (std::size_t i = 0; i < sites.size(); ++i) {
    for (const advice::TargetComparison& target : sites[i].targets) {
      const std::string name = fmt::format("{}-{}-handout.html", stems[i], target.target);
      if (auto page = write_whole(path{folder} / name, report::handout_page(sites[i], target, frame)); !page)
        return page;
    }
  }
  if (sites.size() < 2) return {};
  for (const auto& [target, title] : advice::targets_compared(sites)) {
    const std::string page = report::sites_handout_page(sites, target, frame);
    if (auto written = write_whole(path{folder} / fmt::format("courses-{}-handout.html", target), page);
        !written)
      return written;
  }
  return {};
}

/// The files of the sites of one course: pages, messages, and the message about all its areas.
Checked write_course(const std::string& folder, std::span<const std::string> stems,
                     std::span<const advice::SiteAnswer> answers, const advice::Catalogue& catalogue) {
  const auto courses = advice::course_summaries(answers);
  for (std::size_t i = 0; i < answers.size(); ++i) {
    report::AnswerFrame frame = frame_for({answers[i]}, answers[i].on, catalogue);
    frame.courses = courses;
    if (const auto site = write_site(folder, stems[i], answers[i], frame); !site) return site;
  }
  if (courses.empty()) return {};
  const report::AnswerFrame frame = frame_for({}, courses.front().on, catalogue);
  return write_whole(path{folder} / (report::safe_file_name(courses.front().course) + ".txt"),
                     report::message(courses.front(), frame));
}

/// What there is once for all courses.
Checked write_shared(const std::string& folder, const std::vector<std::string>& stems,
                     const std::vector<advice::SiteAnswer>& answers, const report::AnswerFrame& frame) {
  std::vector<std::string> pages;
  for (std::size_t i = 0; i < stems.size(); ++i)
    pages.push_back(answers[i].targets.empty() ? "" : stems[i] + ".html");
  if (auto list = write_whole(path{folder} / "index.html", report::portfolio_page(answers, pages, frame));
      !list)
    return list;
  const std::string calendar = report::calendar_file(answers, frame);
  if (!calendar.empty()) {
    if (auto dates = write_whole(path{folder} / "calendar.ics", calendar); !dates) return dates;
  }
  return write_whole(path{folder} / "courses.geojson", report::sites_geojson(answers, frame.courses));
}

}  // namespace

std::string ReportCommand::examples() const {
  return "  soilclock report --sites courses.json --output pages\n"
         "  soilclock report --sites courses.json --only copper-heron --on 2026-10-15 --target POAAN "
         "--output pages\n";
}

void ReportCommand::declare(Options& options) {
  sites_.declare(options);
  sites_.declare_plan(options);
  options.under(Heading::answer);
  options.text("--output FOLDER", output_, "folder the files are written to; made where it is not there");
  options.flag("--handouts", handouts_,
               "teaching sheets as well: past seasons, rules of thumb, what-ifs and degree-days by hand");
}

int ReportCommand::run(Streams& streams) {
  if (output_.empty()) {
    return app::report({Family::request, "no folder is named for the pages", {}, {}, "--output FOLDER", {}},
                       streams);
  }
  const auto question = read_question(sites_, streams);
  if (!question) return app::report(question.error(), streams);
  if (const auto made = make_folder(output_); !made) return app::report(made.error(), streams);

  const Day on = question->on;
  const std::vector<std::string> stems = page_names(question->sites);
  std::vector<advice::SiteAnswer> answers;
  std::vector<advice::SiteComparison> comparisons;
  Neighbors neighbors{question->sites};
  SharedWeather course_weather{.neighbors = &neighbors};
  std::size_t begin = 0;  // of the course at hand
  for (std::size_t i = 0; i < stems.size(); ++i) {
    if (streams.watched) streams.err << fmt::format("\r{} of {} courses", i, stems.size()) << std::flush;
    if (handouts_) {
      comparisons.push_back(
          comparison_for(question->sites[i], sites_, on, question->catalogue, &course_weather));
      answers.push_back(comparisons.back().answer);
    } else {
      answers.push_back(
          answer_for(question->sites[i], sites_, on, question->catalogue, {true, true}, &course_weather));
    }
    if (i + 1 < stems.size() && course_id(question->sites[i + 1]) == course_id(question->sites[begin]))
      continue;
    const auto written = write_course(output_, std::span{stems}.subspan(begin, i + 1 - begin),
                                      std::span{answers}.subspan(begin), question->catalogue);
    if (!written) return app::report(written.error(), streams);
    begin = i + 1;
  }
  if (streams.watched) streams.err << "\r" << std::string(30, ' ') << "\r";
  const report::AnswerFrame frame = frame_for(answers, on, question->catalogue);
  const auto shared = write_shared(output_, stems, answers, frame);
  if (!shared) return app::report(shared.error(), streams);
  const auto handouts = write_handouts(output_, stems, comparisons, frame);
  if (!handouts) return app::report(handouts.error(), streams);
  if (const auto stored = store_said(sites_.records, answers); !stored)
    return app::report(stored.error(), streams);
  const std::size_t courses = courses_of(question->sites).size();
  streams.out << fmt::format("{} course{}: open {}\n", courses, courses == 1 ? "" : "s",
                             (std::filesystem::path{output_} / "index.html").string());
  write_problems(answers, "html", streams);
  return exit_code_of(answers);
}

}  // namespace soilclock::app
