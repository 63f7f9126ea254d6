// SPDX-License-Identifier: MIT
#include "advice/answer/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/brief.hpp"
#include "core/number_text.hpp"

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

/// A headline, or the same for one line of a message.
enum class Length { whole, in_short };

std::string kind_of(const TargetAnswer& answer, Length length) {
  const Kind kind = answer.decision.kind.value_or(Kind::pre_post);
  if (length == Length::whole) return kind_words(kind, answer.after.has_value());
  return fmt::format("{}{}", answer.after ? "a second " : "", treatment::name(kind));
}

/// After an application the figure is what a further one would add.
std::string expected(const TargetAnswer& answer, Length length) {
  if (!answer.decision.control) return "";
  const Band<double>& control = *answer.decision.control;
  if (length == Length::whole)
    return (answer.after ? "it would add " : "expected control ") + control_words(control);
  return fmt::format("{} {}% (at least {}%)", answer.after ? "adds" : "control",
                     number_text(control.middle, 0), number_text(control.low, 0));
}

/// A headline in two: what to do, and its figures. Both are clauses without full stop; together they are one
/// sentence.
struct Call {
  std::string words;
  std::string figures;       // may be empty
  const char* joint = ": ";  // between the two where they are one sentence
};

std::string joined(const Call& call) {
  return call.words + (call.figures.empty() ? "" : call.joint + call.figures) + ".";
}

Call treat_words(const TargetAnswer& answer, Length length) {
  return {fmt::format("Treat this week with {}", kind_of(answer, length)), expected(answer, length)};
}

/// Good now: either this is one of the best weeks and there are more, or the best are still to come.
Call any_week_words(const TargetAnswer& answer, const WordContext& context, Length length) {
  const Decision& decision = answer.decision;
  const MondaySpan& best = *decision.best_range;
  if (best.first > monday_of(context.on)) {
    return {fmt::format("Good enough now with {}, best {}", kind_of(answer, length),
                        week_range(best.first, best.last)),
            expected(answer, length) + " this week"};
  }
  return {fmt::format("Any week through {} will do, with {}", short_date(best.last + Days{6}),
                      kind_of(answer, length)),
          expected(answer, length)};
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

/// In short the best weeks are left to the line below.
Call wait_words(const TargetAnswer& answer, const WordContext& context, Length length) {
  const Decision& decision = answer.decision;
  const Days look_ahead{context.practice->thresholds.hold_look_ahead_days};
  const treatment::Gate* gate = stopping_gate(answer);
  const auto ends = gate != nullptr ? gate_ends(answer) : std::nullopt;
  std::string words = "Wait";
  // A gate that ends long before the best weeks is not what is waited for.
  if (gate != nullptr && (!ends || *ends + look_ahead >= decision.best_range->first)) {
    words += fmt::format(": {}{}", treatment::sentence(*gate, *context.gates),
                         ends ? fmt::format(", until about {}", short_date(*ends)) : "");
  }
  if (length == Length::in_short) return {words, ""};
  return {fmt::format("{}. Best weeks: {} from {}", words, kind_of(answer, length),
                      week_range(decision.best_range->first, decision.best_range->last)),
          expected(answer, length), ", "};
}

Call hold_words(const TargetAnswer& answer) {
  const AfterApplication& after = *answer.after;
  return {fmt::format("Hold after the post treatment of {}: look for survivors from {} to {}",
                      short_date(*after.foliar_on), short_date(after.look->begin()),
                      short_date(after.look->end() - Days{1})),
          ""};
}

Call call_of(const TargetAnswer& answer, const WordContext& context, Length length) {
  switch (answer.decision.action) {
    case Action::treat:
      return treat_words(answer, length);
    case Action::any_week:
      return any_week_words(answer, context, length);
    case Action::wait:
      return wait_words(answer, context, length);
    case Action::hold_after_treatment:
      return hold_words(answer);
    case Action::nothing_left:
      // A message says the next look on a line of its own.
      return {answer.next_look && length == Length::whole
                  ? fmt::format("Nothing left to time this season; next look {}",
                                short_date(answer.next_look->date))
                  : "Nothing left to time this season",
              ""};
    case Action::no_single_week:
      return {"No single week stands out here: scout every two weeks and treat by what you find", ""};
    case Action::scout:
      return {length == Length::whole ? "Scout before you treat: models would choose different treatments"
                                      : "Scout before you treat: models differ",
              fmt::format("On balance {}: {}", kind_of(answer, length), expected(answer, length)), ". "};
    case Action::no_answer:
      break;
  }
  return {"No answer", ""};
}

}  // namespace

std::string emerged_words(const TargetAnswer& answer) {
  const Band<double>& up = answer.emerged_percent;
  if (!std::isfinite(up.middle)) return "";
  if (up.middle < 1.0) return "less than 1% of the season's seedlings are up";
  if (up.low > 99.0) return "all of the season's seedlings are up";
  return fmt::format(
      "about {}% of the season's seedlings are up ({} to {}%), {}% of those "
      "juvenile",
      number_text(up.middle, 0), number_text(up.low, 0), number_text(up.high, 0),
      number_text(answer.juvenile_percent.middle, 0));
}

std::string kind_words(Kind kind, bool second) {
  const char* words = kind == Kind::pre        ? "pre alone"
                      : kind == Kind::pre_post ? "pre and post together"
                                               : "post alone";
  return second ? fmt::format("a second treatment, {}", words) : words;
}

std::string control_words(const Band<double>& control) {
  return fmt::format("{}%, at least {}% in 9 of 10 cases", number_text(control.middle, 0),
                     number_text(control.low, 0));
}

std::vector<Day> named_days(const DateBand& date, std::span<const ModelsDate> either) {
  std::vector<Day> days;
  for (const ModelsDate& side : either) days.push_back(side.date);
  if (days.empty() && date.middle) days.push_back(*date.middle);
  return days;
}

std::string day_words(const DateBand& date, std::span<const ModelsDate> either) {
  std::string text;
  for (const Day day : named_days(date, either)) text += (text.empty() ? "" : " or ") + short_date(day);
  return text;
}

std::string week_range(Day first_monday, Day last_monday) {
  return fmt::format("{} to {}", short_date(first_monday), short_date(last_monday + Days{6}));
}

void word_decision(TargetAnswer& answer, const WordContext& context) {
  const Call call = call_of(answer, context, Length::whole);
  answer.headline = joined(call);
  answer.in_short = joined(call_of(answer, context, Length::in_short));
  answer.call = call.words + ".";
  answer.call_figures = call.figures.empty() ? "" : capitalized(call.figures) + ".";
  const bool open = answer.decision.kind && answer.decision.action != Action::nothing_left;
  if (answer.models_disagree && open) {
    const std::string doubt = " " + capitalized(*answer.models_disagree) + "; scout first.";
    answer.headline += doubt;
    answer.call += doubt;
  }
  answer.lead =
      answer.decision.action == Action::nothing_left || answer.decision.action == Action::no_single_week
          ? ""
          : sentence_of(emerged_words(answer)) + sentence_of(waiting_words(answer));
  while (answer.lead.ends_with(' ')) answer.lead.pop_back();
  answer.plan.words = plan_words(answer);
  answer.brief = brief_lines(answer, context);
}

}  // namespace soilclock::advice
