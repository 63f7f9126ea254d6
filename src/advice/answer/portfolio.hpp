// SPDX-License-Identifier: MIT
// Many courses at a glance.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// Courses counted once each, by the most pressing of their grasses and areas.
struct Portfolio {
  int courses = 0;
  int treat = 0;     ///< call for treatment this week
  int good_now = 0;  ///< any week will do, or this one is good enough
  int wait = 0;      ///< wait, hold, scout, or no single week
  int finished = 0;  ///< nothing left to time this season
  int unanswered = 0;
  std::string headline;  ///< one sentence
};

Portfolio portfolio_of(std::span<const SiteAnswer> sites);

/// The course an answer is for, by id: its own, or that of its area.
const std::string& course_of(const SiteAnswer& site);

/// An action in two or three words.
std::string_view in_short(Action action);

/// The action of an open target in two or three words: "treat this week", "good enough now", "wait".
std::string action_in_short(const TargetAnswer& target, Day on);

/// Points lost by waiting, in whole points: "0", "<1" for what rounds up to one without being it, "3".
std::string points_lost(double points);

}  // namespace soilclock::advice
