// SPDX-License-Identifier: MIT
// Soil temperature with the rules of thumb, and rain.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"
#include "report/page/plate_parts.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonDay;
using advice::SoilRuleStatus;

double degrees(const Plate& plate, Temperature temperature) {
  return plate.site.facts.us_units ? temperature.fahrenheit() : temperature.celsius();
}

/// Rules read at the depth of the drawn line, each level and direction once.
std::vector<const SoilRuleStatus*> drawn_rules(const Plate& plate) {
  std::vector<const SoilRuleStatus*> rules;
  for (const SoilRuleStatus& rule : plate.target.soil_rules) {
    if (rule.depth != Depth::from_cm(5.0) || !rule.level.known()) continue;
    const bool known = std::any_of(rules.begin(), rules.end(), [&](const SoilRuleStatus* other) {
      return other->level == rule.level && other->falling == rule.falling;
    });
    if (!known) rules.push_back(&rule);
  }
  return rules;
}

std::optional<Day> rule_since(const SoilRuleStatus& rule) { return rule.habit_day(); }

std::string rule_label(const Plate& plate, const SoilRuleStatus& rule) {
  const auto since = rule_since(rule);
  const bool us = plate.site.facts.us_units;  // rules of thumb are whole degrees of Fahrenheit
  return fmt::format("{} {} {}", rule.falling ? "below" : "above",
                     us ? whole_degree_words(rule.level, us) : temperature_words(rule.level, us),
                     since ? short_date(*since) : std::string{rule.first_run ? "not now" : "not yet"});
}

// In units of the drawing: what is known is drawn closely, what may come and the band around it less so.
constexpr double known_tolerance = 0.5;
constexpr double ahead_tolerance = 1.0;
constexpr double band_tolerance = 1.5;

/// The line from one day to another; days without a value break nothing because the model has all of them.
std::string soil_line(const Plate& plate, const LinearScale& y, Day from, Day to, double tolerance) {
  std::vector<Point> points;
  for (const SeasonDay& row : plate.target.season) {
    if (row.day < from - Days{1} || row.day >= to || !plate.x.shows(row.day) || !row.soil_5cm.known())
      continue;
    points.push_back(
        {0.5 * (plate.x(row.day) + plate.x(row.day + Days{1})), y(degrees(plate, row.soil_5cm))});
  }
  return line_path(simplified(points, tolerance));
}

void draw_soil_band(const Plate& plate, const LinearScale& y) {
  std::vector<Point> upper;
  std::vector<Point> lower;
  for (const SeasonDay& row : plate.target.season) {
    if (!plate.x.shows(row.day) || !row.soil_low.known() || !row.soil_high.known()) continue;
    const double x = 0.5 * (plate.x(row.day) + plate.x(row.day + Days{1}));
    upper.push_back({x, y(degrees(plate, row.soil_high))});
    lower.push_back({x, y(degrees(plate, row.soil_low))});
  }
  plate.picture.path(area_path(simplified(upper, band_tolerance), simplified(lower, band_tolerance)),
                     "soil-band");
}

/// Lines first, so that none runs through a label that stands on them.
void draw_rules(const Plate& plate, const LinearScale& y) {
  const auto rules = drawn_rules(plate);
  std::vector<double> levels;
  for (const SoilRuleStatus* rule : rules) {
    levels.push_back(y(degrees(plate, rule->level)));
    plate.picture.line({plate.plot_left(), levels.back()}, {plate.plot_right(), levels.back()}, "rule");
    const auto since = rule_since(*rule);
    if (since && plate.x.shows(*since)) plate.picture.circle({plate.x(*since), levels.back()}, 3.2, "ring");
  }
  const std::vector<double> labels = spread_out(levels, 1.15 * plate.layout.small);
  for (std::size_t i = 0; i < rules.size(); ++i)
    draw_line_name(plate, labels[i], rule_label(plate, *rules[i]), "s");
}

Rain largest_rain(const Plate& plate, Rain least) {
  Rain largest = least;
  for (const SeasonDay& row : plate.target.season) {
    if (plate.x.shows(row.day) && row.rain && row.rain->known()) largest = std::max(largest, *row.rain);
  }
  return largest;
}

