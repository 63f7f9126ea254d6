// SPDX-License-Identifier: MIT
// Decisions on measured soil: the best week must make sense where people know the answer by habit.
#include <catch2/catch.hpp>
#include <deque>

#include "control_points.hpp"
#include "emergence/gated_clock.hpp"
#include "support/reference_station.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

constexpr int lead = emergence::lead_in_days;

/// The season from 21 June 2020 at a station with measured soil; January to June of the same year stand for
/// those after.
struct StationSeason {
  Season fall = season_of(make_day(2020, 8, 1), SeasonKind::fall, Hemisphere::north);
  std::vector<Temperature> soil_with_lead;
  std::vector<Temperature> air_mean_with_lead;
  std::vector<Rain> week_water = std::vector<Rain>(static_cast<std::size_t>(fall.length()), Rain::unknown());
  std::vector<Temperature> soil;
  std::vector<Temperature> air_max;
  std::vector<double> age_c_days;

  explicit StationSeason(const ReferenceStation& station) {
    const auto soil_5cm = short_gaps_filled(station.soil.at(5), 10);
    const auto air = short_gaps_filled(station.air_mean, 10);
    const auto highest = short_gaps_filled(station.air_max, 10);
    double age = 0.0;
    for (int i = -lead; i < fall.length(); ++i) {
      Day day = fall.first + Days{i};
      if (day > make_day(2020, 12, 30)) day -= Days{366};
      day = std::max(day, soil_5cm.first());
      soil_with_lead.push_back(soil_5cm.at(day).value());
      air_mean_with_lead.push_back(air.at(day).value());
      if (i < 0) continue;
      soil.push_back(soil_5cm.at(day).value());
      air_max.push_back(highest.at(day).value());
      age += std::max(0.0, air.at(day)->celsius());
      age_c_days.push_back(age);
    }
  }

  /// A view; this object must outlive it.
  emergence::SeasonDrivers drivers() const {
    return {fall, {true, 0.0}, soil_with_lead, soil_with_lead, air_mean_with_lead, week_water, {0.9}};
  }
};

/// Members of the soil-crossing clock with its published spread of parameters.
class StationMembers {
 public:
  StationMembers(const StationSeason& season, int count) {
    const RandomField field{7};
    for (int i = 0; i < count; ++i) {
      const auto n = static_cast<std::uint64_t>(i);
      const auto between = [&](std::uint64_t stream, double least, double most) {
        return least + (most - least) * field.uniform(stream, n);
      };
      const emergence::GatedClockParameters clock{
          .crossing = Temperature::from_celsius(18.9 + 0.8 * field.normal(1, n)),
          .width = TemperatureDelta::from_kelvin(between(2, 0.8, 1.4)),
          .release_scale_days = between(3, 4.5, 6.5),
          .lag_days = between(4, 1.0, 7.0),
          .autumn_share = std::clamp(0.76 + 0.06 * field.normal(5, n), 0.55, 0.92),
          .rest_middle_day = 60.0,
          .rest_scale_days = 8.0,
          .cold_stop = Temperature::from_celsius(5.0),
          .cold_full = Temperature::from_celsius(10.0),
          .dry_speed = 0.15,
          .full_water = Rain::from_mm(12.7),
          .irrigated_speed = 0.75,
          .unknown_rain_speed = 0.75,
          .weakest_cold_gate = 0.05,
          .winter_crossing_shift = TemperatureDelta::from_kelvin(1.0),
          .winter_dry_speed = 0.3};
      std::vector<double> share = emergence::run_gated_clock(season.drivers(), clock).up;
      for (std::size_t day = share.size(); day-- > 1;) share[day] -= share[day - 1];
      shares_.push_back(std::move(share));
      cohorts_.push_back({season.fall.first, shares_.back(), season.age_c_days, season.soil, season.air_max,
                          60.0 + 30.0 * field.uniform(98, n),
                          shipped_catalogue().growth.at("POAAN_leaf_pace").limits});
    }
  }
  std::span<const treatment::SeasonCohorts> span() const { return cohorts_; }

 private:
  std::deque<std::vector<double>> shares_;
  std::vector<treatment::SeasonCohorts> cohorts_;
};

