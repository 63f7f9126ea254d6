// SPDX-License-Identifier: MIT
#include "obey/walk.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace soilclock::obey {

namespace {

/// Fewest earlier seasons from which a site knows its own best week, and fewest that make a week usual.
constexpr std::size_t fewest_earlier_seasons = 2;
constexpr std::size_t fewest_usual_seasons = 5;

using Choices = std::array<std::optional<Choice>, plan_count>;

/// The first choice each plan was told to make.
Choices obey(const Asker& asker, const PastSeason& season, Walked& walked) {
  Choices choices;
  const SeasonTable& weeks = season.tables.front();
  for (std::size_t week = 0; week < weeks.useful(); ++week) {
    std::vector<std::size_t> open;
    for (std::size_t plan = 0; plan < plan_count; ++plan) {
      if (!choices[plan]) open.push_back(plan);
    }
    if (open.empty()) break;
    ++walked.mondays;
    const auto decisions = asker.decisions(weeks.monday(week), open);
    if (!decisions) continue;
    for (std::size_t i = 0; i < open.size(); ++i) {
      const advice::Decision& decision = (*decisions)[i];
      if (advice::calls_for_treatment(decision, weeks.monday(week)))
        choices[open[i]] = Choice{*decision.kind, week};
    }
  }
  return choices;
}

/// The week and kind that would have kept the most points over earlier seasons, by number of the week.
std::optional<Choice> own_week(const std::map<int, PastSeason>& seasons, int before, std::size_t plan) {
  std::vector<const SeasonTable*> earlier;
  std::size_t weeks = 0;
  for (const auto& [year, season] : seasons) {
    if (year >= before) break;
    earlier.push_back(&season.tables[plan]);
    weeks = std::max(weeks, earlier.back()->useful());
  }
  if (earlier.size() < fewest_earlier_seasons) return std::nullopt;
  std::optional<Choice> best;
  double most = 0.0;
  for (std::size_t week = 0; week < weeks; ++week) {
    for (const treatment::Kind kind : treatment::all_kinds) {
      double points = 0.0;
      for (const SeasonTable* table : earlier) points += table->net({kind, week});
      if (best && points <= most) continue;
      best = Choice{kind, week};
      most = points;
    }
  }
  return best;
}

std::optional<Choice> soil_rule_choice(const PastSeason& season, const SeasonTable& table,
                                       const TargetSettings& target, const advice::Practice& practice) {
  if (!season.soil_rule_run) return std::nullopt;
  const auto rule = std::find_if(practice.soil_rules.begin(), practice.soil_rules.end(),
                                 [&](const advice::SoilRule& known) { return known.id == target.soil_rule; });
  if (rule == practice.soil_rules.end()) return std::nullopt;
  // Known in the morning after the last day of the run; the next Monday is the first to act on it.
  const Day known_on = *season.soil_rule_run + Days{rule->run_days};
  return Choice{target.soil_kind, table.week_of(known_on + Days{6})};
}

/// The middle of the best weeks of all seasons, by plan.
std::optional<double> usual_week(const std::map<int, PastSeason>& seasons, std::size_t plan) {
  std::vector<double> weeks;
  weeks.reserve(seasons.size());
  for (const auto& [year, season] : seasons)
    weeks.push_back(static_cast<double>(season.tables[plan].best().week));
  if (weeks.size() < fewest_usual_seasons) return std::nullopt;
  std::sort(weeks.begin(), weeks.end());
  const std::size_t half = weeks.size() / 2;
  return weeks.size() % 2 == 1 ? weeks[half] : 0.5 * (weeks[half - 1] + weeks[half]);
}

/// What is set against a season under one plan.
struct Against {
  const TargetSettings& target;
  const std::map<int, PastSeason>& seasons;
  const advice::Catalogue& catalogue;
};

Case judged(const Station& station, const PastSeason& season, std::size_t plan,
            const std::optional<Choice>& said, const Against& against) {
  const TargetSettings& target = against.target;
  const SeasonTable& table = season.tables[plan];
  const Choice best = table.best();
  Case result;
  result.station = station.name;
  result.target = target.code;
  result.plan = plan;
  result.year = season.year;
  result.one_year = station.one_year;
  result.best_monday = table.monday(best.week);
  result.best_kind = best.kind;
  result.best_net = table.net(best);
  const auto regret = [&](const std::optional<Choice>& choice) {
    return std::max(0.0, result.best_net - (choice ? table.net(*choice) : 0.0));
  };
  if (said) {
    result.said_monday = table.monday(said->week);
    result.said_kind = said->kind;
  }
  result.regret = regret(said);
  const Season days = season_beginning(season.year, target, against.catalogue);
  const auto put = [&](Rival rival, const std::optional<Choice>& choice) {
    result.rivals[static_cast<std::size_t>(rival)] = regret(choice);
  };
  put(Rival::fixed_date, Choice{target.fixed_kind, table.week_of(target.fixed_day.in(days))});
  put(Rival::soil_rule, soil_rule_choice(season, table, target, against.catalogue.practice));
  if (const auto own = own_week(against.seasons, season.year, plan)) put(Rival::own_week, own);
  if (const auto usual = usual_week(against.seasons, plan))
    result.weeks_off_usual = std::abs(static_cast<double>(best.week) - *usual);
  return result;
}

}  // namespace

Walked walk_station(const Station& station, const TargetSettings& target, const std::vector<int>& years,
                    int record_from, const advice::Catalogue& catalogue) {
  const Asker asker{station, target.code, catalogue};
  Walked walked;
  std::map<int, PastSeason> seasons;
  for (int year = std::min(record_from, years.front()); year <= years.back(); ++year) {
    const bool walks = std::find(years.begin(), years.end(), year) != years.end();
    auto judged_season = judge_season(asker, station, year, target);
    if (auto* season = std::get_if<PastSeason>(&judged_season)) {
      if (season->tables.front().useful() == 0) continue;
      seasons.emplace(year, std::move(*season));
      continue;
    }
    if (!walks) continue;
    ++(std::get<NotJudged>(judged_season) == NotJudged::refused ? walked.refused : walked.no_single_week);
  }
  for (const int year : years) {
    const auto season = seasons.find(year);
    if (season == seasons.end()) continue;
    ++walked.seasons;
    const Choices choices = obey(asker, season->second, walked);
    for (std::size_t plan = 0; plan < plan_count; ++plan) {
      if (!choices[plan] && season->second.cut) {
        ++walked.unsaid;
        continue;
      }
      walked.cases.push_back(
          judged(station, season->second, plan, choices[plan], {target, seasons, catalogue}));
    }
  }
  return walked;
}

}  // namespace soilclock::obey
