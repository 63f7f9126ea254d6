// SPDX-License-Identifier: MIT
#include "soil/soil_model.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

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

/// The families that have a place or have none, the smallest area first.
std::vector<const SoilModelPair*> by_area(const std::vector<SoilModelPair>& pairs, bool with_place) {
  std::vector<const SoilModelPair*> fitting;
  for (const SoilModelPair& pair : pairs) {
    if ((pair.shallow.form == SoilForm::two_memories) == with_place) fitting.push_back(&pair);
  }
  std::stable_sort(fitting.begin(), fitting.end(), [](const SoilModelPair* a, const SoilModelPair* b) {
    return area_deg2(a->shallow.validity) < area_deg2(b->shallow.validity);
  });
  return fitting;
}

SoilChoice plain_choice(const SoilModelPair& pair) {
  SoilChoice choice{pair, *pair.shallow.error, *pair.deep.error, {}};
  if (pair.shallow.remark) choice.remarks.push_back(*pair.shallow.remark);
  return choice;
}

SoilChoice elsewhere_choice(const SoilModelPair& pair) {
  return {pair,
          pair.shallow.error->widened(pair.shallow.elsewhere->variance_factor),
          pair.deep.error->widened(pair.deep.elsewhere->variance_factor),
          {pair.shallow.elsewhere->remark}};
}

/// One of the choices that hold at a place, and how much.
struct Share {
  double share;
  SoilChoice choice;
};

constexpr std::array variances{&SoilErrorModel::constant_variance, &SoilErrorModel::annual_cosine_variance,
                               &SoilErrorModel::annual_sine_variance, &SoilErrorModel::slow_variance,
                               &SoilErrorModel::fast_variance};

/// The error whose parts are the means of the shares'.
SoilErrorModel mean_error(const std::vector<Share>& shares, SoilErrorModel SoilChoice::*depth) {
  SoilErrorModel mean;
  for (double SoilErrorModel::*part :
       {&SoilErrorModel::constant_variance, &SoilErrorModel::annual_cosine_variance,
        &SoilErrorModel::annual_sine_variance, &SoilErrorModel::slow_variance, &SoilErrorModel::slow_days,
        &SoilErrorModel::fast_variance, &SoilErrorModel::fast_lag1, &SoilErrorModel::season_amplitude,
        &SoilErrorModel::season_peak_day_of_year, &SoilErrorModel::reading_variance}) {
    for (const Share& one : shares) mean.*part += one.share * (one.choice.*depth.*part);
  }
  return mean;
}

/// The choice of the largest share with the numbers of all: estimates are straight in their coefficients.
SoilChoice mean_of(std::vector<Share> shares) {
  const auto largest = std::max_element(shares.begin(), shares.end(),
                                        [](const Share& a, const Share& b) { return a.share < b.share; });
  SoilChoice result = largest->choice;
  if (shares.size() == 1) return result;
  for (SoilModel SoilModelPair::*depth : {&SoilModelPair::shallow, &SoilModelPair::deep}) {
    for (auto& [name, parameter] : (result.pair.*depth).parameters) {
      parameter.value = 0.0;
      for (const Share& one : shares) parameter.value += one.share * (one.choice.pair.*depth).parameter(name);
    }
  }
  result.shallow_error = mean_error(shares, &SoilChoice::shallow_error);
  result.deep_error = mean_error(shares, &SoilChoice::deep_error);
  return result;
}

}  // namespace

SoilErrorModel SoilErrorModel::widened(double variance_factor) const {
  SoilErrorModel result = *this;
  for (double SoilErrorModel::*part : variances) result.*part *= variance_factor;
  return result;
}

double SoilErrorModel::variance() const {
  return constant_variance + (annual_cosine_variance + annual_sine_variance) / 2.0 + slow_variance +
         fast_variance;
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
  for (double SoilErrorModel::*part : variances) follow(part, 0.0, 100.0);
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
  std::optional<std::pair<Depth, Depth>> two_memory_depths;
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
    if (two && !two_memory_depths) two_memory_depths = {*members[0].depth, *members[1].depth};
    if (two && *two_memory_depths != std::pair{*members[0].depth, *members[1].depth})
      return fail(set_problem("the two-memory families are not all fitted at the same two depths"));
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
  std::vector<Share> shares;
  double left = 1.0;
  for (const SoilModelPair* pair : by_area(pairs_, place.has_value())) {
    const SoilModel& model = pair->shallow;
    const double share = place ? left * model.validity.share_at(*place) : left;
    left -= share;
    if (share > 0.0) shares.push_back({share, plain_choice(*pair)});
  }
  for (const SoilModelPair& pair : pairs_) {
    if (left <= 0.0 || !pair.shallow.elsewhere) continue;
    shares.push_back({left, elsewhere_choice(pair)});
    left = 0.0;
  }
  return mean_of(std::move(shares));
}

}  // namespace soilclock::soil
