// SPDX-License-Identifier: MIT
// Water where seed lies, a thin layer at the surface: rain fills it, the air dries it, and its texture says
// how hard it holds what is left.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/depth.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "core/water_potential.hpp"

namespace soilclock::soil {

/// Classes of soil texture.
enum class Texture {
  sand,
  loamy_sand,
  sandy_loam,
  silt_loam,
  loam,
  sandy_clay_loam,
  silty_clay_loam,
  clay_loam,
  sandy_clay,
  silty_clay,
  clay
};
inline constexpr std::size_t texture_count = 11;

/// The words of site files, in the order of Texture: "sand", "loamy sand", ... "clay".
const std::vector<std::string>& texture_words();
/// The class of one of these words; nothing for another.
std::optional<Texture> texture_of(std::string_view word);

/// Potential and water content of one texture: potential = air entry (water / saturation)^-exponent.
/// Source: campbell-1974, Soil Science 117:311-314.
struct RetentionCurve {
  double saturation = 0.0;   ///< water of saturated soil, volume by volume, 0..1
  WaterPotential air_entry;  ///< below 0; wetter soil is saturated
  double exponent = 0.0;     ///< above 0

  /// Of a water content in (0, saturation].
  WaterPotential potential_at(double water) const;
  /// Volume by volume; saturation at and above the air entry.
  double water_at(WaterPotential potential) const;
};

/// The numbers of models/soil/surface_water.json.
struct SurfaceWaterRules {
  std::array<RetentionCurve, texture_count> textures;
  Depth layer = Depth::from_cm(1.0);  ///< thickness
  WaterPotential field_capacity;      ///< what the layer holds against gravity
  WaterPotential wilting;
  double driest_share = 0.0;  ///< of the water at wilting: what the air leaves
  double demand_share = 0.0;  ///< of reference evapotranspiration that a full layer gives
  double agreement = 0.0;  ///< share of the layer's water within which wettest and driest course count as one

  const RetentionCurve& curve(Texture texture) const {
    return textures.at(static_cast<std::size_t>(texture));
  }
};

/// Weather over a run of days; the values belong to the caller. Temperatures are complete, rain may be
/// unknown.
struct SurfaceWeather {
  Day first;
  double latitude_deg = 0.0;
  std::span<const Temperature> air_mean;  ///< (maximum + minimum) / 2
  std::span<const Temperature> air_max;
  std::span<const Rain> rain;
};

/// The potential in the evening of each day. Each day rain and `watering` come first and what exceeds field
/// capacity is lost; then the layer gives a share of reference evapotranspiration that falls evenly with the
/// water left (the form of equation 73 of fao56 for drying topsoil, without its first stage). Unknown while
/// the course depends on what is not known: the water of the first day, or unknown rain.
std::vector<WaterPotential> surface_water(const SurfaceWaterRules& rules, Texture texture,
                                          const SurfaceWeather& weather, Rain watering);

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds, limits in the wrong order.
Result<SurfaceWaterRules> read_surface_water_rules(std::string_view text, const std::string& file);

}  // namespace soilclock::soil
