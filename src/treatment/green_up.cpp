// SPDX-License-Identifier: MIT
#include "treatment/green_up.hpp"

#include <algorithm>
#include <limits>

namespace soilclock::treatment {

namespace {

constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

/// Takes in one morning after the other, each by its place among the days, with the soil of the day before
/// it. Asked for every member, so in plain numbers: compilers make little of comparisons of the types.
class Mornings {
 public:
  explicit Mornings(const TurfRules& rules) : rules_{rules} {}

  void take_soil(Temperature yesterday) {
    warm_days_ = yesterday.celsius() >= rules_.breaking_soil.celsius() ? warm_days_ + 1 : 0;
  }

  /// The mean of the week before; unknown ones begin and end nothing.
  void take_week(Temperature week) { slept_ = slept_ || week.celsius() < rules_.slowing_soil.celsius(); }
  bool slept() const { return slept_; }

  void take_known(TurfState state, std::size_t morning, bool spring) {
    warm_days_ = 0;
    from_ = none;
    awake_ = state == TurfState::green || state == TurfState::slowing;
    if (spring && (state == TurfState::breaking || state == TurfState::greening)) from_ = morning;
    slept_ = slept_ || !awake_;
  }

  void take_spring(std::size_t morning) {
    if (!woken() && slept_ && !awake_ && warm_days_ >= rules_.run_days) from_ = morning;
  }

  void leave_spring() { awake_ = false; }
  void forget_warmth() { warm_days_ = 0; }

  bool woken() const { return from_ != none; }
  std::size_t from() const { return from_; }
  bool green(Temperature week) const { return week.celsius() >= rules_.green_soil.celsius(); }

 private:
  const TurfRules& rules_;
  int warm_days_ = 0;
  bool slept_ = false;
  bool awake_ = false;  ///< known to be in growth this spring
  std::size_t from_ = none;
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
  next_.resize(spring_.size());
  std::size_t spring = spring_.size();
  for (std::size_t i = spring_.size(); i-- > 0;) {
    if (spring_[i] != 0) spring = i;
    const auto run = static_cast<std::size_t>(rules.run_days);
    next_[i] = std::max(i, spring - std::min(spring, run));
  }
}

DayRange GreenUp::in(std::span<const Temperature> soil, const std::optional<KnownTurf>& known) const {
  const bool use_known = known && known->state != TurfState::unknown && days_.contains(known->on);
  const std::size_t known_at =
      use_known ? static_cast<std::size_t>((known->on - days_.begin()).count()) : none;
  const auto day = [&](std::size_t i) { return days_.begin() + Days{static_cast<int>(i)}; };
  Mornings walk{rules_};
  for (std::size_t i = 0; i < soil.size(); ++i) {
    const bool spring = spring_[i] != 0;
    if (!spring) {
      if (walk.woken()) return {day(walk.from()), day(i)};
      walk.leave_spring();
      const bool settled = walk.slept() && (!use_known || i > known_at);
      if (settled && next_[i] > i) {
        walk.forget_warmth();
        i = next_[i] - 1;
        continue;
      }
    }
    if (i > 0) walk.take_soil(soil[i - 1]);
    if (!walk.slept()) walk.take_week(week_before(soil, i));
    if (use_known && i < known_at) continue;
    if (use_known && i == known_at) walk.take_known(known->state, i, spring);
    if (spring) walk.take_spring(i);
    // What is known of a morning outweighs the soil of the days before it.
    const bool just_known = use_known && i - known_at < week_days;
    if (walk.woken() && !just_known && walk.green(week_before(soil, i))) return {day(walk.from()), day(i)};
  }
  return walk.woken() ? DayRange{day(walk.from()), days_.end()} : DayRange{};
}

}  // namespace soilclock::treatment
