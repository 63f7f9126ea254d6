// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace soilclock::advice {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

std::size_t index(Forecaster forecaster) { return static_cast<std::size_t>(forecaster); }

/// A season with the dates of its events, where known.
struct JudgedSeason {
  Season season;
  std::vector<std::optional<Outcome>> outcome;
};

std::vector<JudgedSeason> seasons_of(const HindcastSubject& subject, const HindcastSettings& settings) {
  std::vector<JudgedSeason> seasons;
  for (Season season = season_of(settings.first, subject.kind(), settings.hemisphere);
       season.first < settings.end; season = season.next()) {
    seasons.push_back({season, subject.outcome(season)});
  }
  return seasons;
}

/// The issue date in a season, which may run over New Year; nothing for 29 February in other years.
std::optional<Day> standing_in(const Season& season, CalendarDay issue_date) {
  for (const int year : {civil(season.first).year, civil(season.first).year + 1}) {
    const auto day = checked_day(year, issue_date.month, issue_date.day);
    if (day && season.days().contains(*day)) return day;
  }
  return std::nullopt;
}

/// Dates of the event in earlier seasons.
std::vector<Outcome> earlier_dates(const std::vector<JudgedSeason>& seasons, std::size_t judged,
                                   std::size_t event) {
  std::vector<Outcome> dates;
  for (std::size_t i = 0; i < judged; ++i) {
    if (const auto& date = seasons[i].outcome[event]) dates.push_back(*date);
  }
  return dates;
}

DayEnsemble still_to_come(const std::vector<Outcome>& dates, int issue_date) {
  std::vector<std::optional<int>> days;
  for (const Outcome& date : dates) {
    if (!date || *date >= issue_date) days.push_back(date);
  }
  return DayEnsemble::even(days);
}

DayEnsemble mean_date(const std::vector<Outcome>& dates, int issue_date, int after_window) {
  double sum = 0.0;
  for (const Outcome& date : dates) sum += date.value_or(after_window);
  const int mean = static_cast<int>(std::lround(sum / static_cast<double>(dates.size())));
  return DayEnsemble::even({std::max(mean, issue_date)});
}

std::optional<Day> date_in(const Season& season, const std::optional<int>& day) {
  return day ? std::optional{season.first + Days{*day}} : std::nullopt;
}

struct CaseContext {
  const Season& season;
  Day issue_date;
  int after_window;
  bool pooled;
  const HindcastRules& rules;
};

HindcastCase judge(const CaseContext& context, const IssuedForecast& issued, const std::vector<Outcome>& past,
                   Outcome outcome) {
  const int issue_date = context.season.day_of_season(context.issue_date);
  const DayEnsemble to_come = still_to_come(past, issue_date);
  HindcastCase judged;
  judged.year = civil(context.season.first).year;
  judged.issue_date = context.issue_date;
  judged.past_dates = static_cast<int>(to_come.members().size());
  const bool enough = judged.past_dates >= context.rules.past_dates_least;
  if (context.pooled && enough) {
    judged.pooled_share = pooled_share(
        issued.program.quantile(0.5).value_or(context.after_window) - issue_date, context.rules.pooling);
  }
  const DayEnsemble program = issued.program.mixed_with(to_come, judged.pooled_share);
  const Band<Outcome> band = issued.band.value_or(program.band());
  judged.outcome = date_in(context.season, outcome);
  judged.issued = {date_in(context.season, band.low), date_in(context.season, band.middle),
                   date_in(context.season, band.high)};
  if (band.middle && outcome) judged.days_off = *band.middle - *outcome;
  judged.held = covers(band, outcome);
  judged.band_days = width(band, context.after_window);
  judged.steps = steps_at(program, outcome);
  const auto score = [&](Forecaster who, const DayEnsemble& forecast) {
    judged.crps_days[index(who)] = forecast.empty() ? nan : crps(forecast, outcome, context.after_window);
  };
  score(Forecaster::program, program);
  score(Forecaster::past_dates, enough ? to_come : DayEnsemble::even({}));
  score(Forecaster::mean_date, mean_date(past, issue_date, context.after_window));
  score(Forecaster::air_as_soil, issued.air_as_soil);
  return judged;
}

/// The cases that all of these forecast.
std::vector<const HindcastCase*> forecast_by(const std::vector<std::size_t>& who,
                                             const std::vector<HindcastCase>& cases) {
  std::vector<const HindcastCase*> common;
  for (const HindcastCase& one : cases) {
    if (std::none_of(who.begin(), who.end(), [&](std::size_t i) { return std::isnan(one.crps_days[i]); }))
      common.push_back(&one);
  }
  return common;
}

