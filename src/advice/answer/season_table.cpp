// SPDX-License-Identifier: MIT
#include "advice/answer/season_table.hpp"

#include "advice/answer/day_view.hpp"
#include "advice/ensemble/middle_curve.hpp"
#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

/// Doses left by season day, in percent; none of them known where nothing was noted.
std::vector<std::optional<double>> residuals_left(const DecisionInputs& inputs) {
  const std::vector<ActingApplication> acting = acting_applications(inputs);
  const auto days = static_cast<std::size_t>(inputs.run->season.length());
  if (acting.empty()) return std::vector<std::optional<double>>(days);
  return SeasonControl{*inputs.run, *inputs.runs, *inputs.scenarios, *inputs.catalogue, acting, inputs.seed}
      .doses_left();
}

}  // namespace

std::vector<SeasonDay> season_table(const DecisionInputs& inputs) {
  const TargetRun& run = *inputs.run;
  const SiteWeather& site = *inputs.site;
  const DailySeries<Temperature> air = weather::air_mean(site.daily);
  const std::vector<std::optional<double>> doses = residuals_left(inputs);
  const MiddleCurve middle{run};
  const DayView members{run};
  std::vector<SeasonDay> table;
  for (int d = 0; d < run.season.length(); ++d) {
    const auto index = static_cast<std::size_t>(d);
    const Day day = run.season.first + Days{d};
    std::vector<double> soil;
    for (const std::vector<Temperature>& member : inputs.runs->soil) soil.push_back(member[index].celsius());
    const Band<double> soil_c = band_of(std::move(soil));
    const DayBands bands = members.bands(middle, d);
    SeasonDay row;
    row.day = day;
    row.soil_5cm = Temperature::from_celsius(soil_c.middle);
    row.soil_low = Temperature::from_celsius(soil_c.low);
    row.soil_high = Temperature::from_celsius(soil_c.high);
    if (day < site.outlook_start) row.rain = site.daily.rain.at(day);
    row.emerged_percent = bands.emerged;
    row.juvenile_percent = bands.juvenile.middle;
    row.young_percent = bands.young;
    row.older_percent = bands.older;
    if (doses[index]) row.residual_left_percent = 100.0 * *doses[index];
    row.origin = day >= site.outlook_start ? "outlook" : name(air.quality(day));
    table.push_back(row);
  }
  return table;
}

}  // namespace soilclock::advice
