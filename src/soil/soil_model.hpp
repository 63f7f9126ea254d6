// SPDX-License-Identifier: MIT
// A soil model is data: what one file of models/soil holds, the set of them, and which coefficients hold at a
// place.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/depth.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/remark.hpp"
#include "soil/estimate_rules.hpp"

namespace soilclock::soil {

/// How a model turns air into soil temperature.
enum class SoilForm {
  two_memories,     ///< a fast and a slow exponential memory of air plus extraterrestrial radiation
  one_memory,       ///< one exponential memory of air, two slopes: for places without a known latitude
  canopy_recursion  ///< the published relaxation under a canopy; not fitted here, kept as a cross-check
};

/// The error of an estimate, truth = estimate - err, variances in K2:
/// err(t) = p + a cos(w) + b sin(w) + m(J) [s(t) + x(t)], w = 2 pi J / 365.25.
/// p, a and b are a site's own and come back each year: its level, and a swing through the year that is too
/// large or too small. s fades over `slow_days`, x is a first-order autoregression from day to day and m(J) =
/// 1 + season_amplitude cos(2 pi (J - season_peak) / 365.25). The southern year is shifted by 182 days.
struct SoilErrorModel {
  double constant_variance = 0.0;
  double annual_cosine_variance = 0.0;
  double annual_sine_variance = 0.0;
  double slow_variance = 0.0;
  double slow_days = 0.0;
  double fast_variance = 0.0;
  double fast_lag1 = 0.0;
  double season_amplitude = 0.0;
  double season_peak_day_of_year = 0.0;
  double reading_variance = 0.0;  ///< of a probe's daily mean

  /// The same error with its variances multiplied; the probe's own variance stays.
  SoilErrorModel widened(double variance_factor) const;
  /// Variance of the error over a whole year, K2; the seasonal factor left out.
  double variance() const;
};

/// What a model that also serves places in no box says and does there.
struct ServesElsewhere {
  Remark remark;
  double variance_factor = 1.0;
};

/// One file of models/soil.
struct SoilModel : ModelHead {
  SoilForm form = SoilForm::two_memories;
  std::string family;          ///< models of one family differ in depth only
  std::optional<Depth> depth;  ///< empty for a form that takes the depth as an input
  std::map<std::string, Parameter, std::less<>> parameters;
  std::optional<Remark> remark;  ///< of every answer that uses the model where it holds
  std::optional<ServesElsewhere> elsewhere;
  std::optional<SoilErrorModel> error;

  /// A parameter by name; it must be one the form has (the reader checks that all are there).
  double parameter(std::string_view name) const;
};

/// Reads a model file. Unknown keys, parameters the form does not have, missing ones, wrong units, a
/// missing source and a missed check point are request problems that name the place in the file.
Result<SoilModel> read_soil_model(std::string_view text, const std::string& file);

/// What a check point's inputs give: "fast_memory_c", "slow_memory_c", "radiation_mj_m2" for the memories,
/// "air_c", "soil_before_c", "depth_cm" for the canopy recursion. Inputs a form does not need are ignored;
/// those it needs must be there. Celsius.
double value_at(const SoilModel& model, const std::map<std::string, double>& input);

/// The same coefficients fitted at two depths; estimates between and just outside follow the straight line.
struct SoilModelPair {
  SoilModel shallow;
  SoilModel deep;
  EstimateRules rules;
};

/// The coefficients that hold at a place, its error, and what must be said about them.
struct SoilChoice {
  SoilModelPair pair;
  SoilErrorModel shallow_error;
  SoilErrorModel deep_error;
  std::vector<Remark> remarks;

  /// The error at a depth: variances and day-to-day memory follow the straight line through the two depths.
  SoilErrorModel error_at(Depth depth) const;
};

/// All soil models of a folder.
class SoilModels {
 public:
  /// Needs two depths of every family with memories, a one-memory family, a family that serves elsewhere and
  /// a canopy recursion; a request problem says what is missing.
  static Result<SoilModels> from(std::vector<SoilModel> models, const EstimateRules& rules);

  /// The two-memory family with the smallest box around the place; outside all boxes the one that serves
  /// elsewhere, with its remark and its wider error; without a place the one-memory family and the remark
  /// "latitude-unknown". Just beyond a box, over the degrees its file fades, the numbers are a mean of those
  /// inside and those that hold next, so that no line on a map makes the soil jump; the remarks are those of
  /// the larger share.
  SoilChoice choose(const std::optional<Place>& place) const;

  /// The unfitted model for cross-checks.
  const SoilModel& cross_check() const { return cross_check_; }
  const std::vector<SoilModel>& all() const { return all_; }
  const EstimateRules& rules() const { return rules_; }

 private:
  std::vector<SoilModel> all_;
  std::vector<SoilModelPair> pairs_;
  SoilModel cross_check_;
  EstimateRules rules_;
};

}  // namespace soilclock::soil