/// Mean scores over the cases that all compared forecast; a rival that leaves too few of them is not
/// compared.
void add_scores(HindcastScores& scores, const std::vector<HindcastCase>& cases, int compared_least) {
  scores.crps_days.fill(nan);
  scores.gain.fill(nan);
  std::vector<std::size_t> compared;
  for (std::size_t who = 0; who < forecaster_count; ++who) {
    compared.push_back(who);
    const bool enough = static_cast<int>(forecast_by(compared, cases).size()) >= compared_least;
    if (who != index(Forecaster::program) && !enough) compared.pop_back();
  }
  const std::vector<const HindcastCase*> common = forecast_by(compared, cases);
  scores.compared = static_cast<int>(common.size());
  for (const std::size_t who : compared) {
    double sum = 0.0;
    for (const HindcastCase* one : common) sum += one->crps_days[who];
    scores.crps_days[who] = sum / scores.compared;
    scores.gain[who] =
        sum > 0.0 ? 1.0 - scores.crps_days[index(Forecaster::program)] / scores.crps_days[who] : nan;
  }
}

HindcastScores summed(CalendarDay issue_date, const std::vector<HindcastCase>& cases, int compared_least) {
  HindcastScores scores;
  scores.issue_date = issue_date;
  scores.cases = static_cast<int>(cases.size());
  const auto count = static_cast<double>(cases.size());
  double dated = 0.0;
  for (const HindcastCase& one : cases) {
    scores.coverage += (one.held ? 1.0 : 0.0) / count;
    scores.band_days += one.band_days / count;
    if (!one.days_off) continue;
    dated += 1.0;
    scores.mean_days_off += *one.days_off;
    scores.mean_abs_days_off += std::abs(*one.days_off);
  }
  scores.mean_days_off = dated > 0.0 ? scores.mean_days_off / dated : nan;
  scores.mean_abs_days_off = dated > 0.0 ? scores.mean_abs_days_off / dated : nan;
  add_scores(scores, cases, compared_least);
  return scores;
}

}  // namespace

std::string_view name(Forecaster forecaster) {
  switch (forecaster) {
    case Forecaster::past_dates:
      return "past-dates";
    case Forecaster::mean_date:
      return "mean-date";
    case Forecaster::air_as_soil:
      return "air-as-soil";
    case Forecaster::program:
      break;
  }
  return "program";
}

double pooled_share(double median_lead_days, const PoolingRules& rules) {
  return rules.most * std::clamp((median_lead_days - rules.from_days) / rules.over_days, 0.0, 1.0);
}

std::vector<EventHindcast> hindcast(const HindcastSubject& subject, const HindcastSettings& settings) {
  std::vector<EventHindcast> results;
  for (const HindcastSubject::Event& event : subject.events()) results.push_back({event, {}, {}});
  const std::vector<JudgedSeason> seasons = seasons_of(subject, settings);
  for (const CalendarDay& calendar : settings.issue_days) {
    std::vector<std::vector<HindcastCase>> cases(results.size());
    for (std::size_t s = 0; s < seasons.size(); ++s) {
      const Season& season = seasons[s].season;
      const auto issue_date = standing_in(season, calendar);
      if (!issue_date || season.day_of_season(*issue_date) >= subject.after_window()) continue;
      std::vector<IssuedForecast> issued;  // run once for all events, and only when one of them is judged
      for (std::size_t e = 0; e < results.size(); ++e) {
        const auto& outcome = seasons[s].outcome[e];
        const std::vector<Outcome> past = earlier_dates(seasons, s, e);
        const bool ahead = outcome && (!*outcome || **outcome >= season.day_of_season(*issue_date));
        if (!ahead || static_cast<int>(past.size()) < settings.earlier_seasons) continue;
        if (issued.empty()) issued = subject.issued(season, *issue_date);
        if (issued[e].program.empty()) continue;
        cases[e].push_back(
            judge({season, *issue_date, subject.after_window(), results[e].event.pooled, settings.rules},
                  issued[e], past, *outcome));
      }
    }
    for (std::size_t e = 0; e < results.size(); ++e) {
      if (cases[e].empty()) continue;
      results[e].scores.push_back(summed(calendar, cases[e], settings.rules.compared_least));
      results[e].cases.insert(results[e].cases.end(), cases[e].begin(), cases[e].end());
    }
  }
  return results;
}

}  // namespace soilclock::advice
