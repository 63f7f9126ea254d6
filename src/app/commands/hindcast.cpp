// SPDX-License-Identifier: MIT
#include "app/commands/hindcast.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "advice/hindcast/hindcast_milestones.hpp"
#include "app/local_files.hpp"
#include "app/site_requests.hpp"
#include "report/hindcast_chart.hpp"

namespace soilclock::app {

namespace {

/// The level of the Tennessee rule for annual bluegrass, asked for when none is given.
constexpr double usual_level_c = 18.9;
constexpr int longest_known_ahead = 30;
constexpr int earlier_seasons = 5;

/// The question of a command line once its words are read.
struct HindcastQuestion {
  advice::HindcastRun run;
  std::vector<advice::CalendarDay> issue_days;  ///< empty: the usual days of the season
  advice::SoilCrossing crossing{Temperature::from_celsius(usual_level_c), Depth::from_cm(5.0),
                                thermal::Side::at_or_below};
  bool site_depth = true;
  int earlier = earlier_seasons;
};

Problem wrong(std::string what, std::string found, std::string expected) {
  return {Family::request, std::move(what), {}, std::move(found), std::move(expected), {}};
}

Result<std::vector<advice::CalendarDay>> read_issue_days(const std::string& text) {
  std::vector<advice::CalendarDay> days;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string word = text.substr(from, comma - from);
    const auto day = parse_iso_day("2001-" + word);  // no leap year: a day of every year
    if (!day)
      return fail(wrong("--issued holds something that is no day of every year", word,
                        "days as MM-DD, with commas: 09-01,09-15"));
    days.push_back({civil(*day).month, civil(*day).day});
    from = comma + 1;
  }
  return days;
}

Result<HindcastQuestion> read_words(const HindcastWords& words) {
  HindcastQuestion question;
  question.run.with_readings = words.with_readings == "yes";
  question.run.known_ahead = words.known_ahead.value_or(0);
  if (question.run.known_ahead < 0 || question.run.known_ahead > longest_known_ahead) {
    return fail(wrong("--known-ahead is out of range", fmt::format("{}", question.run.known_ahead),
                      fmt::format("0 to {} days", longest_known_ahead)));
  }
  question.earlier = words.earlier.value_or(earlier_seasons);
  if (question.earlier < 1)
    return fail(wrong("--earlier is out of range", fmt::format("{}", question.earlier), "at least 1 season"));
  if (words.crossing == "rising") question.crossing.side = thermal::Side::at_or_above;
  if (!words.level.empty()) {
    const auto level = parse_temperature(words.level);
    if (!level) return fail(level.error());
    question.crossing.level = *level;
  }
  if (!words.depth.empty()) {
    const auto depth = parse_depth(words.depth);
    if (!depth) return fail(depth.error());
    question.crossing.depth = *depth;
    question.site_depth = false;
  }
  const auto issue_days = read_issue_days(words.issue_days);
  if (!issue_days) return fail(issue_days.error());
  question.issue_days = *issue_days;
  return question;
}

/// Two months of mornings around the usual decisions: September and October where the year cools then, March
/// and April where it warms.
std::vector<advice::CalendarDay> usual_issue_days(SeasonKind kind, Hemisphere hemisphere) {
  const bool autumn = (kind == SeasonKind::fall) == (hemisphere == Hemisphere::north);
  const unsigned month = autumn ? 9 : 3;
  return {{month, 1}, {month, 15}, {month + 1, 1}, {month + 1, 15}};
}

void judge(const advice::HindcastSubject& subject, const advice::SiteHistory& history,
           const HindcastQuestion& question, const advice::HindcastRules& rules,
           report::SiteHindcast& result) {
  const Hemisphere hemisphere = history.place.hemisphere();
  const auto issue_days =
      question.issue_days.empty() ? usual_issue_days(subject.kind(), hemisphere) : question.issue_days;
  const DayRange days = weather::covered(history.daily);
  auto events =
      advice::hindcast(subject, {issue_days, history.end, days.begin(), hemisphere, question.earlier, rules});
  result.events.insert(result.events.end(), events.begin(), events.end());
  const auto remarks = subject.remarks();
  for (const Remark& remark : remarks) {
    const bool issued =
        std::find(result.remarks.begin(), result.remarks.end(), remark) != result.remarks.end();
    if (!issued) result.remarks.push_back(remark);
  }
}

/// What a hindcast is held against is not always measured.
std::optional<Remark> of_a_model(const advice::SiteHistory& history) {
  const DailySeries<Temperature> air = weather::air_mean(history.daily);
  int known = 0;
  int modelled = 0;
  for (Day day = air.days().begin(); day < air.days().end(); day += Days{1}) {
    known += air.at(day) ? 1 : 0;
    modelled += air.quality(day) == Quality::modelled ? 1 : 0;
  }
  if (modelled == 0) return std::nullopt;
  return Remark{
      "judged-by-reanalysis",
      fmt::format("{} of {} days are those of a weather model, not of a thermometer: the scores hold "
                  "for the weather of its grid cell.",
                  modelled, known)};
}

report::SiteHindcast site_hindcast(const Site& site, const SiteOptions& options, const Question& asked,
                                   const HindcastWords& words, HindcastQuestion question) {
  report::SiteHindcast result{site.id, site.name, {}, {}, {}};
  const auto request = request_for(site, options, asked.on, asked.catalogue);
  const auto prepared =
      request ? prepare_weather(*request, asked.catalogue) : Result<PreparedWeather>{fail(request.error())};
  if (!prepared) {
    result.problems.push_back(prepared.error());
    return result;
  }
  if (!prepared->place) {
    result.problems.push_back(
        {Family::request, "the place of the site is not known", {}, {}, "--latitude D --longitude D", {}});
    return result;
  }
  result.origins = prepared->summary.origins;
  const advice::SiteHistory history = advice::history_of(prepared->site);
  if (auto remark = of_a_model(history)) result.remarks.push_back(std::move(*remark));
  if (question.site_depth) question.crossing.depth = request->soil_depth;
  const advice::HindcastRules& rules = asked.catalogue.practice.hindcast;
  if (words.event != "milestones") {
    judge(advice::CrossingSubject{history, asked.catalogue, question.crossing, question.run}, history,
          question, rules, result);
  }
  if (words.event == "soil-crossing") return result;
  for (const std::string& code : request->targets) {
    const emergence::Target& target = asked.catalogue.targets.at(code);
    if (target.members.empty()) {
      result.problems.push_back(
          {Family::request,
           "no emergence curve is published for this target: " + target.no_members_because,
           {},
           code,
           {},
           {}});
      continue;
    }
    judge(advice::MilestoneSubject{history, asked.catalogue, target, question.run}, history, question, rules,
          result);
  }
  return result;
}

bool judged(const report::SiteHindcast& site) {
  return std::any_of(site.events.begin(), site.events.end(),
                     [](const auto& event) { return !event.cases.empty(); });
}

/// 0 when all sites were answered, 1 when some were, else the code of the first problem.
int hindcast_exit_code(const report::HindcastReport& report) {
  const Problem* first = nullptr;
  bool any = false;
  for (const report::SiteHindcast& site : report.sites) {
    any = any || judged(site);
    if (first == nullptr && !site.problems.empty()) first = &site.problems.front();
  }
  if (first == nullptr) return 0;
  return any ? 1 : exit_code(first->family);
}

}  // namespace

