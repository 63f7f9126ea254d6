// SPDX-License-Identifier: MIT
#include "advice/answer/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/brief.hpp"

namespace soilclock::advice {

namespace {

using treatment::Kind;

std::string capitalized(std::string text) {
  if (!text.empty()) text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}

/// A clause as a sentence with a blank after it; empty stays empty.
std::string sentence_of(const std::string& clause) {
  return clause.empty() ? "" : capitalized(clause) + ". ";
}

std::string kind_of(const TargetAnswer& answer) {
  return kind_words(answer.decision.kind.value_or(Kind::pre_post), answer.after.has_value());
}

/// After an application the figure is what a further one would add.
std::string expected(const TargetAnswer& answer) {
  if (!answer.decision.control) return "";
  return (answer.after ? "it would add " : "expected control ") + control_words(*answer.decision.control);
}

std::string treat_words(const TargetAnswer& answer) {
  return fmt::format("Treat this week with {}: {}.", kind_of(answer), expected(answer));
}

/// Good now: either this is one of the best weeks and there are more, or the best are still to come.
std::string any_week_words(const TargetAnswer& answer, const WordContext& context) {
  const Decision& decision = answer.decision;
  const MondaySpan& best = *decision.best_range;
  if (best.first > monday_of(context.on)) {
    return fmt::format("Good enough now with {}, best {}: {} this week.", kind_of(answer),
                       week_range(best.first, best.last), expected(answer));
  }
  return fmt::format("Any week through {} will do, with {}: {}.", short_date(best.last + Days{6}),
                     kind_of(answer), expected(answer));
}

/// The gate that stops the named kind this week, if that is what is waited for.
const treatment::Gate* stopping_gate(const TargetAnswer& answer) {
  if (answer.weeks.empty() || !answer.decision.kind) return nullptr;
  const WeekRow& now = answer.weeks.front();
  if (now.week.of(*answer.decision.kind).allowed) return nullptr;
  for (const treatment::Gate& gate : now.gates) {
    const bool concerns = (gate.residual && treatment::has_residual(*answer.decision.kind)) ||
                          (gate.foliar && treatment::has_foliar(*answer.decision.kind));
    if (gate.stops && concerns) return &gate;
  }
  return nullptr;
}

/// First week in which the named kind is allowed again.
std::optional<Day> gate_ends(const TargetAnswer& answer) {
  for (const WeekRow& row : answer.weeks) {
    if (row.week.of(*answer.decision.kind).allowed) return row.week.week_of;
  }
  return std::nullopt;
}

std::string wait_words(const TargetAnswer& answer, const WordContext& context) {
  const Decision& decision = answer.decision;
  const std::string best =
      fmt::format("{} from {}, {}", kind_of(answer),
                  week_range(decision.best_range->first, decision.best_range->last), expected(answer));
  const Days look_ahead{context.practice->thresholds.hold_look_ahead_days};
  const treatment::Gate* gate = stopping_gate(answer);
  const auto ends = gate != nullptr ? gate_ends(answer) : std::nullopt;
  // A gate that ends long before the best weeks is not what is waited for.
  if (gate != nullptr && (!ends || *ends + look_ahead >= decision.best_range->first)) {
    return fmt::format("Wait: {}{}. Best weeks: {}.", treatment::sentence(*gate, *context.gates),
                       ends ? fmt::format(", until about {}", short_date(*ends)) : "", best);
  }
  return fmt::format("Wait. Best weeks: {}.", best);
}

std::string hold_words(const TargetAnswer& answer) {
  const AfterApplication& after = *answer.after;
  return fmt::format("Hold after the post treatment of {}: look for survivors from {} to {}.",
                     short_date(*after.foliar_on), short_date(after.look->begin()),
                     short_date(after.look->end() - Days{1}));
}

std::string action_words(const TargetAnswer& answer, const WordContext& context) {
  switch (answer.decision.action) {
    case Action::treat:
      return treat_words(answer);
    case Action::any_week:
      return any_week_words(answer, context);
    case Action::wait:
      return wait_words(answer, context);
    case Action::hold_after_treatment:
      return hold_words(answer);
    case Action::nothing_left:
      return answer.next_look ? fmt::format("Nothing left to time this season; next look {}.",
                                            short_date(answer.next_look->date))
                              : "Nothing left to time this season.";
    case Action::no_single_week:
      return "No single week stands out here: scout every two weeks and treat by what you find.";
    case Action::scout:
      return fmt::format(
          "Scout before you treat: models would choose different treatments. On balance {}: {}.",
          kind_of(answer), expected(answer));
    case Action::no_answer:
      break;
  }
  return "No answer.";
}

}  // namespace

std::string emerged_words(const TargetAnswer& answer) {
  const Band<double>& up = answer.emerged_percent;
  if (!std::isfinite(up.middle)) return "";
  if (up.middle < 1.0) return "less than 1% of the season's seedlings are up";
  if (up.low > 99.0) return "all of the season's seedlings are up";
  return fmt::format(
      "about {:.0f}% of the season's seedlings are up ({:.0f} to {:.0f}%), {:.0f}% of those "
      "juvenile",
      up.middle, up.low, up.high, answer.juvenile_percent.middle);
}

std::string kind_words(Kind kind, bool second) {
  const char* words = kind == Kind::pre        ? "pre alone"
                      : kind == Kind::pre_post ? "pre and post together"
                                               : "post alone";
  return second ? fmt::format("a second treatment, {}", words) : words;
}

std::string control_words(const Band<double>& control) {
  return fmt::format("{:.0f}%, at least {:.0f}% in 9 of 10 cases", control.middle, control.low);
}

std::string week_range(Day first_monday, Day last_monday) {
  return fmt::format("{} to {}", short_date(first_monday), short_date(last_monday + Days{6}));
}

void word_decision(TargetAnswer& answer, const WordContext& context) {
  answer.headline = capitalized(action_words(answer, context));
  const bool open = answer.decision.kind && answer.decision.action != Action::nothing_left;
  if (answer.models_disagree && open)
    answer.headline += " " + capitalized(*answer.models_disagree) + "; scout first.";
  answer.lead =
      answer.decision.action == Action::nothing_left || answer.decision.action == Action::no_single_week
          ? ""
          : sentence_of(emerged_words(answer)) + sentence_of(waiting_words(answer));
  while (answer.lead.ends_with(' ')) answer.lead.pop_back();
  answer.brief = brief_lines(answer, context);
}

}  // namespace soilclock::advice
