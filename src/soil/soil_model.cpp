// SPDX-License-Identifier: MIT
#include "soil/soil_model.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::soil {

namespace {

double canopy_step(const SoilModel& model, double air, double before, double depth_cm) {
  const double green = model.parameter("green_area_index");
  const double leaf = model.parameter("leaf_per_green") * green;
  const double canopy =
      std::exp(-model.parameter("leaf_extinction") * (leaf - model.parameter("reference_leaf_area")));
  const double surface =
      air < 0.0 ? model.parameter("cold_surface") * air
                : air * (model.parameter("open_surface") + model.parameter("canopy_surface") * canopy);
  const double depth_mm = 10.0 * depth_cm;
  const double rate = model.parameter("rate") *
                      std::exp(-model.parameter("depth_extinction") * depth_mm / 20.0) *
                      std::exp(-model.parameter("green_extinction") * green);
  return before + rate * (surface - before);
}

Problem set_problem(std::string what) {
  return {Family::request, std::move(what), {}, {}, {}, "the folder models/soil must hold a complete set"};
}

}  // namespace

SoilErrorModel SoilErrorModel::widened(double variance_factor) const {
  SoilErrorModel result = *this;
  result.constant_variance *= variance_factor;
  result.slow_variance *= variance_factor;
  result.fast_variance *= variance_factor;
  return result;
}

bool SoilValidity::contains(const Place& place) const {
  return latitude_from_deg <= place.latitude_deg && place.latitude_deg <= latitude_to_deg &&
         longitude_from_deg <= place.longitude_deg && place.longitude_deg <= longitude_to_deg;
}

double SoilValidity::area_deg2() const {
  return (latitude_to_deg - latitude_from_deg) * (longitude_to_deg - longitude_from_deg);
}

double SoilModel::parameter(std::string_view name) const { return parameters.at(std::string{name}).value; }

double value_at(const SoilModel& model, const std::map<std::string, double>& input) {
  if (model.form == SoilForm::canopy_recursion) {
    return canopy_step(model, input.at("air_c"), input.at("soil_before_c"), input.at("depth_cm"));
  }
  const double fast = input.at("fast_memory_c");
  double value =
      model.parameter("constant") + model.parameter(fast > 0.0 ? "warm_slope" : "cold_slope") * fast;
  if (model.form == SoilForm::two_memories) {
    value += model.parameter("slow_slope") * input.at("slow_memory_c") +
             model.parameter("radiation_slope") * input.at("radiation_mj_m2");
  }
  return value;
}

SoilErrorModel SoilChoice::error_at(Depth depth) const {
  const double shallow_cm = pair.shallow.depth->cm();
  const double share = (depth.cm() - shallow_cm) / (pair.deep.depth->cm() - shallow_cm);
  SoilErrorModel result = shallow_error;
  const auto follow = [&](double SoilErrorModel::*part, double least, double most) {
    result.*part =
        std::clamp(shallow_error.*part + share * (deep_error.*part - shallow_error.*part), least, most);
  };
  follow(&SoilErrorModel::constant_variance, 0.0, 100.0);
  follow(&SoilErrorModel::slow_variance, 0.0, 100.0);
  follow(&SoilErrorModel::fast_variance, 0.0, 100.0);
  follow(&SoilErrorModel::fast_lag1, 0.0, 0.999);
  return result;
}

Result<SoilModels> SoilModels::from(std::vector<SoilModel> models) {
  SoilModels result;
  std::map<std::string, std::vector<SoilModel>> families;
  const SoilModel* canopy = nullptr;
  for (const SoilModel& model : models) {
    if (model.form == SoilForm::canopy_recursion) {
      canopy = &model;
    } else {
      families[model.family].push_back(model);
    }
  }
  if (canopy == nullptr) return fail(set_problem("no soil model has the form 'canopy-recursion'"));
  result.cross_check_ = *canopy;
  bool one_memory = false;
  bool elsewhere = false;
  for (auto& [family, members] : families) {
    std::sort(members.begin(), members.end(),
              [](const SoilModel& a, const SoilModel& b) { return *a.depth < *b.depth; });
    if (members.size() != 2 || members[0].form != members[1].form || members[0].depth == members[1].depth) {
      return fail(set_problem("the soil model family '" + family + "' needs one form at two depths"));
    }
    const bool two = members[0].form == SoilForm::two_memories;
    one_memory = one_memory || !two;
    elsewhere = elsewhere || (two && members[0].validity.elsewhere);
    result.pairs_.push_back({members[0], members[1]});
  }
  if (!one_memory) return fail(set_problem("no soil model has the form 'one-memory'"));
  if (!elsewhere) return fail(set_problem("no two-memory soil model says that it serves elsewhere"));
  result.all_ = std::move(models);
  return result;
}

SoilChoice SoilModels::choose(const std::optional<Place>& place) const {
  const SoilModelPair* chosen = nullptr;
  bool inside = false;
  for (const SoilModelPair& pair : pairs_) {
    const SoilModel& model = pair.shallow;
    if ((model.form == SoilForm::one_memory) != !place) continue;
    if (!place) {
      chosen = &pair;
    } else if (model.validity.contains(*place)) {
      if (!inside || model.validity.area_deg2() < chosen->shallow.validity.area_deg2()) chosen = &pair;
      inside = true;
    } else if (!inside && model.validity.elsewhere) {
      chosen = &pair;
    }
  }
  const SoilValidity& validity = chosen->shallow.validity;
  SoilChoice choice{*chosen, *chosen->shallow.error, *chosen->deep.error, {}};
  if (place && !inside) {
    choice.shallow_error = choice.shallow_error.widened(validity.elsewhere_variance_factor);
    choice.deep_error = choice.deep_error.widened(chosen->deep.validity.elsewhere_variance_factor);
    choice.remarks.push_back(*validity.elsewhere);
  } else if (validity.inside) {
    choice.remarks.push_back(*validity.inside);
  }
  return choice;
}

}  // namespace soilclock::soil
