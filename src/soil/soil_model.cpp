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

/// The size of the area a model is made for, square degrees: the smaller, the closer it fits a place in it.
double area_deg2(const Validity& validity) {
  if (validity.boxes.empty()) return 360.0 * 180.0;
  double area = 0.0;
  for (const GeographicBox& box : validity.boxes) area += (box.north - box.south) * (box.east - box.west);
  return area;
}

}  // namespace

SoilErrorModel SoilErrorModel::widened(double variance_factor) const {
  SoilErrorModel result = *this;
  result.constant_variance *= variance_factor;
  result.slow_variance *= variance_factor;
  result.fast_variance *= variance_factor;
  return result;
}

double SoilModel::parameter(std::string_view name) const { return parameters.find(name)->second.value; }

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

Result<SoilModels> SoilModels::from(std::vector<SoilModel> models, const EstimateRules& rules) {
  SoilModels result;
  result.rules_ = rules;
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
    if (members[0].elsewhere.has_value() != members[1].elsewhere.has_value()) {
      return fail(set_problem("only one depth of the soil model family '" + family + "' serves elsewhere"));
    }
    const bool two = members[0].form == SoilForm::two_memories;
    one_memory = one_memory || !two;
    elsewhere = elsewhere || (two && members[0].elsewhere);
    result.pairs_.push_back({members[0], members[1], rules});
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
      if (!inside || area_deg2(model.validity) < area_deg2(chosen->shallow.validity)) chosen = &pair;
      inside = true;
    } else if (!inside && model.elsewhere) {
      chosen = &pair;
    }
  }
  SoilChoice choice{*chosen, *chosen->shallow.error, *chosen->deep.error, {}};
  if (place && !inside) {
    choice.shallow_error = choice.shallow_error.widened(chosen->shallow.elsewhere->variance_factor);
    choice.deep_error = choice.deep_error.widened(chosen->deep.elsewhere->variance_factor);
    choice.remarks.push_back(chosen->shallow.elsewhere->remark);
  } else if (chosen->shallow.remark) {
    choice.remarks.push_back(*chosen->shallow.remark);
  }
  return choice;
}

}  // namespace soilclock::soil
