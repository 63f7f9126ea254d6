// SPDX-License-Identifier: MIT
#include "advice/ensemble/target_run.hpp"

#include <algorithm>

#include "emergence/member_run.hpp"
#include "emergence/stages.hpp"

namespace soilclock::advice {

namespace {

using emergence::DrawnModel;
using emergence::EmergenceModel;

/// The draws of one model for all members. Parameters are drawn by name, so a model keeps its draws when
/// others join or leave the ensemble.
class ModelDraws {
 public:
  ModelDraws(const EmergenceModel& model, const StratifiedDraws& draws) : model_{&model} {
    for (const auto& [name, parameter] : model.parameters)
      numbers_.push_back(&draws.of(model.id + "/" + name));
  }

  DrawnModel of(std::size_t member) const {
    return {model_, emergence::drawn_parameters(
                        *model_, [&](std::size_t parameter) { return (*numbers_[parameter])[member]; })};
  }

 private:
  const EmergenceModel* model_;
  std::vector<const std::vector<double>*> numbers_;  // by parameter, then member
};

/// What all members of a target draw from.
struct TargetDraws {
  struct Component {
    ModelDraws model;
    std::optional<ModelDraws> followed;
  };
  std::vector<Component> models;        ///< as in the job
  std::vector<std::size_t> dealt;       ///< index of the model, by member
  std::span<const double> phyllochron;  ///< by member
};

/// The model of each member: the members are dealt out by weight along an even draw.
std::vector<std::size_t> deal_models(const TargetJob& job, const StratifiedDraws& draws) {
  std::vector<std::size_t> dealt;
  for (const double draw : draws.of("model of " + job.target->code)) {
    std::size_t chosen = 0;
    double upto = job.models.front().weight;
    while (draw >= upto && chosen + 1 < job.models.size()) upto += job.models[++chosen].weight;
    dealt.push_back(chosen);
  }
  return dealt;
}

std::span<const Temperature> season_part(const std::vector<Temperature>& daily) {
  return std::span{daily}.subspan(static_cast<std::size_t>(emergence::lead_in_days));
}

TargetDraws draws_of(const TargetJob& job, const StratifiedDraws& draws, const Catalogue& catalogue) {
  TargetDraws target{{}, deal_models(job, draws), draws.of("phyllochron of " + job.target->code)};
  for (const WeightedModel& weighted : job.models) {
    const EmergenceModel& model = *weighted.model;
    target.models.push_back({{model, draws}, {}});
    if (model.follows)
      target.models.back().followed.emplace(catalogue.emergence.at(model.follows->model), draws);
  }
  return target;
}

TargetMember run_one(const TargetDraws& draws, const emergence::SeasonDrivers& drivers, std::size_t member,
                     const Place& place) {
  const TargetDraws::Component& component = draws.models[draws.dealt[member]];
  const DrawnModel drawn = component.model.of(member);
  std::optional<DrawnModel> followed;
  if (component.followed) followed = component.followed->of(member);
  TargetMember result;
  result.model = draws.dealt[member];
  result.scenario = member;
  result.curve = emergence::run_member(drawn, followed ? &*followed : nullptr, drivers, place);
  return result;
}

/// The water where seed lies, by course of the weather and day. In turf kept from drying out seedlings never
/// wait for water, on hot days neither.
std::vector<std::vector<WaterPotential>> surface_waters(const Scenarios& scenarios,
                                                        const soil::SurfaceWaterRules& rules,
                                                        const SiteWeather& site) {
  constexpr double days_in_week = 7.0;
  std::vector<std::vector<WaterPotential>> waters;
  waters.reserve(scenarios.traces().size());
  for (const WeatherTrace& trace : scenarios.traces()) {
    if (site.irrigation.irrigated) {
      waters.emplace_back(trace.rain.size(), WaterPotential::from_mpa(0.0));
      continue;
    }
    waters.push_back(soil::surface_water(
        rules, site.texture,
        {scenarios.days().begin(), site.place.latitude_deg, trace.air_mean, trace.air_max, trace.rain},
        Rain::from_mm(site.irrigation.mm_per_week / days_in_week)));
  }
  return waters;
}

}  // namespace

SeasonRuns run_targets(const std::vector<TargetJob>& jobs, const Season& season, const Scenarios& scenarios,
                       const StratifiedDraws& draws, const Catalogue& catalogue, const SiteWeather& site) {
  SeasonRuns runs;
  std::vector<TargetDraws> of_targets;
  for (const TargetJob& job : jobs) {
    runs.targets.push_back({job, season, {}});
    of_targets.push_back(draws_of(job, draws, catalogue));
  }
  const emergence::CurveRules rules{catalogue.practice.thresholds.main_wave_over.value()};
  const auto water = surface_waters(scenarios, catalogue.surface_water, site);
  std::vector<std::vector<Rain>> week_water;           // by course of the weather
  std::vector<std::vector<std::vector<double>>> ages;  // by course and job
  for (const WeatherTrace& trace : scenarios.traces()) {
    week_water.push_back(
        emergence::week_of_water(trace.rain, site.irrigation, catalogue.practice.weekly_means.rain_days));
    ages.emplace_back();
    for (const TargetJob& job : jobs)
      ages.back().push_back(emergence::thermal_age(season_part(trace.air_mean), *job.growth));
  }
  for (int member = 0; member < scenarios.members(); ++member) {
    const auto m = static_cast<std::size_t>(member);
    const MemberSoil soil = scenarios.soil_of(member);
    const WeatherTrace& weather = scenarios.weather_of(member);
    const std::size_t trace = scenarios.trace_of(member);
    const emergence::SeasonDrivers drivers{season,           site.irrigation,   soil.at_5cm, soil.shallow,
                                           weather.air_mean, week_water[trace], rules,       water[trace]};
    for (std::size_t j = 0; j < jobs.size(); ++j) {
      TargetMember& result =
          runs.targets[j].members.emplace_back(run_one(of_targets[j], drivers, m, site.place));
      result.thermal_age = ages[trace][j];
      result.phyllochron = jobs[j].growth->phyllochron.drawn(of_targets[j].phyllochron[m]);
    }
    const auto in_season = season_part(soil.at_5cm);
    runs.soil.emplace_back(in_season.begin(), in_season.end());
  }
  return runs;
}

}  // namespace soilclock::advice
