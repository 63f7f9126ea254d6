// SPDX-License-Identifier: MIT
#include "advice/answer/strip_notes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

std::optional<Band<double>> expected_by(const DecisionInputs& inputs, Day day) {
  std::vector<ActingApplication> acting = acting_applications(inputs);
  std::erase_if(acting, [&](const ActingApplication& noted) { return noted.day >= day; });
  if (acting.empty()) return std::nullopt;
  const SeasonControl control{*inputs.run,       *inputs.runs, *inputs.scenarios,
                              *inputs.catalogue, acting,       inputs.seed};
  return control.control_by(day);
}

std::string strip_note(const LoggedStrip& strip, const std::optional<Band<double>>& expected) {
  std::string text = "untreated strip: " + treatment::control_words(strip.observed);
  if (expected) {
    text += fmt::format(", {}% expected ({} to {}%)", number_text(expected->middle, 0),
                        number_text(expected->low, 0), number_text(expected->high, 0));
  }
  return strip.area.empty() ? text : text + ", " + strip.area;
}

}  // namespace

void add_strip_notes(TargetAnswer& answer, const DecisionInputs& inputs) {
  for (const LoggedStrip& strip : inputs.log->strips) {
    if (strip.target != answer.target || strip.day >= inputs.site->on ||
        !inputs.run->season.days().contains(strip.day)) {
      continue;
    }
    answer.notes.push_back({strip.day, NoteKind::strip, strip_note(strip, expected_by(inputs, strip.day))});
  }
  std::stable_sort(answer.notes.begin(), answer.notes.end(),
                   [](const NoteShown& a, const NoteShown& b) { return a.day < b.day; });
}

}  // namespace soilclock::advice
