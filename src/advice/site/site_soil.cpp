// SPDX-License-Identifier: MIT
#include "advice/site/site_soil.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

/// More than any season looks back.
constexpr Days corrected_days{400};

/// The soil's best daily values, the last days moved by readings.
DailySeries<Temperature> moved_lately(const soil::SoilTemperature& soil, const SiteWeather& site,
                                      soil::MovedBy moved_by) {
  DailySeries<Temperature> best = soil.daily;
  if (best.empty()) return best;
  const DayRange lately{std::max(best.first(), site.outlook_start - corrected_days), best.days().end()};
  const DailySeries<Temperature> moved = soil::corrected(soil, site.place.hemisphere(), lately, moved_by);
  for (Day day = lately.begin(); day < lately.end(); day += Days{1}) {
    if (const auto value = moved.at(day)) best.set(day, *value, moved.quality(day));
  }
  return best;
}

}  // namespace

SiteSoil site_soil(const SiteWeather& site, const soil::SoilModels& models) {
  DailySeries<Temperature> air = weather::air_mean(site.daily);
  if (!air.empty()) air = air.slice({air.first(), std::min(site.outlook_start, air.days().end())});
  const soil::SoilSite soil_site{site.place,      Depth::from_cm(5.0), site.soil_offset,
                                 site.daily.soil, site.spots,          site.us_units};
  SiteSoil soil{soil::soil_temperature(models, soil_site, air), {}, {}, {}};
  soil.best_5cm = moved_lately(soil.at_5cm, site, soil::MovedBy::all_readings);
  soil.known_then_5cm = moved_lately(soil.at_5cm, site, soil::MovedBy::readings_so_far);
  const soil::SoilEstimator shallow{models.choose(site.place).pair, soil::shallowest,
                                    site.place.latitude_deg};
  std::optional<soil::SoilState> state;
  soil.shallow = shallow.run(air, state);
  for (Day day = soil.shallow.days().begin(); day < soil.shallow.days().end(); day += Days{1}) {
    if (const auto value = soil.shallow.at(day))
      soil.shallow.set(day, *value + site.soil_offset, Quality::modelled);
  }
  return soil;
}

}  // namespace soilclock::advice
