// SPDX-License-Identifier: MIT
// Curve forms of cumulative emergence: share emerged (0..1) as a function of a sum or a day. Code knows
// forms, the model files know numbers.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace soilclock::emergence {

/// exp(-exp(-k(x - m))); steepest at x = m, where 1/e has emerged. Not quite 0 at x = 0.
struct Gompertz {
  double k;  ///< per unit of x, > 0
  double m;  ///< unit of x
};
/// 1 - exp(-((x - lag)/scale)^shape), 0 up to the lag.
struct WeibullLag {
  double lag;
  double scale;  ///< > 0
  double shape;  ///< > 0
};
/// 1/(1 + exp(-k(x - x50))).
struct Logistic {
  double k;  ///< > 0
  double x50;
};
/// 1/(1 + (x50/x)^exponent), 0 for x <= 0.
struct LogLogistic {
  double x50;       ///< > 0
  double exponent;  ///< > 0
};
/// (1 - exp(-k x))^m, 0 for x <= 0.
struct ChapmanRichards {
  double k;  ///< > 0
  double m;  ///< > 0
};
/// A logistic autumn cohort of the given share and a remainder spread evenly from ramp_start to ramp_end; x
/// is the day of the year, counted on past 365.
struct TwoCohorts {
  double autumn_share;  ///< 0..1
  double center;        ///< day
  double scale;         ///< days, > 0
  double ramp_start;    ///< day
  double ramp_end;      ///< day, > ramp_start
};

using CurveForm = std::variant<Gompertz, WeibullLag, Logistic, LogLogistic, ChapmanRichards, TwoCohorts>;

/// A rising curve from 0 to 1.
class Curve {
 public:
  /// Parameters outside the ranges above give no curve: check with problem_of before.
  explicit Curve(CurveForm form) : form_{form} {}
  /// Share emerged at x, 0..1; not-a-number when x is.
  double value(double x) const;
  /// The x at which the share is reached; shares of exactly 0 or 1 have none on forms without an end, and a
  /// curve that starts above the share (Gompertz, logistic at x = 0) gives the x of the formula, which may be
  /// negative.
  std::optional<double> inverse(double share) const;
  const CurveForm& form() const { return form_; }

 private:
  CurveForm form_;
};

/// A parameter a form must have and the unit it must be written in.
struct ParameterInfo {
  std::string name;
  std::string unit;
};

/// The name a model file uses for a form, and its parameters. Units in terms of "x" and "1/x" stand for those
/// of x.
struct CurveFormInfo {
  std::string_view name;
  std::vector<ParameterInfo> parameters;
};
const std::vector<CurveFormInfo>& curve_forms();

/// The form of a name of curve_forms(), its parameters asked for by name; an unknown name gives nothing.
std::optional<CurveForm> make_curve_form(std::string_view name,
                                         const std::function<double(std::string_view)>& parameter);

/// What is wrong with the parameters of a form ("k must be above 0"), or nothing.
std::optional<std::string> problem_of(const CurveForm& form);

/// Temperatures in Celsius between which the share of a seed pool that can germinate changes, in rising
/// order.
struct ReleaseCeiling {
  double cold_none;  ///< none at and below
  double cold_all;   ///< not hindered by cold from here
  double all;        ///< all up to here
  double half;       ///< half here
  double none;       ///< none from here
};

/// Share (0..1) of non-dormant seed able to germinate at a soil temperature in Celsius: straight lines
/// between the points of the ceiling. `shift` moves its warm side up (seed that tolerates more warmth); the
/// cold side stays. Source: form derived from Standifer & Porche-Sorbet 1984 and Standifer & Wilson 1988 (see
/// models/sources.json).
double releasable_share(const ReleaseCeiling& ceiling, double celsius, double shift = 0.0);

}  // namespace soilclock::emergence
