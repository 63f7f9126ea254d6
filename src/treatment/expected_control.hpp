// SPDX-License-Identifier: MIT
// Expected control: the share of the season's own seedlings that a treatment on a given day kills, those up
// by its foliar part, or keeps from coming up by its residual part.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/temperature.hpp"
#include "emergence/stage_class.hpp"
#include "treatment/treatment_draw.hpp"

namespace soilclock::treatment {

enum class Kind : std::size_t { pre, pre_post, post };
inline constexpr std::size_t kind_count = 3;
inline constexpr std::array<Kind, kind_count> all_kinds{Kind::pre, Kind::pre_post, Kind::post};

/// "pre", "pre+post", "post".
std::string_view name(Kind kind);
constexpr std::size_t index_of(Kind kind) { return static_cast<std::size_t>(kind); }
constexpr bool has_residual(Kind kind) { return kind != Kind::post; }
constexpr bool has_foliar(Kind kind) { return kind != Kind::pre; }

/// One possible season, day by day: all spans have one value a day from `first` and the same length. The
/// values stay with the caller, who keeps them alive. Temperatures must be complete; an unknown one makes the
/// result not-a-number.
struct SeasonCohorts {
  Day first{};
  std::span<const double>
      emerging_share;  ///< share of the season's total coming up on the day; sums to 1 at most
  std::span<const double> thermal_age;  ///< degree-days (or days) summed to the day; never falling
  std::span<const Temperature> soil;    ///< daily mean
  std::span<const Temperature> air_max;
  double age_unit = 1.0;            ///< one phyllochron in degree-days, or the drawn length of a day
  emergence::StageLimits limits{};  ///< of the growth model the ages are of

  DayRange days() const { return {first, first + Days{static_cast<int>(emerging_share.size())}}; }
};

/// The seedlings that come up after any day of one possible season.
class ComingSeedlings {
 public:
  /// Nothing is kept of the argument.
  explicit ComingSeedlings(const SeasonCohorts& cohorts);

 private:
  friend class StoppedByResidual;
  DayRange days_;
  std::vector<double> shares_;   ///< coming up, by day, to the last that brings any
  std::vector<double> to_come_;  ///< [i]: share coming up from day i on; one more than there are shares
  std::size_t first_ = 0;        ///< the first day that brings any
};

/// What the residuals of a treatment stop in one possible season, when put down and watered in on any day.
class StoppedByResidual {
 public:
  /// `coming` must outlive this.
  StoppedByResidual(const ComingSeedlings& coming, std::span<const Temperature> soil,
                    std::span<const ResidualDraw> residuals, const ResidualRule& rule);
  /// For residuals drawn with one activation energy, from reference_days() of the soil with it. Only days
  /// from `from` on may be asked for.
  StoppedByResidual(const ComingSeedlings& coming, std::span<const ResidualDraw> residuals,
                    const ResidualRule& rule, std::span<const double> reference_days, Day from);

  /// Share of the season's seedlings, 0..1; zero outside the season. Cost: one pass over the days to come for
  /// every residual.
  double on(Day day) const;

 private:
  void add(double works, const ResidualClock& clock);

  struct Part {
    double works;
    std::vector<double> cubes;  ///< of the dose left, by day from `from_` on
  };
  const ComingSeedlings& coming_;
  std::size_t from_ = 0;
  double cube_of_half_ = 0.0;  ///< of the dose of half efficacy
  std::vector<Part> parts_;
};

/// What a treatment meets on a day of one possible season, whatever it is made of.
struct StandOfDay {
  std::array<double, emergence::stage_count> up{};  ///< share of the season's seedlings, by stage
  double just_up = 0.0;                             ///< of these, those that a residual still reaches
  double warmth = 1.0;                              ///< factor on what a foliar part kills, 0..1
};

/// Factor on what a foliar part kills on a day of the season, 0..1. Where there are more days to choose from,
/// it goes out in the warmest spell that begins on one of them: nobody picks the cold day of a week. 1
/// outside the season.
double warmth_of_foliar(const SeasonCohorts& cohorts, const GrassControl& grass, Day day,
                        int days_to_choose_from);

/// The plants that stand on any day of one possible season.
class StandingPlants {
 public:
  /// Both arguments must outlive this.
  StandingPlants(const SeasonCohorts& cohorts, const GrassControl& grass);

  /// Nothing outside the season; `warmth` as warmth_of_foliar() has it.
  std::optional<StandOfDay> on(Day day, double warmth) const;

 private:
  const SeasonCohorts& cohorts_;
  const GrassControl& grass_;
  std::vector<double> emerged_before_;  ///< [i]: share up before day i; one more than there are days
};

/// Shares of the season's seedlings, 0..cap, by kind, that a treatment controls: of those that stand on its
/// day, and `stopped` of those to come, as StoppedByResidual has it.
std::array<double, kind_count> control_of(const StandOfDay& stand, double stopped,
                                          const DrawnTreatment& treatment, const GrassControl& grass);

/// Control of one treatment in one possible season, for any day and all three kinds. A new residual is taken
/// to be watered in on the day.
class ExpectedControl {
 public:
  /// `cohorts`, `treatment` and `grass` must outlive this.
  ExpectedControl(const SeasonCohorts& cohorts, const DrawnTreatment& treatment, const GrassControl& grass,
                  const ResidualRule& residual);
  ExpectedControl(const ExpectedControl&) = delete;
  ExpectedControl& operator=(const ExpectedControl&) = delete;

  /// Shares of the season's seedlings, 0..cap, by kind; zero outside the season. For the days to choose from
  /// see warmth_of_foliar().
  std::array<double, kind_count> on(Day day, int days_to_choose_from = 1) const;

 private:
  const SeasonCohorts& cohorts_;
  StandingPlants plants_;
  ComingSeedlings coming_;
  StoppedByResidual stopped_;
  const DrawnTreatment& treatment_;
  const GrassControl& grass_;
};

/// Share of each day's seedlings, by day index, that a treatment of a kind kills of those up on its day: by
/// the foliar part, or without one the few just up by the residual. Not capped; none outside the season.
std::vector<double> killed_of_those_up(const SeasonCohorts& cohorts, const DrawnTreatment& treatment,
                                       const GrassControl& grass, Kind kind, Day day);

}  // namespace soilclock::treatment
