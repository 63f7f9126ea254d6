// SPDX-License-Identifier: MIT
// Forecasting the day on which the 7-day mean of soil temperature passes a level.
#pragma once

#include "advice/data/catalogue.hpp"
#include "advice/hindcast/hindcast.hpp"
#include "advice/hindcast/hindcast_history.hpp"
#include "core/depth.hpp"
#include "thermal/crossing.hpp"

namespace soilclock::advice {

struct SoilCrossing {
  Temperature level;
  Depth depth;
  thermal::Side side = thermal::Side::at_or_below;
};

/// The event is the first day of the window (midsummer to midwinter for a fall, midwinter to
/// midsummer for a rise) whose trailing 7-day mean is on the rule's side after one that
/// was not. It is taken from readings at the depth where the site has any, else from
/// the estimate made of the whole season's air.
///
/// Members: each possible future of the air through the soil estimate, less a drawn error conditioned on the
/// readings, as in every answer. That the event has not come yet is known to all: members
/// past the level on the day before are left out, past dates before the issue date too, and an air mean
/// already past it says the issue date.
class CrossingSubject : public HindcastSubject {
 public:
  /// The references must outlive the subject.
  CrossingSubject(const SiteHistory& history, const Catalogue& catalogue, SoilCrossing crossing,
                  HindcastRun run);

  std::vector<Event> events() const override;
  SeasonKind kind() const override;
  int after_window() const override;
  std::vector<std::optional<Outcome>> outcome(const Season& season) const override;
  std::vector<IssuedForecast> issued(const Season& season, Day issue_date) const override;
  std::vector<Remark> remarks() const override;

 private:
  bool on_side(double celsius) const;
  /// Readings at the depth before a day; null where the site has none.
  const DailySeries<Temperature>* readings(const weather::DailyWeather& daily) const;

  const SiteHistory& history_;
  const Catalogue& catalogue_;
  SoilCrossing crossing_;
  HindcastRun run_;
};

}  // namespace soilclock::advice