/// Bars of one class as a single path; one drawing element for all days.
std::string rain_bars(const Plate& plate, const PlateRow& row, const LinearScale& height, bool forecast) {
  PathPen bars;
  for (const SeasonDay& day : plate.target.season) {
    const bool ahead = day.day >= plate.site.on;
    if (ahead != forecast || !plate.x.shows(day.day) || !day.rain || !day.rain->known() ||
        day.rain->mm() <= 0.0)
      continue;
    const double from = plate.x(day.day);
    const double width = 0.8 * (plate.x(day.day + Days{1}) - from);
    const double tall = std::max(height(day.rain->mm()), 0.5);
    bars.move_to({from, row.bottom()});
    bars.down_to(row.bottom() - tall);
    bars.across_to(from + width);
    bars.down_to(row.bottom());
  }
  return bars.written();
}

/// A small cross where a day that is over has no known rain.
std::string unknown_rain(const Plate& plate, const PlateRow& row) {
  std::string crosses;
  for (const SeasonDay& day : plate.target.season) {
    if (day.day >= plate.site.on || !plate.x.shows(day.day) || (day.rain && day.rain->known())) continue;
    crosses += fmt::format("M{} {}l3 3m0 -3l-3 3", drawn(plate.x(day.day)), drawn(row.bottom() - 5.0));
  }
  return crosses;
}

}  // namespace

void draw_soil(const Plate& plate, const PlateRow& row) {
  const bool us = plate.site.facts.us_units;
  std::vector<double> values;
  for (const SeasonDay& day : plate.target.season) {
    if (plate.x.shows(day.day) && day.soil_5cm.known()) values.push_back(degrees(plate, day.soil_5cm));
  }
  draw_row_name(plate, row, "Soil, " + depth_words(Depth::from_cm(5.0), us),
                us ? "F, day mean" : "C, day mean");
  if (values.empty()) return;
  for (const SoilRuleStatus* rule : drawn_rules(plate)) values.push_back(degrees(plate, rule->level));
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const LinearScale y{*low - 1.0, *high + 1.0, row.bottom(), row.top};
  draw_soil_band(plate, y);
  const Day outlook = outlook_start(plate.target);
  plate.picture.path(soil_line(plate, y, plate.x.days().begin(), plate.site.on, known_tolerance), "soil");
  plate.picture.path(soil_line(plate, y, plate.site.on, outlook, known_tolerance), "soil dashed-thin");
  plate.picture.path(
      soil_line(plate, y, std::max(outlook, plate.site.on), plate.x.days().end(), ahead_tolerance),
      "soil dotted-thin");
  draw_rules(plate, y);
  if (plate.names_above()) return;
  for (const double tick : round_ticks(*low, *high, 4)) {
    if (tick < *low || tick > *high) continue;
    plate.picture.text({plate.plot_left() - 7.0, y(tick) + 0.35 * plate.layout.small}, number_text(tick, 0),
                       "s", Anchor::end);
  }
}

void draw_rain(const Plate& plate, const PlateRow& row) {
  const bool us = plate.site.facts.us_units;
  const Rain unit = us ? Rain::from_inches(1.0) : Rain::from_mm(25.0);
  draw_row_name(plate, row, "Rain", us ? "inches a day" : "mm a day");
  const LinearScale height{0.0, largest_rain(plate, unit).mm(), 0.0, row.height};
  plate.picture.line({plate.plot_left(), row.bottom()}, {plate.plot_right(), row.bottom()}, "thin");
  plate.picture.path(rain_bars(plate, row, height, false), "rain");
  plate.picture.path(rain_bars(plate, row, height, true), "rain-ahead");
  plate.picture.path(unknown_rain(plate, row), "thin");
  const double tall = height(unit.mm());
  const double x = plate.layout.right > 0.0 ? plate.plot_right() + 3.0 : plate.plot_right() - 1.0;
  plate.picture.line({x, row.bottom() - tall}, {x, row.bottom()}, "thin");
  draw_line_name(plate, row.bottom() - 0.5 * tall, us ? "1 inch" : "25 mm", "s");
  const Day outlook = outlook_start(plate.target);
  const std::string words = "no rain forecast beyond this";
  const auto best = plate.best_days();
  const Day free_from = best && best->contains(outlook) ? best->end() : std::max(outlook, plate.site.on);
  const double from = plate.x.held(free_from) + 6.0;
  if (from + text_width(words, plate.layout.small) < plate.plot_right() - 40.0)
    plate.picture.text({from, row.bottom() - 5.0}, words, "s halo");
}

}  // namespace soilclock::report
