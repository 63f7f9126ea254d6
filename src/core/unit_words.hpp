// SPDX-License-Identifier: MIT
// Measured values as a sentence shows them, in the reader's units.
#pragma once

#include <string>

#include "core/depth.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock {

/// "17.2 C" or "63.0 F".
std::string temperature_words(Temperature temperature, bool us_units);

/// The same in whole degrees: "17 C" or "63 F".
std::string whole_degree_words(Temperature temperature, bool us_units);

/// A difference without its sign: "1.5 C" or "2.7 F".
std::string difference_words(TemperatureDelta difference, bool us_units);

/// The same in whole degrees and without the scale: "20 degrees" or "36 degrees".
std::string degrees_apart_words(TemperatureDelta difference, bool us_units);

/// "9.1 mm" or "0.36 in".
std::string water_words(Rain water, bool us_units);

/// "5 cm" or "2 in", to the tenth.
std::string depth_words(Depth depth, bool us_units);

/// "0.1 square meters" or "1.1 square feet".
std::string area_words(double square_meters, bool us_units);

/// "3 m" or "10 ft", in whole units.
std::string length_words(double meters, bool us_units);

/// "3 m/s" or "7 mph", in whole units.
std::string wind_words(double meters_per_second, bool us_units);

}  // namespace soilclock
