// SPDX-License-Identifier: MIT
// Expected control of any treatment on any days of a season, member by member, after what was already put
// down.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "advice/decision/decision.hpp"
#include "advice/ensemble/target_run.hpp"
#include "core/random.hpp"
#include "treatment/logged.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock::advice {

/// An application noted for the site, as it acts on one grass.
struct ActingApplication {
  Day day{};
  treatment::Kind kind = treatment::Kind::pre;
  treatment::TreatmentParts parts;
  double share_of_dose = 1.0;
  std::optional<int> activation_delay_days = 0;  ///< nothing: never watered in
};

/// Middle over the members.
struct ResidualLeft {
  double dose = 0.0;         ///< share of a full dose on the day asked about
  std::optional<Day> spent;  ///< first day at which it counts as spent; empty: not this season
};

/// Points (percent of the season's seedlings) by treated day, kind and member.
using MemberPoints = std::vector<std::array<std::vector<double>, treatment::kind_count>>;

/// The seasons of a target's members with the treatments already given taken off.
class SeasonControl {
 public:
  /// Run, runs, scenarios and catalogue must outlive this.
  SeasonControl(const TargetRun& run, const SeasonRuns& runs, const Scenarios& scenarios,
                const Catalogue& catalogue, std::span<const ActingApplication> acting, std::uint64_t seed);
  SeasonControl(const SeasonControl&) = delete;
  SeasonControl& operator=(const SeasonControl&) = delete;

  /// What a treatment of each kind would do from each of these days to the end of its week, its foliar part
  /// in the warmest spell of them. Costs a pass over the season for every member and day. The days rise.
  MemberPoints points(const treatment::TreatmentParts& parts, std::span<const Day> treated) const;
  /// The same for treatments with equal residual parts; what those stop is worked out once.
  std::vector<MemberPoints> points(std::span<const treatment::TreatmentParts> alike,
                                   std::span<const Day> treated) const;

  /// What the residuals noted still have to give; nothing when none was noted by the day. `since` is when the
  /// latest was put down: its end is looked for from there.
  std::optional<ResidualLeft> residual_left(Day on, Day since) const;

  /// Percent of the seedlings of a season's start to a day that the applications noted kill or keep from
  /// coming up; nothing where no member has any by then.
  std::optional<Band<double>> control_by(Day day) const;

  /// Share of a full dose that is left on each day of the season, middle over the members; empty before the
  /// first residual noted.
  std::vector<std::optional<double>> doses_left() const;

 private:
  struct Member {
    treatment::SeasonCohorts cohorts;    ///< as the season comes
    std::vector<double> emerging;        ///< by day
    std::vector<double> left;            ///< by day, after the applications noted; empty without any
    std::vector<double> reference_days;  ///< the soil's, as the member's residuals decay in it
    std::vector<treatment::LoggedApplication> logged;
    std::size_t trace = 0;         ///< its weather
    treatment::SeasonCohorts net;  ///< what the applications noted leave of the season
  };
  /// What any treatment of a member's net season is worked out from.
  struct NetSeason {
    treatment::StandingPlants standing;
    treatment::ComingSeedlings coming;
  };
  using Stands = std::vector<std::optional<treatment::StandOfDay>>;

  /// What a treatment of a week from a day on meets, by member; worked out once for all plans.
  const Stands& stands_on(Day day) const;

  treatment::TreatmentRules rules_;
  RandomField random_;
  std::vector<Member> members_;
  std::vector<NetSeason> net_;  ///< by member
  mutable std::map<Day, Stands> stands_;
};

/// The table of weeks from the points of some members (all, or those of one component model); nothing is
/// gated yet. `treated` are the days of the points, one a week.
std::vector<TreatmentWeek> weeks_of(const MemberPoints& points, std::span<const Day> treated,
                                    std::span<const std::size_t> members);

}  // namespace soilclock::advice
