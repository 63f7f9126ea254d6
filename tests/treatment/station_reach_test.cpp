// SPDX-License-Identifier: MIT
// Cautious reach on measured soil: the best week must make sense where people know the answer by habit.
#include <rapidcheck/catch.h>

#include <deque>

#include "emergence/gated_clock.hpp"
#include "model_files.hpp"
#include "support/reference_station.hpp"
#include "treatment/cautious_reach.hpp"
#include "treatment/week_kind.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

constexpr int lead = emergence::lead_in_days;

/// The season from 21 June 2020 at a station with measured soil; January to June of the same year stand for
/// those after.
struct StationSeason {
  Season fall = season_of(make_day(2020, 8, 1), SeasonKind::fall, Hemisphere::north);
  std::vector<Temperature> soil_with_lead;
  std::vector<Temperature> air_mean_with_lead;
  std::vector<Rain> rain_with_lead;
  std::vector<Temperature> soil;
  std::vector<Temperature> air_max;
  std::vector<double> age_c_days;

  explicit StationSeason(const tests::ReferenceStation& station) {
    const auto soil_5cm = tests::short_gaps_filled(station.soil.at(5), 10);
    const auto air = tests::short_gaps_filled(station.air_mean, 10);
    const auto highest = tests::short_gaps_filled(station.air_max, 10);
    double age = 0.0;
    for (int i = -lead; i < fall.length(); ++i) {
      Day day = fall.first + Days{i};
      if (day > make_day(2020, 12, 30)) day -= Days{366};
      day = std::max(day, soil_5cm.first());
      soil_with_lead.push_back(soil_5cm.at(day).value());
      air_mean_with_lead.push_back(air.at(day).value());
      rain_with_lead.push_back(Rain::unknown());
      if (i < 0) continue;
      soil.push_back(soil_5cm.at(day).value());
      air_max.push_back(highest.at(day).value());
      age += std::max(0.0, air.at(day)->celsius());
      age_c_days.push_back(age);
    }
  }

  /// A view; this object must outlive it.
  emergence::SeasonDrivers drivers() const {
    return {fall, {true, 0.0}, soil_with_lead, soil_with_lead, air_mean_with_lead, rain_with_lead};
  }
};

/// Members of the soil-crossing clock with its published spread of parameters.
class StationMembers {
 public:
  StationMembers(const StationSeason& season, int count, const ReachSettings& settings,
                 const KnownParts& known = {}) {
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
          .unknown_rain_speed = 0.75};
      std::vector<double> share = emergence::run_gated_clock(season.drivers(), clock).up;
      for (std::size_t day = share.size(); day-- > 1;) share[day] -= share[day - 1];
      shares_.push_back(std::move(share));
      const SeasonCohorts cohorts{season.fall.first, shares_.back(), season.age_c_days,
                                  season.soil,       season.air_max, 60.0 + 30.0 * field.uniform(98, n)};
      members_.push_back({cohorts, draw_parts(field, n, settings, known), 1.0});
    }
  }
  std::span<const Member> span() const { return members_; }

 private:
  std::deque<std::vector<double>> shares_;
  std::vector<Member> members_;
};

const DayRange weeks{make_day(2020, 8, 1), make_day(2021, 4, 1)};

const WeekReach& week_of(const CautiousReach& answer, Day monday) {
  for (const WeekReach& week : answer.weeks) {
    if (week.week_of == monday) return week;
  }
  FAIL("no such week");
  return answer.weeks.front();
}

CautiousReach answer_for(const StationSeason& season, const KnownParts& known = {}) {
  const ReachSettings settings = shipped_settings();
  const StationMembers members{season, 300, settings, known};
  return cautious_reach(members.span(), weeks, {}, shipped_rules(), settings);
}

std::optional<StationSeason> season_at(const std::string& name) {
  const auto folder = tests::record_folder("uscrn");
  if (!folder) return std::nullopt;
  return StationSeason{tests::read_reference_station(*folder / ("CRND0103-2020-" + name + ".txt"))};
}

}  // namespace

TEST_CASE("in the transition zone the best pre+post week lies between late September and late October 2020") {
  for (const std::string name : {"TN_Crossville_7_NW", "KY_Bowling_Green_21_NNE", "NC_Durham_11_W"}) {
    const auto season = season_at(name);
    if (!season) return;
    const CautiousReach answer = answer_for(*season);
    const auto& best = answer.best_of(Kind::pre_post);
    const auto& pre = answer.best_of(Kind::pre);
    REQUIRE(best);
    REQUIRE(pre);
    WARN(name << ": best pre+post " << iso(best->week_of) << " low " << best->points.low << ", window "
              << iso(best->window_first) << " to " << iso(best->window_last) << ", waiting "
              << *best->cost_of_waiting[0] << ' ' << *best->cost_of_waiting[1] << ' '
              << *best->cost_of_waiting[2] << ", limits '" << treatment::name(best->early) << "' / '"
              << treatment::name(best->late) << "', best pre " << iso(pre->week_of) << " low "
              << pre->points.low);
    CHECK(best->week_of >= make_day(2020, 9, 21));
    CHECK(best->week_of <= make_day(2020, 10, 26));
    CHECK(best->window_first <= make_day(2020, 10, 19));
    CHECK(best->window_last >= make_day(2020, 10, 12));
    CHECK(pre->week_of < best->week_of);
    // Around 20 October a mixture works and pre alone is late; post alone leaves what is still to come.
    const WeekReach& october = week_of(answer, make_day(2020, 10, 19));
    WARN(name << ", 19 Oct middle: " << october.of(Kind::pre).middle << " / "
              << october.of(Kind::pre_post).middle << " / " << october.of(Kind::post).middle << ", emerged "
              << october.emerged.middle.percent());
    CHECK(best->points.low - october.of(Kind::pre_post).low <= 6.0);
    CHECK(october.of(Kind::pre_post).middle - october.of(Kind::pre).middle >= 20.0);
    CHECK(october.of(Kind::pre_post).middle > october.of(Kind::post).middle);
    const WeekVerdict verdict = kind_of_week(october, shipped_rules(), shipped_settings());
    CHECK(verdict.kind == WeekKind::pre_post);
  }
}

TEST_CASE("further south the best week is later and further north earlier, on measured soil") {
  const auto south = season_at("AL_Selma_13_WNW");
  const auto middle = season_at("KY_Bowling_Green_21_NNE");
  const auto north = season_at("PA_Avondale_2_N");
  if (!south || !middle || !north) return;
  const auto best = [](const StationSeason& season) {
    return answer_for(season).best_of(Kind::pre_post)->week_of;
  };
  CHECK(best(*south) > best(*middle));
  CHECK(best(*middle) > best(*north));
}

TEST_CASE("a weak residual moves the station's best week later and a weak foliar part earlier") {
  const auto season = season_at("KY_Bowling_Green_21_NNE");
  if (!season) return;
  const auto best = [&](double foliar, double residual) {
    KnownParts known;
    known.foliar_resistant = Fraction::of(foliar);
    known.residual_resistant = Fraction::of(residual);
    return answer_for(*season, known).best_of(Kind::pre_post)->week_of;
  };
  CHECK(best(0.0, 0.5) > best(0.0, 0.0));
  CHECK(best(0.4, 0.0) < best(0.0, 0.0));
}
