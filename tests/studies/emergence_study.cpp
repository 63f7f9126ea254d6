// SPDX-License-Identifier: MIT
// The middle course of an answer beside what field papers report, over measured years near their places; and
// the counts of yellow foxtail and goosegrass of one turf sward.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <map>

#include "emergence/turf_plots.hpp"
#include "studies/season_dates.hpp"
#include "studies/studies.hpp"

namespace soilclock::studies {

namespace {

constexpr int first_fall = 2011;

/// The table of days of one fall at a station.
class Fall {
 public:
  explicit Fall(std::vector<advice::SeasonDay> days) : days_{std::move(days)} {}

  double percent_up(Day day) const {
    const auto i = (day - days_.front().day).count();
    if (i < 0) return 0.0;
    return days_.at(static_cast<std::size_t>(i)).emerged_percent.middle;
  }
  Day fastest_week() const {
    constexpr int week = 7;
    Day best = days_.front().day;
    double most = 0.0;
    for (const advice::SeasonDay& one : days_) {
      if (one.day + Days{week} > days_.back().day) break;
      const double up = percent_up(one.day + Days{week - 1}) - percent_up(one.day - Days{1});
      if (up > most) most = up, best = one.day;
    }
    return best;
  }
  Day first_with(double percent) const {
    for (const advice::SeasonDay& one : days_) {
      if (one.emerged_percent.middle >= percent) return one.day;
    }
    return days_.back().day;
  }

 private:
  std::vector<advice::SeasonDay> days_;
};

std::map<int, Fall> falls_at(const std::string& name, const std::vector<Station>& stations,
                             const advice::Catalogue& catalogue) {
  std::map<int, Fall> falls;
  for (const Station& station : stations) {
    if (station.name != name || station.one_year) continue;
    for (int year = first_fall; year < civil(station.daily.air_min.last()).year; ++year) {
      auto answer = in_hindsight(station, "POAAN", make_day(year, 10, 1), catalogue);
      if (answer) falls.emplace(year, Fall{std::move(answer->season)});
    }
  }
  return falls;
}

/// Kaminski and Dernoeden 2007, Crop Sci 47:775-781; the trials lie 100 km from the station.
void print_maryland(const std::vector<Station>& stations, const advice::Catalogue& catalogue) {
  fmt::print(
      "\n| annual bluegrass, PA Avondale | up on August 31, % | from September 23 to October 15, % | up on "
      "November 5, % | fastest week begins |\n| --- | --- | --- | --- | --- |\n| reported from Maryland | "
      "begins in August | 50 to 70 | 76 | early October |\n");
  for (const auto& [year, fall] : falls_at("PA Avondale 2 N", stations, catalogue)) {
    const auto up = [&](unsigned month, unsigned day) { return fall.percent_up(make_day(year, month, day)); };
    fmt::print("| {} | {:.0f} | {:.0f} | {:.0f} | {} |\n", year, up(8, 31), up(10, 15) - up(9, 22), up(11, 5),
               short_date(fall.fastest_week()));
  }
}

/// Taylor et al. 2021, Scientific Reports 11 (2020 alone); the station lies 300 m above the trials.
void print_tennessee(const std::vector<Station>& stations, const advice::Catalogue& catalogue) {
  fmt::print(
      "\n| annual bluegrass, TN Crossville | fastest week begins | half up |\n| --- | --- | --- |\n| "
      "reported from Knoxville, 2020 | September 28 to October 19 | |\n");
  for (const auto& [year, fall] : falls_at("TN Crossville 7 NW", stations, catalogue)) {
    fmt::print("| {} | {} | {} |\n", year, short_date(fall.fastest_week()), short_date(fall.first_with(50)));
  }
}

/// State extension: seedlings from September, flushes in October or November.
void print_louisiana(const std::vector<Station>& stations, const advice::Catalogue& catalogue) {
  fmt::print(
      "\n| annual bluegrass, LA Lafayette | 10% up | half up |\n| --- | --- | --- |\n| reported from "
      "Louisiana "
      "| from September | flushes in October or November |\n");
  for (const auto& [year, fall] : falls_at("LA Lafayette 13 SE", stations, catalogue)) {
    fmt::print("| {} | {} | {} |\n", year, short_date(fall.first_with(10)), short_date(fall.first_with(50)));
  }
}

double root_mean_square(const emergence::EmergenceCurve& curve, const std::vector<emergence::Count>& counts) {
  double squares = 0.0;
  for (const auto& count : counts) squares += std::pow(count.percent - 100.0 * curve.at(count.season_day), 2);
  return std::sqrt(squares / static_cast<double>(counts.size()));
}

/// A fit, not a check: the coefficients come from the place of the counts, and their rate was chosen to fit.
void print_foxtail(const emergence::Plots& plots, const advice::Catalogue& catalogue) {
  const emergence::EmergenceModel& model = catalogue.emergence.at("SETPU_hydrothermal");
  const auto counts = emergence::foxtail_counts();
  fmt::print(
      "\n| yellow foxtail, {} counts of 2008 | efficiency | RMSE, points | inside the 80% band |\n| --- | "
      "--- | "
      "--- | --- |\n",
      counts.size());
  const auto row = [&](const char* water, std::span<const WaterPotential> by) {
    const auto drivers = plots.drivers(by);
    const auto central = emergence::run_member({&model, emergence::central_parameters(model)}, nullptr,
                                               drivers, emergence::plots_place);
    const auto courses = emergence::drawn_courses(model, drivers);
    const auto inside = std::count_if(counts.begin(), counts.end(),
                                      [&](const auto& count) { return emergence::held(courses, count); });
    fmt::print("| {} | {:.2f} | {:.1f} | {} of {} |\n", water, emergence::efficiency(central, counts),
               root_mean_square(central, counts), inside, counts.size());
  };
  row("water of the soil file", plots.water);
  row("water of the program's own layer", plots.layer_water(catalogue.surface_water));
}

void print_goosegrass(const emergence::Plots& plots, const advice::Catalogue& catalogue) {
  constexpr std::array<std::pair<int, int>, 5> counted{{{10, 23}, {25, 21}, {50, 19}, {75, 21}, {90, 41}}};
  const auto day_of = [&](const char* id, double share) {
    const emergence::EmergenceModel& model = catalogue.emergence.at(id);
    return emergence::run_member({&model, emergence::central_parameters(model)}, nullptr,
                                 plots.drivers(plots.water), emergence::plots_place)
        .first_day_reaching(share)
        .value();
  };
  fmt::print(
      "\n| goosegrass after large crabgrass, 2008 | counted, days | by the models |\n| --- | --- | --- |\n");
  for (const auto& [percent, days] : counted) {
    const double share = 0.01 * percent;
    fmt::print("| {}% up | {} | {} |\n", percent, days,
               day_of("ELEIN_hydrothermal", share) - day_of("DIGSA_hydrothermal", share));
  }
}

}  // namespace

bool study_emergence(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned) {
  print_maryland(stations, catalogue);
  print_tennessee(stations, catalogue);
  print_louisiana(stations, catalogue);
  if (!tests::have_record_folder()) {
    fmt::print("SKIPPED: the counts of the turf sward; set SOILCLOCK_RECORDS\n");
    return true;
  }
  const emergence::Plots plots;
  print_foxtail(plots, catalogue);
  print_goosegrass(plots, catalogue);
  return true;
}

}  // namespace soilclock::studies
