// SPDX-License-Identifier: MIT
// Forecasting the days by which 5, 25, 50 and 80 percent of a season's seedlings are up.
#pragma once

#include "advice/data/catalogue.hpp"
#include "advice/hindcast/hindcast.hpp"
#include "advice/hindcast/hindcast_history.hpp"
#include "advice/hindcast/season_in_hindsight.hpp"

namespace soilclock::advice {

/// What is forecast is the date with its band as an answer gives it; what happened is the middle date an
/// answer gives once the whole season's weather and soil readings are known, since no count of seedlings is
/// at hand. So this tests what is forecast about weather to come, not the models of emergence. Seasons in
/// which no single wave can be named, and those the record does not reach through, are not judged. The
/// air-as-soil rival is not run.
class MilestoneSubject : public HindcastSubject {
 public:
  /// The references must outlive the subject; the target must have members.
  MilestoneSubject(const SiteHistory& history, const Catalogue& catalogue, const emergence::Target& target,
                   HindcastRun run);

  std::vector<Event> events() const override;
  SeasonKind kind() const override { return target_.season; }
  int after_window() const override { return 365; }
  std::vector<std::optional<Outcome>> outcome(const Season& season) const override;
  std::vector<IssuedForecast> issued(const Season& season, Day issue_date) const override;
  std::vector<Remark> remarks() const override;

 private:
  /// The dates an answer would give, by milestone; empty ones when the models do not apply or weather is
  /// lacking.
  std::vector<IssuedForecast> forecasts(const std::optional<SeenSeason>& seen) const;

  const SiteHistory& history_;
  const Catalogue& catalogue_;
  const emergence::Target& target_;
  HindcastRun run_;
};

}  // namespace soilclock::advice
