// SPDX-License-Identifier: MIT
#include "emergence/curves.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::emergence {

namespace {

double value_of(const Gompertz& c, double x) { return std::exp(-std::exp(-c.k * (x - c.m))); }
double value_of(const WeibullLag& c, double x) {
  return x <= c.lag ? 0.0 : 1.0 - std::exp(-std::pow((x - c.lag) / c.scale, c.shape));
}
double value_of(const Logistic& c, double x) { return 1.0 / (1.0 + std::exp(-c.k * (x - c.x50))); }
double value_of(const LogLogistic& c, double x) {
  return x <= 0.0 ? 0.0 : 1.0 / (1.0 + std::pow(c.x50 / x, c.exponent));
}
double value_of(const ChapmanRichards& c, double x) {
  return x <= 0.0 ? 0.0 : std::pow(1.0 - std::exp(-c.k * x), c.m);
}
double value_of(const TwoCohorts& c, double x) {
  const double ramp = std::clamp((x - c.ramp_start) / (c.ramp_end - c.ramp_start), 0.0, 1.0);
  return c.autumn_share / (1.0 + std::exp(-(x - c.center) / c.scale)) + (1.0 - c.autumn_share) * ramp;
}

double inverse_of(const Gompertz& c, double f) { return c.m - std::log(-std::log(f)) / c.k; }
double inverse_of(const WeibullLag& c, double f) {
  return c.lag + c.scale * std::pow(-std::log1p(-f), 1.0 / c.shape);
}
double inverse_of(const Logistic& c, double f) { return c.x50 + std::log(f / (1.0 - f)) / c.k; }
double inverse_of(const LogLogistic& c, double f) {
  return c.x50 * std::pow(f / (1.0 - f), 1.0 / c.exponent);
}
double inverse_of(const ChapmanRichards& c, double f) { return -std::log1p(-std::pow(f, 1.0 / c.m)) / c.k; }
/// The sum of a logistic and a ramp has no closed inverse; it rises, so halving finds it.
double inverse_of(const TwoCohorts& c, double f) {
  double below = std::min(c.center, c.ramp_start) - 1000.0 * c.scale;
  double above = std::max(c.center, c.ramp_end) + 1000.0 * c.scale;
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (below + above);
    (value_of(c, middle) < f ? below : above) = middle;
  }
  return above;
}

using Words = std::optional<std::string>;
Words positive(double value, std::string_view name) {
  // Written so that not-a-number is refused too.
  return value > 0.0 ? Words{} : Words{std::string{name} + " must be above 0"};
}
Words either(Words first, Words second) { return first ? first : second; }

Words problem_in(const Gompertz& c) { return positive(c.k, "k"); }
Words problem_in(const WeibullLag& c) {
  return either(positive(c.scale, "scale"), positive(c.shape, "shape"));
}
Words problem_in(const Logistic& c) { return positive(c.k, "k"); }
Words problem_in(const LogLogistic& c) {
  return either(positive(c.x50, "x50"), positive(c.exponent, "exponent"));
}
Words problem_in(const ChapmanRichards& c) { return either(positive(c.k, "k"), positive(c.m, "m")); }
Words problem_in(const TwoCohorts& c) {
  if (!(c.autumn_share >= 0.0 && c.autumn_share <= 1.0)) return "autumn_share must be 0 to 1";
  if (!(c.ramp_end > c.ramp_start)) return "ramp_end must be above ramp_start";
  return positive(c.scale, "scale");
}

}  // namespace

double Curve::value(double x) const {
  if (std::isnan(x)) return x;
  return std::visit([x](const auto& form) { return value_of(form, x); }, form_);
}

std::optional<double> Curve::inverse(double share) const {
  if (!(share > 0.0 && share < 1.0)) return std::nullopt;
  return std::visit([share](const auto& form) { return inverse_of(form, share); }, form_);
}

const std::vector<CurveFormInfo>& curve_forms() {
  static const std::vector<CurveFormInfo> forms{
      {"gompertz", {{"k", "1/x"}, {"m", "x"}}},
      {"weibull-lag", {{"lag", "x"}, {"scale", "x"}, {"shape", "1"}}},
      {"logistic", {{"k", "1/x"}, {"x50", "x"}}},
      {"log-logistic", {{"x50", "x"}, {"exponent", "1"}}},
      {"chapman-richards", {{"k", "1/x"}, {"m", "1"}}},
      {"two-cohorts",
       {{"autumn_share", "1"}, {"center", "x"}, {"scale", "x"}, {"ramp_start", "x"}, {"ramp_end", "x"}}},
  };
  return forms;
}

std::optional<CurveForm> make_curve_form(std::string_view name,
                                         const std::function<double(std::string_view)>& parameter) {
  const auto p = [&](std::string_view key) { return parameter(key); };
  if (name == "gompertz") return Gompertz{p("k"), p("m")};
  if (name == "weibull-lag") return WeibullLag{p("lag"), p("scale"), p("shape")};
  if (name == "logistic") return Logistic{p("k"), p("x50")};
  if (name == "log-logistic") return LogLogistic{p("x50"), p("exponent")};
  if (name == "chapman-richards") return ChapmanRichards{p("k"), p("m")};
  if (name == "two-cohorts") {
    return TwoCohorts{p("autumn_share"), p("center"), p("scale"), p("ramp_start"), p("ramp_end")};
  }
  return std::nullopt;
}

std::optional<std::string> problem_of(const CurveForm& form) {
  return std::visit([](const auto& f) { return problem_in(f); }, form);
}

double releasable_share(const ReleaseCeiling& c, double celsius, double shift) {
  const double felt = celsius - shift;
  const double cold = std::clamp((celsius - c.cold_none) / (c.cold_all - c.cold_none), 0.0, 1.0);
  const double first_half = 1.0 - 0.5 * std::clamp((felt - c.all) / (c.half - c.all), 0.0, 1.0);
  const double second_half = 0.5 * std::clamp((felt - c.half) / (c.none - c.half), 0.0, 1.0);
  return std::min(cold, first_half - second_half);
}

}  // namespace soilclock::emergence