std::string HindcastCommand::examples() const {
  return "  soilclock hindcast --sites courses.json --only copper-heron\n"
         "  soilclock hindcast --weather course.csv --latitude 36.0 --longitude -85.1 --event soil-crossing "
         "--level 12C --depth 10cm "
         "--issued 09-01,10-01 --chart reliability.svg\n";
}

void HindcastCommand::declare(Options& options) {
  sites_.declare(options);
  options.choice("--event NAME", words_.event, {"soil-crossing", "milestones", "both"},
                 "what is forecast (default both)");
  options.text("--level TEMPERATURE", words_.level,
               "soil temperature that is crossed, with its unit (default 18.9C, 66F)");
  options.choice("--crossing WAY", words_.crossing, {"falling", "rising"},
                 "whether the soil falls or rises to the level (default falling)");
  options.text("--depth DEPTH", words_.depth,
               "depth with its unit, 1in to 6in or 2.5cm to 15cm (default: the site's)");
  declare_format(options, format_, {"text", "json", "csv"});
  options.text("--chart FILE", chart_, "file the reliability picture is written to (SVG)");
  options.under(Heading::advanced);
  options.text("--issued DAYS", words_.issue_days,
               "issue dates, MM-DD with commas (default 09-01,09-15,10-01,10-15 or the like of the season)");
  options.choice("--with-readings CHOICE", words_.with_readings, {"yes", "no"},
                 "whether soil readings of the judged season are used (default yes)");
  options.whole("--known-ahead DAYS", words_.known_ahead,
                "days of weather ahead taken as a perfect forecast (default 0)");
  options.whole("--earlier SEASONS", words_.earlier,
                "earlier seasons needed before one is judged (default 5)");
}

int HindcastCommand::run(Streams& streams) {
  const auto words = read_words(words_);
  if (!words) return app::report(words.error(), streams);
  const auto question = read_question(sites_, streams);
  if (!question) return app::report(question.error(), streams);
  report::HindcastReport report{words->run, words->earlier, {}};
  for (const Site& site : question->sites) {
    report.sites.push_back(site_hindcast(site, sites_, *question, words_, *words));
    for (const Problem& problem : report.sites.back().problems)
      report_of_site(site.id, problem, format_, streams);
  }
  if (format_ == "json")
    streams.out << report::hindcast_json(report);
  else if (format_ == "csv")
    streams.out << report::hindcast_csv(report);
  else
    streams.out << report::hindcast_text(report);
  if (!chart_.empty()) {
    if (const auto chart = write_whole(chart_, report::hindcast_chart(report)); !chart)
      return app::report(chart.error(), streams);
  }
  return hindcast_exit_code(report);
}

}  // namespace soilclock::app
