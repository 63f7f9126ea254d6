// SPDX-License-Identifier: MIT
// The sentences of a decision. They add nothing to its numbers: text, page and table print them as they are.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// What the sentences draw on beside the answer.
struct WordContext {
  Day on{};
  const Practice* practice = nullptr;
  const treatment::GateRules* gates = nullptr;
  const treatment::GrassControl* grass = nullptr;
};

/// Puts headline (whole and in short), lead and the brief lines into an answer whose decision and remarks are
/// complete.
void word_decision(TargetAnswer& answer, const WordContext& context);

/// "about 40% of the season's seedlings are up (20 to 60%), 50% of those juvenile"; empty where not known.
std::string emerged_words(const TargetAnswer& answer);

/// "pre alone", "pre and post together", "post alone"; with "second" before it after an earlier application.
std::string kind_words(treatment::Kind kind, bool second);

/// "74%, at least 62% in 9 of 10 cases".
std::string control_words(const Band<double>& control);

/// "Oct 9", or "Sep 18 or Oct 9" where the component models stand far apart; empty where it never comes.
std::string day_words(const DateBand& date, std::span<const ModelsDate> either);
/// The same days.
std::vector<Day> named_days(const DateBand& date, std::span<const ModelsDate> either);

/// "Oct 5 to Nov 1": from the Monday of the first week to the Sunday of the last.
std::string week_range(Day first_monday, Day last_monday);

}  // namespace soilclock::advice
