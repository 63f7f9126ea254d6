// SPDX-License-Identifier: MIT
#include "advice/answer/season_notes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"

namespace soilclock::advice {

namespace {

std::string entry_words(const treatment::PlanEntry& entry) {
  if (entry.active == nullptr) return fmt::format("group {}", entry.group);
  return fmt::format("{} ({})", entry.text, entry.group);
}

std::string application_words(const SiteApplication& noted) {
  std::string text{treatment::name(noted.kind)};
  for (const treatment::PlanEntry& entry : noted.entries) text += ", " + entry_words(entry);
  if (noted.share_of_dose < 1.0)
    text += fmt::format(", {}% of a dose", number_text(100.0 * noted.share_of_dose, 0));
  if (noted.watered_in_after_days)
    text += *noted.watered_in_after_days == 0
                ? ", watered in"
                : fmt::format(", watered in after {} day{}", *noted.watered_in_after_days,
                              *noted.watered_in_after_days == 1 ? "" : "s");
  return text;
}

std::string stage_words(SeenStage stage) {
  switch (stage) {
    case SeenStage::leaves_1_3:
      return "most with one to three leaves";
    case SeenStage::to_one_tiller:
      return "most with up to one tiller";
    case SeenStage::two_tillers:
      return "most with two tillers";
    case SeenStage::older:
      break;
  }
  return "most older than two tillers";
}

std::string noted_count_words(const LoggedCount& noted) {
  std::string text;
  if (!noted.counts.empty()) {
    long plants = 0;
    for (const int count : noted.counts) plants += count;
    text = fmt::format("{} {}seedling{} in {} plot{}", plants, noted.fresh ? "new " : "",
                       plants == 1 ? "" : "s", noted.counts.size(), noted.counts.size() == 1 ? "" : "s");
  }
  if (noted.ground_share)
    text += fmt::format("{}{:.3g}% of the ground", text.empty() ? "" : ", ", noted.ground_share->percent());
  if (noted.stage) text += (text.empty() ? "" : ", ") + stage_words(*noted.stage);
  if (!noted.area.empty()) text += (text.empty() ? "" : ", ") + noted.area;
  return text;
}

std::string reading_words(const LoggedReading& noted, bool us_units) {
  std::string text = temperature_words(noted.temperature, us_units);
  if (noted.minute_of_day)
    text += fmt::format(" at {:02}:{:02}", *noted.minute_of_day / 60, *noted.minute_of_day % 60);
  return text + ", " + depth_words(noted.depth, us_units);
}

}  // namespace

std::string_view name(NoteKind kind) {
  switch (kind) {
    case NoteKind::application:
      return "application";
    case NoteKind::count:
      return "count";
    case NoteKind::first_seen:
      return "first-seen";
    case NoteKind::reading:
      return "reading";
    case NoteKind::turf_check:
      return "turf-check";
    case NoteKind::strip:
      break;
  }
  return "strip";
}

std::vector<NoteShown> notes_of_season(const SiteLog& log, const Season& season, const std::string& target,
                                       Day on, bool us_units) {
  std::vector<NoteShown> notes;
  const auto add = [&](Day day, NoteKind kind, bool of_that_morning, std::string text) {
    if (!season.days().contains(day) || (of_that_morning ? day > on : day >= on)) return;
    notes.push_back({day, kind, std::move(text)});
  };
  for (const SiteApplication& noted : log.applications)
    add(noted.day, NoteKind::application, false, application_words(noted));
  for (const LoggedCount& noted : log.counts) {
    if (noted.target == target) add(noted.day, NoteKind::count, false, noted_count_words(noted));
  }
  for (const LoggedFirstSeen& noted : log.first_seen) {
    if (noted.target == target) add(noted.day, NoteKind::first_seen, false, "first seedlings seen");
  }
  for (const LoggedReading& noted : log.readings)
    add(noted.day, NoteKind::reading, noted.minute_of_day.has_value(), reading_words(noted, us_units));
  if (log.seen)
    add(log.seen->day, NoteKind::turf_check, true, fmt::format("turf {}", treatment::name(log.seen->state)));
  std::stable_sort(notes.begin(), notes.end(),
                   [](const NoteShown& a, const NoteShown& b) { return a.day < b.day; });
  return notes;
}

}  // namespace soilclock::advice
