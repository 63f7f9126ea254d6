// SPDX-License-Identifier: MIT
#include "soil/surface_water.hpp"

#include <algorithm>
#include <cmath>

#include "soil/evapotranspiration.hpp"

namespace soilclock::soil {

namespace {

/// Water above the driest state, mm: the layer between nothing and all it can hold.
struct Layer {
  double driest_mm = 0.0;    ///< what is left when the air takes no more
  double capacity_mm = 0.0;  ///< above that
  double thickness_mm = 0.0;

  Layer(const SurfaceWaterRules& rules, const RetentionCurve& curve) : thickness_mm{rules.layer.cm() * 10.0} {
    driest_mm = thickness_mm * rules.driest_share * curve.water_at(rules.wilting);
    capacity_mm = thickness_mm * curve.water_at(rules.field_capacity) - driest_mm;
  }

  double after_day(double held_mm, double rain_mm, double demand_mm) const {
    return std::min(capacity_mm, held_mm + rain_mm) * std::exp(-demand_mm / capacity_mm);
  }
  double water(double held_mm) const { return (driest_mm + held_mm) / thickness_mm; }
};

}  // namespace

const std::vector<std::string>& texture_words() {
  static const std::vector<std::string> words{
      "sand",      "loamy sand", "sandy loam", "silt loam", "loam", "sandy clay loam", "silty clay loam",
      "clay loam", "sandy clay", "silty clay", "clay"};
  return words;
}

std::optional<Texture> texture_of(std::string_view word) {
  const std::vector<std::string>& words = texture_words();
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<Texture>(found - words.begin());
}

WaterPotential RetentionCurve::potential_at(double water) const {
  return WaterPotential::from_mpa(air_entry.mpa() * std::pow(water / saturation, -exponent));
}

double RetentionCurve::water_at(WaterPotential potential) const {
  if (potential >= air_entry) return saturation;
  return saturation * std::pow(potential.mpa() / air_entry.mpa(), -1.0 / exponent);
}

std::vector<WaterPotential> surface_water(const SurfaceWaterRules& rules, Texture texture,
                                          const SurfaceWeather& weather, Rain watering) {
  const RetentionCurve& curve = rules.curve(texture);
  const Layer layer{rules, curve};
  // What cannot be known runs as its two extremes; once they have met, the course is known.
  double driest = 0.0;
  double wettest = layer.capacity_mm;
  std::vector<WaterPotential> course;
  course.reserve(weather.rain.size());
  for (std::size_t i = 0; i < weather.rain.size(); ++i) {
    const TemperatureDelta range = (weather.air_max[i] - weather.air_mean[i]) * 2.0;
    const Rain demand = reference_evapotranspiration(weather.air_mean[i], range, weather.latitude_deg,
                                                     day_of_year(weather.first + Days{static_cast<int>(i)}));
    const double demand_mm = rules.demand_share * demand.mm();
    const bool known = weather.rain[i].known();
    const double least_mm = watering.mm() + (known ? weather.rain[i].mm() : 0.0);
    driest = layer.after_day(driest, least_mm, demand_mm);
    wettest = layer.after_day(wettest, known ? least_mm : layer.capacity_mm, demand_mm);
    const bool agreed = wettest - driest <= rules.agreement * layer.capacity_mm;
    course.push_back(agreed ? curve.potential_at(layer.water(0.5 * (driest + wettest)))
                            : WaterPotential::unknown());
  }
  return course;
}

}  // namespace soilclock::soil
