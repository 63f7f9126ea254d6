// SPDX-License-Identifier: MIT
// Turns the ensemble of a target into the answer people read.
#pragma once

#include "advice/answer/answer.hpp"
#include "advice/data/practice.hpp"
#include "advice/ensemble/site_climate.hpp"
#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// What the words of an answer draw on beside the ensemble.
struct AnswerContext {
  const SiteWeather* site = nullptr;
  const SiteSoil* soil = nullptr;
  const Practice* practice = nullptr;
  const SiteClimate* climate = nullptr;  ///< targets with a single-window rule
  bool us_units = false;                 ///< Fahrenheit and inches in sentences
};

/// The answer for a day: what is up at the end of the day before (the answer is given in the morning).
TargetAnswer answer_target(const TargetRun& run, const AnswerContext& context);

}  // namespace soilclock::advice
