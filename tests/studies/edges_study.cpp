// SPDX-License-Identifier: MIT
// Nothing in the weights, boxes and latitudes may jump: how far the dates move when the air or the place
// moves by a tenth of a degree.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>

#include "studies/season_dates.hpp"
#include "studies/studies.hpp"
#include "studies/workers.hpp"

namespace soilclock::studies {

namespace {

struct Nudge {
  const char* name;
  double air_kelvin;
  double north_deg;
  double east_deg;
};
constexpr std::array nudges{Nudge{"air +0.1 C", 0.1, 0, 0},       Nudge{"air -0.1 C", -0.1, 0, 0},
                            Nudge{"0.1 degree north", 0, 0.1, 0}, Nudge{"0.1 degree south", 0, -0.1, 0},
                            Nudge{"0.1 degree east", 0, 0, 0.1},  Nudge{"0.1 degree west", 0, 0, -0.1}};
constexpr std::array percents{5, 25, 50, 80};

struct Asked {
  const char* target;
  int month;
};
constexpr std::array asked{Asked{"POAAN", 9}, Asked{"DIGIS", 4}};

Station nudged(Station station, const Nudge& nudge) {
  const auto warm = [&](DailySeries<Temperature>& series) {
    const auto by = TemperatureDelta::from_kelvin(nudge.air_kelvin);
    for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
      if (const auto value = series.at(day)) series.set(day, *value + by, series.quality(day));
    }
  };
  warm(station.daily.air_min);
  warm(station.daily.air_max);
  station.place.latitude_deg += nudge.north_deg;
  station.place.longitude_deg += nudge.east_deg;
  return station;
}

/// Days that the low end, the middle and the high end of a milestone move; nothing where one of them comes or
/// goes.
std::optional<std::array<int, 3>> moved(const DateBand& before, const DateBand& after) {
  std::array<int, 3> days{};
  const std::array pairs{std::pair{before.low, after.low}, std::pair{before.middle, after.middle},
                         std::pair{before.high, after.high}};
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const auto& [was, is] = pairs[i];
    if (was.has_value() != is.has_value()) return std::nullopt;
    if (was) days[i] = std::abs(static_cast<int>((*is - *was).count()));
  }
  return days;
}

struct Move {
  std::string station;
  std::size_t nudge;
  int percent;
  std::optional<std::array<int, 3>> days;
};

std::vector<Move> moves_of(const Station& station, const Asked& what, const advice::Catalogue& catalogue) {
  const int year = civil(station.daily.air_min.last()).year;
  const DayRange record{station.daily.air_min.first(),
                        make_day(station.one_year ? year : year - 1, what.month, 15)};
  const auto before = ask(station, what.target, record, catalogue);
  std::vector<Move> moves;
  for (std::size_t nudge = 0; nudge < nudges.size(); ++nudge) {
    const auto after = ask(nudged(station, nudges[nudge]), what.target, record, catalogue);
    if (before.has_value() != after.has_value()) moves.push_back({station.name, nudge, 0, std::nullopt});
    if (!before || !after) continue;
    for (const int percent : percents)
      moves.push_back(
          {station.name, nudge, percent, moved(*milestone(*before, percent), *milestone(*after, percent))});
  }
  return moves;
}

/// What moved a middle too far, by station, and by how much the furthest.
struct TooFar {
  std::map<std::string, std::vector<std::string>> moves;
  int furthest = 0;
};

/// Prints a row and adds the stations whose middle moved too far.
void print_moves(const char* target, std::size_t nudge, const std::vector<Move>& all, TooFar& too_far) {
  std::array<int, 3> most{};
  std::array<int, 3> over{};
  int dates = 0;
  int gone = 0;
  for (const Move& move : all) {
    if (move.nudge != nudge) continue;
    ++dates;
    gone += move.days ? 0 : 1;
    if (!move.days) continue;
    for (std::size_t i = 0; i < 3; ++i) {
      most[i] = std::max(most[i], (*move.days)[i]);
      over[i] += (*move.days)[i] > most_days_moved ? 1 : 0;
    }
    if ((*move.days)[1] > most_days_moved) {
      too_far.moves[move.station].push_back(fmt::format("{} {} percent by {} d, {}", target, move.percent,
                                                        (*move.days)[1], nudges[nudge].name));
      too_far.furthest = std::max(too_far.furthest, (*move.days)[1]);
    }
  }
  fmt::print("| {} | {} | {} | {} / {} / {} | {} / {} / {} | {} |\n", target, nudges[nudge].name, dates,
             most[0], most[1], most[2], over[0], over[1], over[2], gone);
}

}  // namespace

bool study_edges(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads) {
  std::vector<const Station*> chosen;
  for (const Station& station : stations) {
    if (!station.one_year || !is_eastern(station)) chosen.push_back(&station);
  }
  fmt::print(
      "{} stations\n\n"
      "| target | nudge | dates | most days moved, low / middle / high | moved more than {} days | come or "
      "go |\n| --- | --- | --- | --- | --- | --- |\n",
      chosen.size(), most_days_moved);
  TooFar too_far;
  for (const Asked& what : asked) {
    const auto all = gathered(chosen, threads,
                              [&](const Station* station) { return moves_of(*station, what, catalogue); });
    for (std::size_t nudge = 0; nudge < nudges.size(); ++nudge) print_moves(what.target, nudge, all, too_far);
  }
  const bool good = too_far.moves.size() <= static_cast<std::size_t>(stations_excused) &&
                    too_far.furthest <= most_days_excused;
  fmt::print("\nBar: a middle date moves by at most {} days, at {} stations by at most {}: {}\n",
             most_days_moved, stations_excused, most_days_excused, good ? "holds" : "broken");
  for (const auto& [station, moves] : too_far.moves) fmt::print("{}: {}\n", station, fmt::join(moves, "; "));
  return good;
}

}  // namespace soilclock::studies