Weeks table_at(const StationSeason& season, double foliar_resistant = 0.0, double residual_resistant = 0.0) {
  const StationMembers members{season, 300};
  treatment::TreatmentParts parts = unnamed_bluegrass_parts();
  parts.foliar.front().resistant = Fraction::of(foliar_resistant);
  parts.residual.front().resistant = Fraction::of(residual_resistant);
  return control_table(members.span(), parts, mondays(make_day(2020, 8, 1), make_day(2021, 2, 28)));
}

/// The decision on a Monday from the weeks left then.
Decision decision_on(const Weeks& table, Day day) {
  const auto from = static_cast<std::size_t>(&week_of(table, day) - table.data());
  const std::span all{table};
  return decide(all.subspan(from), all.first(from), shipped_rules());
}

StationSeason season_at(const std::string& name) { return StationSeason{reference_station(name)}; }

}  // namespace

TEST_CASE("in the transition zone the best pre+post week lies between late September and late October 2020") {
  for (const std::string name : {"TN_Crossville_7_NW", "KY_Bowling_Green_21_NNE", "NC_Durham_11_W"}) {
    const Weeks table = table_at(season_at(name));
    const BestWeek best = best_week(table, Kind::pre_post);
    const BestWeek pre = best_week(table, Kind::pre);
    const Decision august = decision_on(table, make_day(2020, 8, 3));
    const Decision october = decision_on(table, make_day(2020, 10, 19));
    WARN(name << ": best pre+post " << iso(best.week_of) << " score " << best.score << ", best pre "
              << iso(pre.week_of) << " score " << pre.score << "\n  Aug 3: " << shown(august)
              << "\n  Oct 19: " << shown(october));
    CHECK(best.week_of >= make_day(2020, 9, 21));
    CHECK(best.week_of <= make_day(2020, 10, 26));
    CHECK(pre.week_of < best.week_of);
    // In early August it is too early for anything, and what is waited for comes in fall.
    CHECK(august.action == Action::wait);
    CHECK(august.best_range->first >= make_day(2020, 8, 17));
    CHECK(august.best_range->last <= make_day(2020, 11, 1));
    // Around 20 October a mixture works and pre alone is late; post alone leaves what is still to come.
    const TreatmentWeek& week = week_of(table, make_day(2020, 10, 19));
    CHECK(best.score - *week.score(Kind::pre_post) <= 6.0);
    CHECK(week.of(Kind::pre_post).control.middle - week.of(Kind::pre).control.middle >= 20.0);
    CHECK(week.of(Kind::pre_post).control.middle > week.of(Kind::post).control.middle);
    CHECK(october.kind == Kind::pre_post);
    CHECK(october.action != Action::wait);
  }
}

TEST_CASE("further south the best week is later and further north earlier, on measured soil") {
  const Weeks in_south = table_at(season_at("LA_Lafayette_13_SE"));
  const Weeks in_middle = table_at(season_at("KY_Bowling_Green_21_NNE"));
  const Weeks in_north = table_at(season_at("PA_Avondale_2_N"));
  const auto best = [](const Weeks& table) { return best_week(table, Kind::pre_post).week_of; };
  CHECK(best(in_south) > best(in_middle));
  // The weeks of the middle and the north may be the same Monday; the north then gains less by waiting for
  // it.
  CHECK(best(in_middle) >= best(in_north));
  const auto gain_by_waiting = [](const Weeks& table) {
    return *week_of(table, make_day(2020, 10, 12)).score(Kind::pre_post) -
           *week_of(table, make_day(2020, 10, 5)).score(Kind::pre_post);
  };
  CHECK(gain_by_waiting(in_south) > gain_by_waiting(in_middle));
  CHECK(gain_by_waiting(in_middle) > gain_by_waiting(in_north));
}

TEST_CASE("a weak residual moves the station's best week later and a weak foliar part earlier") {
  const StationSeason season = season_at("KY_Bowling_Green_21_NNE");
  const auto best = [&](double foliar, double residual) {
    return best_week(table_at(season, foliar, residual), Kind::pre_post).week_of;
  };
  CHECK(best(0.0, 0.5) > best(0.0, 0.0));
  CHECK(best(0.4, 0.0) < best(0.0, 0.0));
}
