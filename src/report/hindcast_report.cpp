// SPDX-License-Identifier: MIT
#include "report/hindcast_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::EventHindcast;
using advice::Forecaster;
using advice::HindcastCase;
using advice::HindcastScores;

constexpr Forecaster forecasters[] = {Forecaster::program, Forecaster::past_dates, Forecaster::mean_date,
                                      Forecaster::air_as_soil};

std::size_t index(Forecaster who) { return static_cast<std::size_t>(who); }

std::string key(Forecaster who) {
  std::string name{advice::name(who)};
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

std::string number_cell(double value) { return std::isfinite(value) ? number_text(value, 1) : "-"; }

/// "6.8 (+27%)": a rival's score and how much lower the program's is.
std::string rival_cell(const HindcastScores& scores, Forecaster who) {
  const double score = scores.crps_days[index(who)];
  if (!std::isfinite(score)) return "-";
  const double gain = scores.gain[index(who)];
  return std::isfinite(gain)
             ? fmt::format("{} ({}%)", number_text(score, 1), signed_number_text(100.0 * gain, 0))
             : number_text(score, 1);
}

std::string plain_sentence(const SiteHindcast& site, const EventHindcast& event) {
  const std::string where = printable(site.name, 60);
  const HindcastScores& first = event.scores.front();
  const auto held = std::lround(first.coverage * first.cases);
  std::string text = fmt::format(
      "{}: for the day {}, the 80 percent band given on {} would have held what happened in {} of {} "
      "seasons; it was {} days "
      "wide on average",
      where, event.event.words, calendar_words(first.issue_date), held, first.cases,
      number_text(first.band_days, 0));
  if (std::isfinite(first.mean_abs_days_off)) {
    text += fmt::format(" and its middle {} days off", number_text(first.mean_abs_days_off, 1));
  }
  return text + ".";
}

/// Which events no season could be judged for, and why that may be.
std::string unjudged_sentence(const SiteHindcast& site, int earlier_seasons) {
  std::vector<std::string> events;
  for (const EventHindcast& event : site.events) {
    if (event.scores.empty()) events.push_back(event.event.words);
  }
  if (events.empty()) return {};
  return wrapped(
      fmt::format(
          "{}: no season of the record could be judged for the day {}. Each needs {} earlier seasons with "
          "a date, and one date that can be named for it.",
          printable(site.name, 60), listed(events), earlier_seasons),
      0);
}

std::string table(const EventHindcast& event) {
  std::string text = fmt::format("{:<8}  {:>7}  {:>6}  {:>6}  {:>5}  {:>5}  {:>5}  {:>13}  {:>13}  {:>13}\n",
                                 "issued", "seasons", "held %", "band d", "off d", "late", "score",
                                 "past dates", "mean date", "air as soil");
  for (const HindcastScores& scores : event.scores) {
    const std::string late =
        std::isfinite(scores.mean_days_off) ? signed_number_text(scores.mean_days_off, 1) : "-";
    text += fmt::format(
        "{:<8}  {:>7}  {:>6}  {:>6}  {:>5}  {:>5}  {:>5}  {:>13}  {:>13}  {:>13}\n",
        calendar_words(scores.issue_date), scores.cases, number_text(100.0 * scores.coverage, 0),
        number_text(scores.band_days, 1), number_cell(scores.mean_abs_days_off), late,
        number_cell(scores.crps_days[index(Forecaster::program)]), rival_cell(scores, Forecaster::past_dates),
        rival_cell(scores, Forecaster::mean_date), rival_cell(scores, Forecaster::air_as_soil));
  }
  return text;
}

constexpr const char* legend =
    "Only seasons in which the day still lay ahead are judged, each by earlier seasons alone. Held: how "
    "often the 80 percent "
    "band held the day. Off: middle of the band against what happened, days; late: the same with its sign. "
    "Score: continuous "
    "ranked probability score in days, 0 for a sure and right date, for a single date the days it is off. "
    "Past dates: the "
    "spread of the site's past dates still to come; mean date: their mean; air as soil: the 7-day mean of "
    "air in place of "
    "soil; in brackets by how much the program's score is better (+) or worse (-). Scores of a row are over "
    "the same seasons.";

Json scores_json(const EventHindcast& event, const HindcastScores& scores) {
  Json json = {{"issue_date", fmt::format("{:02}-{:02}", scores.issue_date.month, scores.issue_date.day)},
               {"seasons", scores.cases},
               {"coverage_percent", rounded(100.0 * scores.coverage, 1)},
               {"band_days", rounded(scores.band_days, 1)},
               {"mean_days_off", rounded(scores.mean_days_off, 2)},
               {"mean_absolute_days_off", rounded(scores.mean_abs_days_off, 2)},
               {"compared_seasons", scores.compared},
               {"crps_days", Json::object()},
               {"gain_percent", Json::object()},
               {"reliability", Json::array()}};
  for (const Forecaster who : forecasters) {
    json["crps_days"][key(who)] = rounded(scores.crps_days[index(who)], 3);
    if (who != Forecaster::program)
      json["gain_percent"][key(who)] = rounded(100.0 * scores.gain[index(who)], 1);
  }
  std::vector<advice::ProbabilitySteps> steps;
  for (const HindcastCase& one : cases_of(event, scores.issue_date)) steps.push_back(one.steps);
  for (const double probability : reliability_steps) {
    json["reliability"].push_back(
        {{"said_percent", rounded(100.0 * probability, 0)},
         {"came_percent", rounded(100.0 * advice::observed_share(steps, probability), 1)}});
  }
  return json;
}

Json case_json(const HindcastCase& one) {
  Json json = {{"season", one.year},
               {"issue_date", iso(one.issue_date)},
               {"outcome", date(one.outcome)},
               {"said", date_band(one.issued)},
               {"days_off", one.days_off ? Json(*one.days_off) : Json(nullptr)},
               {"held", one.held},
               {"band_days", one.band_days},
               {"past_dates", one.past_dates},
               {"pooled_percent", rounded(100.0 * one.pooled_share, 1)},
               {"crps_days", Json::object()}};
  for (const Forecaster who : forecasters)
    json["crps_days"][key(who)] = rounded(one.crps_days[index(who)], 3);
  return json;
}

}  // namespace

