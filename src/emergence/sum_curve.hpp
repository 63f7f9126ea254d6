// SPDX-License-Identifier: MIT
// Members whose emergence is a curve over a running sum of warmth or of coolness, and rules hung onto them.
#pragma once

#include "core/degree_days.hpp"
#include "emergence/curves.hpp"
#include "emergence/emergence_curve.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

/// Running sum of max(0, daily mean - base) over season days from `from_day` on; 0 before.
std::vector<DegreeDays> warmth_sum(std::span<const Temperature> daily_with_lead_in, Temperature base,
                                   int from_day);

/// Running sum of max(0, ceiling - daily mean): cooling degree-days.
std::vector<DegreeDays> cooling_sum(std::span<const Temperature> daily_with_lead_in, Temperature ceiling,
                                    int from_day);

/// The curve over a sum, closed at the season's own total (a cool summer may not run the curve to its end).
EmergenceCurve run_curve(const std::vector<DegreeDays>& sum, const Curve& curve);

/// First season day on which a sum has reached a value.
std::optional<int> day_reaching(const std::vector<DegreeDays>& sum, DegreeDays value);

/// Running sum of max(0, daily mean - base) counted only on days whose mean is at or above the gate.
std::vector<DegreeDays> gated_warmth_sum(std::span<const Temperature> daily_with_lead_in, Temperature base,
                                         Temperature gate, int from_day);

/// A curve hung onto an onset: the curve's sum runs from `at_onset` on the onset day with the warmth that
/// follows. Nothing emerges before the onset; without one the curve stays at 0.
EmergenceCurve run_curve_from_onset(const std::vector<DegreeDays>& sum, const Curve& curve,
                                    std::optional<int> onset_day, DegreeDays at_onset);

/// A curve that follows another one some days later and not before the seven-day soil mean has reached a
/// gate.
EmergenceCurve run_offset_rule(const EmergenceCurve& leader, int offset_days,
                               std::span<const Temperature> soil_with_lead_in, Temperature gate,
                               int from_day);

/// A curve of the calendar alone: the curve is written over the northern day of the year (counted on past
/// 365) and shifted by whole and part days.
EmergenceCurve run_calendar(const Season& season, int season_days, const Curve& curve, double shift_days);

}  // namespace soilclock::emergence
