// SPDX-License-Identifier: MIT
#include "treatment/green_up.hpp"

namespace soilclock::treatment {

namespace {

/// Takes in one morning after the other, with the soil of the day before it.
class Mornings {
 public:
  explicit Mornings(const TurfRules& rules) : rules_{rules} {}

  /// `week` is unknown until seven days are known; unknown values begin and end nothing.
  void take_soil(Temperature yesterday, Temperature week) {
    warm_days_ = yesterday >= rules_.breaking_soil ? warm_days_ + 1 : 0;
    week_ = week;
    slept_ = slept_ || week < rules_.slowing_soil;
  }

  void take_known(TurfState state, Day morning, bool spring) {
    warm_days_ = 0;
    from_.reset();
    awake_ = state == TurfState::green || state == TurfState::slowing;
    if (spring && (state == TurfState::breaking || state == TurfState::greening)) from_ = morning;
    slept_ = slept_ || !awake_;
  }

  void take_spring(Day morning) {
    if (!from_ && slept_ && !awake_ && warm_days_ >= rules_.run_days) from_ = morning;
  }

  void leave_spring() { awake_ = false; }

  std::optional<Day> from() const { return from_; }
  bool green() const { return week_ >= rules_.green_soil; }

 private:
  const TurfRules& rules_;
  int warm_days_ = 0;
  Temperature week_;
  bool slept_ = false;
  bool awake_ = false;  ///< known to be in growth this spring
  std::optional<Day> from_;
};

Temperature week_before(std::span<const Temperature> soil, std::size_t day) {
  if (day < week_days) return Temperature::unknown();
  double sum = 0.0;
  for (const Temperature value : soil.subspan(day - week_days, week_days)) sum += value.celsius();
  return Temperature::from_celsius(sum / static_cast<double>(week_days));
}

}  // namespace

GreenUp::GreenUp(DayRange days, Hemisphere hemisphere, const TurfRules& rules) : days_{days}, rules_{rules} {
  for (Day morning = days.begin(); morning < days.end(); morning += Days{1})
    spring_.push_back(in_turf_spring(morning, hemisphere, rules.spring) ? 1 : 0);
}

DayRange GreenUp::in(std::span<const Temperature> soil, const std::optional<KnownTurf>& known) const {
  const bool use_known = known && known->state != TurfState::unknown && days_.contains(known->on);
  Mornings walk{rules_};
  for (std::size_t i = 0; i < soil.size(); ++i) {
    const Day morning = days_.begin() + Days{static_cast<int>(i)};
    const bool spring = spring_[i] != 0;
    if (!spring && walk.from()) return {*walk.from(), morning};
    if (!spring) walk.leave_spring();
    if (i > 0) walk.take_soil(soil[i - 1], week_before(soil, i));
    if (use_known && morning < known->on) continue;
    if (use_known && morning == known->on) walk.take_known(known->state, morning, spring);
    if (spring) walk.take_spring(morning);
    // What is known of a morning outweighs the soil of the days before it.
    const bool just_known = use_known && morning - known->on < one_week;
    if (walk.from() && walk.green() && !just_known) return {*walk.from(), morning};
  }
  return walk.from() ? DayRange{*walk.from(), days_.end()} : DayRange{};
}

}  // namespace soilclock::treatment
