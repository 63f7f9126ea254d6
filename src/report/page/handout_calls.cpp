// SPDX-License-Identifier: MIT
// How many days early or late each call was, a dot a season.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/number_text.hpp"
#include "report/page/handout_pictures.hpp"
#include "report/svg/picture.hpp"
#include "report/svg/scale.hpp"

namespace soilclock::report {

namespace {

using advice::TargetComparison;

struct DotForm {
  std::string_view css_class;
  double width;
  double left;   ///< for the names of the calls; 0: they stand above their dots
  double right;  ///< for the mean miss
  double row;
  double text;
};

// The wide form leaves room for the larger type that tablets and paper show it in.
constexpr std::array dot_forms{DotForm{"wide", 1124.0, 270.0, 110.0, 36.0, 16.5},
                               DotForm{"phone", 360.0, 0.0, 70.0, 48.0, 12.0}};

/// The axis in days: round, with the yardstick's day on it, and wide enough for all dots and the band.
std::vector<double> day_ticks(const TargetComparison& target) {
  double low = -7.0;
  double high = 7.0;
  for (const advice::CallMisses& call : target.calls) {
    for (const auto& late : call.days_late) {
      if (!late) continue;
      low = std::min<double>(low, *late);
      high = std::max<double>(high, *late);
    }
  }
  if (target.yardstick_band) {
    low = std::min<double>(low, target.yardstick_band->low);
    high = std::max<double>(high, target.yardstick_band->high);
  }
  return round_ticks(low, high, 6);
}

std::string tick_words(double days, const std::vector<double>& ticks) {
  if (days == 0.0) return "0";
  const std::string number = number_text(std::abs(days), 0);
  if (days == ticks.front()) return number + " days early";
  if (days == ticks.back()) return number + " days late";
  return number;
}

/// Dots of equal days stand above one another.
void draw_dots(Picture& picture, const LinearScale& x, const advice::CallMisses& call, double base,
               double radius) {
  std::map<int, int> taken;
  for (const auto& late : call.days_late) {
    if (!late) continue;
    const int level = taken[*late]++;
    picture.circle({x(*late), base - radius * (1.0 + 2.0 * level)}, radius, "dot");
  }
}

std::string drawn_form(const DotForm& form, const TargetComparison& target, const StackWords& words) {
  const bool above = form.left == 0.0;
  const std::vector<double> ticks = day_ticks(target);
  const std::size_t rows = target.calls.size() + (target.yardstick_band ? 1 : 0);
  const double top = 2.2 * form.text;
  const double bottom = top + form.row * static_cast<double>(rows);
  Picture picture{form.width,
                  bottom + 4.0,
                  form.css_class,
                  {fmt::format("{}-{}", words.id, form.css_class), words.title, words.description}};
  const double margin = 4.2 * form.text;
  const LinearScale x{ticks.front(), ticks.back(), form.left + margin, form.width - form.right - margin};
  for (const double tick : ticks) {
    picture.line({x(tick), top - 4.0}, {x(tick), bottom}, tick == 0.0 ? "axis" : "faint");
    picture.text({x(tick), form.text + 2.0}, tick_words(tick, ticks), "s", Anchor::middle);
  }
  const auto name_row = [&](double base, const std::string& name, const std::string& right) {
    picture.text(above ? Point{0.0, base - 0.62 * form.row} : Point{form.left - 8.0, base - 2.0}, name,
                 "halo", above ? Anchor::start : Anchor::end);
    picture.text({form.width, base - 2.0}, right, "b", Anchor::end);
  };
  double base = top;
  for (const advice::CallMisses& call : target.calls) {
    base += form.row;
    picture.line({x(ticks.front()), base}, {x(ticks.back()), base}, "thin");
    draw_dots(picture, x, call, base, 0.21 * form.text);
    name_row(base, call.title,
             call.mean_miss ? fmt::format("off {} days", number_text(*call.mean_miss, 0)) : "");
  }
  if (target.yardstick_band) {
    base += form.row;
    const double y = base - 0.4 * form.text;
    const double from = x(target.yardstick_band->low);
    const double to = x(target.yardstick_band->high);
    picture.line({from, y}, {to, y}, "bar");
    for (const double end : {from, to}) picture.line({end, y - 4.0}, {end, y + 4.0}, "bar");
    name_row(base, "how unsure that day is",
             fmt::format("{} to {}", signed_number_text(target.yardstick_band->low, 0),
                         signed_number_text(target.yardstick_band->high, 0)));
  }
  return picture.finish();
}

}  // namespace

std::string call_dots(const TargetComparison& target, const StackWords& words) {
  std::string drawn;
  for (const DotForm& form : dot_forms) drawn += drawn_form(form, target, words);
  return drawn;
}

}  // namespace soilclock::report
