// SPDX-License-Identifier: MIT
// An ensemble of the soil-crossing clock over a made-up autumn: what scouting is tried on without any record.
#pragma once

#include <cmath>

#include "advice/ensemble/target_run.hpp"
#include "advice/futures/stratified_draws.hpp"
#include "core/random.hpp"
#include "emergence/stages.hpp"
#include "support/drawn_models.hpp"
#include "support/season_weather.hpp"

namespace soilclock::tests {

/// What the ensemble points to; must outlive it.
struct ClockModels {
  emergence::EmergenceModel model = shipped_model("POAAN_soil_crossing");
  emergence::GrowthModel growth = shipped_growth("POAAN_leaf_pace");
  emergence::Target target;
  ClockModels() {
    target.code = "POAAN";
    target.title = "Annual bluegrass";
  }
};

/// Soil falls through the model's crossing at the beginning of October 2021; each member's is off by one
/// constant with a standard deviation of 0.8 C, as a season of estimated soil is. Irrigated. 37 N.
inline advice::TargetRun clock_ensemble(const ClockModels& models, int members, std::uint64_t seed) {
  const Place place{37.0, -86.0, {}};
  const advice::StratifiedDraws draws{seed, members};
  const std::vector<double>& warmth = draws.of("soil error");
  advice::TargetRun run;
  run.job = {&models.target, &models.growth, {{&models.model, 1.0}}};
  for (std::size_t m = 0; m < static_cast<std::size_t>(members); ++m) {
    const double error = 0.8 * normal_quantile(warmth[m]);
    const ::testing::SeasonWeather weather{
        [&](int day) { return 14.5 + 11.5 * std::cos((day - 35) * 6.283185307 / 365.25) + error; }};
    run.season = weather.season();
    std::vector<std::string_view> names;
    for (const auto& [name, parameter] : models.model.parameters) names.push_back(name);
    const auto uniform = [&](std::size_t i) { return draws.of(names[i])[m]; };
    const emergence::DrawnModel drawn{&models.model, emergence::drawn_parameters(models.model, uniform)};
    const emergence::SeasonDrivers drivers = weather.drivers({true, 0.0});
    advice::TargetMember member;
    member.scenario = m;
    member.curve = emergence::run_member(drawn, nullptr, drivers, place);
    member.thermal_age = emergence::thermal_age(
        drivers.air_mean.subspan(static_cast<std::size_t>(emergence::lead_in_days)), models.growth);
    member.phyllochron = models.growth.phyllochron.drawn(draws.of("phyllochron")[m]);
    run.members.push_back(std::move(member));
  }
  return run;
}

}  // namespace soilclock::tests
