// SPDX-License-Identifier: MIT
#include "report/page/portfolio_strip.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "advice/answer/words.hpp"
#include "report/page/plate_parts.hpp"
#include "report/svg/time_axis.hpp"

namespace soilclock::report {

namespace {

constexpr double strip_width = 300.0;
constexpr double strip_height = 20.0;
const PlateRow kinds_row{5.0, 12.0};
constexpr int weeks_before = 10;
constexpr int weeks_after = 16;

const advice::Milestone* half_up(const advice::TargetAnswer& target) {
  for (const advice::Milestone& milestone : target.milestones) {
    if (milestone.percent == 50 && milestone.date.middle) return &milestone;
  }
  return nullptr;
}

/// What the strip shows, in words.
std::string strip_words(const advice::TargetAnswer& target) {
  std::string text;
  if (const auto& best = target.decision.best_range)
    text += fmt::format("Best weeks {} to {}. ", short_date(best->first), short_date(best->last + Days{6}));
  if (const auto* half = half_up(target)) {
    text += fmt::format("Half up {}", advice::day_words(half->date, half->either));
    if (target.usual && target.usual->half_up)
      text += fmt::format(", usually {}", short_date(*target.usual->half_up));
    text += ".";
  }
  return text.empty() ? "No dates." : text;
}

void draw_weeks(Picture& picture, const TimeScale& x, const advice::Decision& decision) {
  if (!decision.best_range) return;
  const double from = x.held(decision.best_range->first);
  const double to = x.held(decision.best_range->last + one_week);
  if (decision.good_through) {
    const double end = x.held(*decision.good_through + one_week);
    if (end > from) picture.line({from, 2.0}, {end, 2.0}, "good-weeks");
  }
  if (to > from) picture.rect({from, 4.0}, to - from, strip_height - 6.0, "frame");
}

void draw_half(Picture& picture, const TimeScale& x, const advice::TargetAnswer& target) {
  const double y = kinds_row.at(0.5);
  if (target.usual && target.usual->half_up && x.shows(*target.usual->half_up))
    picture.circle({x(*target.usual->half_up), y}, 3.2, "usual");
  const advice::Milestone* half = half_up(target);
  if (half == nullptr) return;
  for (const Day day : advice::named_days(half->date, half->either)) {
    if (x.shows(day))
      picture.path(fmt::format("M{} {}l4 4 -4 4 -4 -4z", drawn(x(day)), drawn(y - 4.0)), "lozenge");
  }
}

}  // namespace

DayRange strip_days(std::span<const advice::TargetAnswer* const> targets, Day on) {
  const Day earliest = monday_of(on) - weeks_before * one_week;
  const Day latest = monday_of(on) + weeks_after * one_week;
  Day first = monday_of(on) - one_week;
  Day last = monday_of(on) + 4 * one_week;
  for (const advice::TargetAnswer* target : targets) {
    for (const advice::Window& window : target->windows) {
      if (window.opens.low) first = std::min(first, *window.opens.low);
    }
    if (target->last_useful_week) last = std::max(last, *target->last_useful_week + one_week);
  }
  return {std::max(first, earliest), std::min(last, latest)};
}

std::string strip_axis(DayRange days, Day on) {
  constexpr double text_size = 12.0;
  Picture picture{strip_width, 40.0, "strip-axis", {"axis-" + iso(days.begin()), "Months", "Time axis."}};
  const TimeScale x{days, 0.0, strip_width};
  picture.text({x.held(on), text_size}, "today " + short_date(on), "b", Anchor::middle);
  draw_time_axis(picture, x, 17.0, text_size);
  return picture.finish();
}

std::string season_strip(const advice::TargetAnswer& target, DayRange days, Day on, const std::string& id,
                         const std::string& name) {
  Picture picture{strip_width, strip_height, "strip", {id, name + ", " + target.title, strip_words(target)}};
  const TimeScale x{days, 0.0, strip_width};
  for (const RibbonPiece& piece : ribbon_pieces(target, x, kinds_row))
    picture.path(line_path(piece.around), std::string{texture(piece.kind)} + " edge");
  draw_weeks(picture, x, target.decision);
  draw_half(picture, x, target);
  picture.line({x.held(on), 0.0}, {x.held(on), strip_height}, "today");
  return picture.finish();
}

}  // namespace soilclock::report
