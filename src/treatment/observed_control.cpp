// SPDX-License-Identifier: MIT
#include "treatment/observed_control.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/number_text.hpp"
#include "core/random.hpp"

namespace soilclock::treatment {

namespace {

Failure<Problem> refuse_check(std::string what, std::string expected, std::string remedy = {}) {
  return fail({Family::request, std::move(what), {}, {}, std::move(expected), std::move(remedy)});
}

Failure<Problem> nothing_untreated() {
  return refuse_check("nothing grew in the untreated strip, so nothing can be said of the treatment",
                      "plants in the untreated strip", "look again when some are up there");
}

Failure<Problem> nothing_before() {
  return refuse_check("nothing grew before the treatment on one of the two sides",
                      "plants before the treatment on both sides", "leave the counts before out");
}

/// One of the numbers a ratio is made of: its size as seen, and as the logarithm is taken of.
struct Seen {
  double amount = 0.0;
  double for_log = 0.0;
  double log_variance = 0.0;
};

/// `factors` multiply to what is left by the treatment: those of index 0 and 3 above the line, 1 and 2 below.
ObservedControl control_of(ControlFormula formula, const std::vector<Seen>& factors) {
  double left = 1.0;
  double log_left = 0.0;
  double variance = 0.0;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    const bool above = i == 0 || i == 3;
    left *= above ? factors[i].amount : 1.0 / factors[i].amount;
    log_left += (above ? 1.0 : -1.0) * std::log(factors[i].for_log);
    variance += factors[i].log_variance;
  }
  const double reach = normal_quantile(0.5 + 0.5 * band_level) * std::sqrt(variance);
  const double middle = 100.0 * (1.0 - left);
  return {formula,
          {std::min(middle, 100.0 * (1.0 - std::exp(log_left + reach))), middle,
           std::max(middle, 100.0 * (1.0 - std::exp(log_left - reach)))}};
}

Seen seen_plants(const std::vector<int>& counts, double patch_variance) {
  constexpr double half_a_plant = 0.5;
  const auto plots = static_cast<double>(counts.size());
  const double total = std::accumulate(counts.begin(), counts.end(), 0.0);
  return {total / plots, (total + half_a_plant) / plots,
          1.0 / (total + half_a_plant) + patch_variance / plots};
}

Seen seen_cover(Fraction cover, const CountDoubt& doubt) {
  return {cover.value(), std::max(cover, doubt.least_seen).value(), doubt.look_log_sd * doubt.look_log_sd};
}

}  // namespace

std::string control_words(const ObservedControl& control) {
  return fmt::format("control {}% ({} to {}%) by {} formula", number_text(control.percent.middle, 0),
                     number_text(control.percent.low, 0), number_text(control.percent.high, 0),
                     control.formula == ControlFormula::abbott ? "Abbott's" : "Henderson and Tilton's");
}

Result<ObservedControl> observed_control(const PlotsCompared& plots, const CountDoubt& doubt) {
  if (plots.treated.empty() || plots.untreated.empty())
    return refuse_check("counts of one side are missing", "counts in treated and in untreated turf");
  const bool before = !plots.treated_before.empty() || !plots.untreated_before.empty();
  if (before && (plots.treated_before.size() != plots.treated.size() ||
                 plots.untreated_before.size() != plots.untreated.size())) {
    return refuse_check("the plots counted before the treatment are not those counted after it",
                        "before as many counts as after, on both sides");
  }
  const double patch_variance = before ? 0.0 : 1.0 / doubt.patchiness;
  std::vector<Seen> factors{seen_plants(plots.treated, patch_variance),
                            seen_plants(plots.untreated, patch_variance)};
  if (factors[1].amount <= 0.0) return nothing_untreated();
  if (!before) return control_of(ControlFormula::abbott, factors);
  factors.push_back(seen_plants(plots.treated_before, patch_variance));
  factors.push_back(seen_plants(plots.untreated_before, patch_variance));
  if (factors[2].amount <= 0.0 || factors[3].amount <= 0.0) return nothing_before();
  return control_of(ControlFormula::henderson_tilton, factors);
}

Result<ObservedControl> observed_control(const CoverCompared& cover, const CountDoubt& doubt) {
  if (cover.untreated < doubt.least_seen) return nothing_untreated();
  std::vector<Seen> factors{seen_cover(cover.treated, doubt), seen_cover(cover.untreated, doubt)};
  if (cover.treated_before.has_value() != cover.untreated_before.has_value())
    return refuse_check("cover before the treatment is noted of one side only", "both sides or neither");
  if (!cover.treated_before) return control_of(ControlFormula::abbott, factors);
  if (std::min(*cover.treated_before, *cover.untreated_before) < doubt.least_seen) return nothing_before();
  factors.push_back(seen_cover(*cover.treated_before, doubt));
  factors.push_back(seen_cover(*cover.untreated_before, doubt));
  return control_of(ControlFormula::henderson_tilton, factors);
}

}  // namespace soilclock::treatment
