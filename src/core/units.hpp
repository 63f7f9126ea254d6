// SPDX-License-Identifier: MIT
// Sizes of units, exact by definition. Whatever converts a unit takes its size from here.
#pragma once

namespace soilclock::units {

inline constexpr double fahrenheit_degrees_in_kelvin = 1.8;
inline constexpr double freezing_fahrenheit = 32.0;
inline constexpr double freezing_kelvin = 273.15;

inline constexpr double mm_in_inch = 25.4;
inline constexpr double cm_in_inch = mm_in_inch / 10.0;
inline constexpr double m_in_inch = mm_in_inch / 1000.0;
inline constexpr double m_in_foot = 0.3048;
inline constexpr double m2_in_square_foot = m_in_foot * m_in_foot;

inline constexpr double mpa_in_cm_water = 9.80665e-5;  // water of 1 kg per liter under standard gravity

inline constexpr double km_per_h_in_m_per_s = 3.6;
inline constexpr double m_per_s_in_mph = 0.44704;           // the international mile
inline constexpr double m_per_s_in_knot = 1852.0 / 3600.0;  // the international nautical mile

}  // namespace soilclock::units