std::string calendar_words(advice::CalendarDay day) { return short_date(make_day(2000, day.month, day.day)); }

std::vector<HindcastCase> cases_of(const EventHindcast& event, advice::CalendarDay issue_date) {
  std::vector<HindcastCase> cases;
  for (const HindcastCase& one : event.cases) {
    const CivilDate date = civil(one.issue_date);
    if (date.month == issue_date.month && date.day == issue_date.day) cases.push_back(one);
  }
  return cases;
}

std::string hindcast_text(const HindcastReport& report) {
  std::string text;
  for (const SiteHindcast& site : report.sites) {
    // What is not tested comes before figures that look good.
    for (const Remark& remark : site.remarks) text += wrapped(remark.text, 0);
    if (!site.remarks.empty()) text += "\n";
    for (const EventHindcast& event : site.events) {
      if (event.scores.empty()) continue;
      text += wrapped(plain_sentence(site, event), 0) + "\n" + table(event) + "\n";
    }
    text += unjudged_sentence(site, report.earlier_seasons);
    text += weather_sources_text(site.origins, {});
    for (const Problem& problem : site.problems)
      text += wrapped(printable(site.name, 60) + ": " + describe(problem), 0);
  }
  std::string how = report.run.with_readings
                        ? "Soil readings up to the issue date are used where there are any."
                        : "No soil reading of the judged season is used.";
  if (report.run.known_ahead > 0) {
    how += fmt::format(
        " The measured weather of the {} days from the issue date on stands for a perfect forecast.",
        report.run.known_ahead);
  }
  return text + wrapped(how, 0) + wrapped(legend, 0);
}

std::string hindcast_json(const HindcastReport& report) {
  Json json = {{"format", "soilclock-hindcast"},
               {"version", 1},
               {"band_percent", 80},
               {"with_readings", report.run.with_readings},
               {"known_ahead_days", report.run.known_ahead},
               {"earlier_seasons_needed", report.earlier_seasons},
               {"members", report.run.members},
               {"seed", report.run.seed},
               {"sites", Json::array()}};
  for (const SiteHindcast& site : report.sites) {
    Json entry = {{"site", site.site},
                  {"name", site.name},
                  {"weather_sources", weather_sources_json(site.origins)},
                  {"events", Json::array()},
                  {"remarks", Json::array()},
                  {"problems", Json::array()}};
    for (const EventHindcast& event : site.events) {
      Json one = {{"event", event.event.id},
                  {"words", event.event.words},
                  {"scores", Json::array()},
                  {"cases", Json::array()}};
      for (const HindcastScores& scores : event.scores) one["scores"].push_back(scores_json(event, scores));
      for (const HindcastCase& judged : event.cases) one["cases"].push_back(case_json(judged));
      entry["events"].push_back(one);
    }
    for (const Remark& remark : site.remarks) entry["remarks"].push_back(remark_json(remark));
    for (const Problem& problem : site.problems) entry["problems"].push_back(problem_json(problem));
    json["sites"].push_back(entry);
  }
  return dumped(json, 2) + "\n";
}

std::string hindcast_csv(const HindcastReport& report) {
  std::string text =
      "site,event,season,issue_date,outcome,early,middle,late,days_off,held,band_days,past_dates,pooled_"
      "percent,"
      "crps_program,crps_past_dates,crps_mean_date,crps_air_as_soil,weather_credits\n";
  for (const SiteHindcast& site : report.sites) {
    for (const EventHindcast& event : site.events) {
      for (const HindcastCase& one : event.cases) {
        std::vector<std::string> row = {csv_words(site.site),
                                        event.event.id,
                                        fmt::format("{}", one.year),
                                        iso(one.issue_date),
                                        csv_date(one.outcome),
                                        csv_date(one.issued.low),
                                        csv_date(one.issued.middle),
                                        csv_date(one.issued.high),
                                        one.days_off ? fmt::format("{}", *one.days_off) : "",
                                        one.held ? "yes" : "no",
                                        fmt::format("{}", one.band_days),
                                        fmt::format("{}", one.past_dates),
                                        csv_number(100.0 * one.pooled_share, 1)};
        for (const Forecaster who : forecasters) row.push_back(csv_number(one.crps_days[index(who)], 3));
        row.push_back(weather_sources_cell(site.origins));
        text += csv_row(row);
      }
    }
  }
  return text;
}

}  // namespace soilclock::report
