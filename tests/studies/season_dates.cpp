// SPDX-License-Identifier: MIT
#include "studies/season_dates.hpp"

namespace soilclock::studies {

namespace {

SiteRequest request_with(const Station& station, weather::DailyWeather daily, Day on) {
  SiteRequest request;
  request.id = station.name;
  request.name = station.name;
  request.place = station.place;
  request.on = on;
  request.stored.series.push_back({station.name, station.name, std::move(daily), false, false, {}, {}});
  return request;
}

advice::SiteAnswer answered(SiteRequest request, const std::string& target,
                            const advice::Catalogue& catalogue) {
  request.targets = {target};
  return answer_site(request, catalogue);
}

weather::DailyWeather part_of(const weather::DailyWeather& daily, DayRange days) {
  weather::DailyWeather part;
  part.air_min = daily.air_min.slice(days);
  part.air_max = daily.air_max.slice(days);
  part.rain = daily.rain.slice(days);
  part.day_definition = daily.day_definition;
  return part;
}

bool soil_known(const DailySeries<Temperature>& soil, DayRange days) {
  constexpr double enough = 0.9;
  int known = 0;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) known += soil.at(day) ? 1 : 0;
  return known >= enough * days.size();
}

}  // namespace

SiteRequest request_of(const Station& station, DayRange record) {
  return request_with(station, part_of(station.daily, record), record.end());
}

std::vector<const Station*> several_years(const std::vector<Station>& stations) {
  std::vector<const Station*> chosen;
  for (const Station& station : stations) {
    if (!station.one_year) chosen.push_back(&station);
  }
  return chosen;
}

std::optional<advice::TargetAnswer> ask(const Station& station, const std::string& target, DayRange record,
                                        const advice::Catalogue& catalogue) {
  advice::SiteAnswer answer = answered(request_of(station, record), target, catalogue);
  if (answer.targets.empty() || answer.targets.front().refusal) return std::nullopt;
  advice::TargetAnswer found = std::move(answer.targets.front());
  if (found.decision.action == advice::Action::no_single_week) return std::nullopt;
  return found;
}

std::optional<DateBand> milestone(const advice::TargetAnswer& answer, int percent) {
  for (const advice::Milestone& one : answer.milestones) {
    if (one.percent == percent) return one.date;
  }
  return std::nullopt;
}

std::optional<advice::TargetAnswer> in_hindsight(const Station& station, const std::string& target,
                                                 Day within, const advice::Catalogue& catalogue) {
  const auto measured = station.soil.find(Depth::from_cm(5.0));
  const bool read = measured != station.soil.end();
  if (!read && !station.soil.empty()) return std::nullopt;
  const Season season = season_of(within, catalogue.targets.at(target).season, station.place.hemisphere());
  constexpr int half_surely_up = 190;  // season days; later the library looks ahead to the next season
  const Day over = season.first + Days{half_surely_up};
  const DayRange known{station.daily.air_min.first(), over};
  if (station.daily.air_min.days().end() < over) return std::nullopt;
  weather::DailyWeather daily = part_of(station.daily, known);
  if (read) daily.soil.emplace(measured->first, measured->second.slice(known));
  SiteRequest request = request_with(station, std::move(daily), over);
  request.season_tables = true;
  advice::SiteAnswer answer = answered(std::move(request), target, catalogue);
  if (answer.targets.empty() || answer.targets.front().refusal) return std::nullopt;
  advice::TargetAnswer found = std::move(answer.targets.front());
  const auto half = milestone(found, 50);
  if (!half || !half->middle) return std::nullopt;
  if (read && !soil_known(measured->second, {season.first, *half->middle})) return std::nullopt;
  return found;
}

std::optional<Day> true_half_up(const Station& station, const std::string& target, Day within,
                                const advice::Catalogue& catalogue) {
  const auto answer = in_hindsight(station, target, within, catalogue);
  return answer ? milestone(*answer, 50)->middle : std::nullopt;
}

}  // namespace soilclock::studies
