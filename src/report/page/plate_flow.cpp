// SPDX-License-Identifier: MIT
// Of a hundred seedlings, day by day: still to come, up and young, up and older.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/number_text.hpp"
#include "report/page/plate_parts.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonDay;

constexpr double tolerance = 0.6;  // of a drawn line, in units

/// The lines of the picture, a point a day at its end.
struct FlowLines {
  std::vector<Point> up, low, high, older, ceiling, floor;

  double left() const { return floor.front().x; }
  double right() const { return floor.back().x; }
};

bool has_ages(const advice::TargetAnswer& target) {
  return std::any_of(target.season.begin(), target.season.end(), [](const SeasonDay& row) {
    return row.young_percent.middle > 0.0 || row.older_percent.middle > 0.0;
  });
}

FlowLines flow_lines(const Plate& plate, const LinearScale& y) {
  FlowLines lines;
  for (const SeasonDay& row : plate.target.season) {
    const Day end = row.day + Days{1};
    if (end < plate.x.days().begin() || end > plate.x.days().end()) continue;
    const double x = plate.x(end);
    lines.up.push_back({x, y(row.emerged_percent.middle)});
    lines.low.push_back({x, y(row.emerged_percent.low)});
    lines.high.push_back({x, y(row.emerged_percent.high)});
    lines.older.push_back({x, y(std::min(row.older_percent.middle, row.emerged_percent.middle))});
    lines.ceiling.push_back({x, y(100.0)});
    lines.floor.push_back({x, y(0.0)});
  }
  return lines;
}

/// Each area lies on the one before it, so that a border is written once.
void draw_areas(Picture& picture, const FlowLines& lines, bool ages) {
  const double top = lines.ceiling.front().y;
  picture.rect({lines.left(), top}, lines.right() - lines.left(), lines.floor.front().y - top, "seeds");
  const std::vector<Point> floor{lines.floor.front(), lines.floor.back()};
  picture.path(area_path(simplified(lines.up, tolerance), floor), "young");
  if (ages) picture.path(area_path(simplified(lines.older, tolerance), floor), "older");
}

/// White lines cut what is not measured: a day apart in the forecast, a week apart beyond it.
void draw_comb(const Plate& plate, const PlateRow& row) {
  const Day outlook = outlook_start(plate.target);
  std::vector<double> days;
  std::vector<double> weeks;
  for (Day day = plate.site.on + Days{1}; day < std::min(outlook, plate.x.days().end()); day += Days{1})
    days.push_back(plate.x(day));
  for (const Day monday : mondays({outlook, plate.x.days().end()})) weeks.push_back(plate.x(monday));
  plate.picture.path(strokes_path(days, row.top, row.bottom()), "comb-day");
  plate.picture.path(strokes_path(weeks, row.top, row.bottom()), "comb-week");
}

/// The seedlings up as the other answer has them, with its name where it parts from the line drawn.
void draw_behind(const Plate& plate, const LinearScale& y, const FlowLines& lines) {
  if (plate.behind == nullptr) return;
  std::vector<Point> up;
  for (const SeasonDay& row : plate.behind->season) {
    const Day end = row.day + Days{1};
    if (end < plate.x.days().begin() || end > plate.x.days().end()) continue;
    up.push_back({plate.x(end), y(row.emerged_percent.middle)});
  }
  if (up.size() != lines.up.size()) return;
  plate.picture.path(line_path(simplified(up, tolerance)), "behind");
  std::size_t widest = 0;
  const auto apart = [&](std::size_t i) { return std::abs(up[i].y - lines.up[i].y); };
  for (std::size_t i = 0; i < up.size(); ++i) {
    if (apart(i) > apart(widest)) widest = i;
  }
  if (apart(widest) < plate.layout.small) return;  // nobody could tell whose name it is
  const bool below = up[widest].y > lines.up[widest].y;
  plate.picture.text({up[widest].x + (below ? 6.0 : -6.0), up[widest].y + 0.35 * plate.layout.small}, "now",
                     "s halo behind-name", below ? Anchor::start : Anchor::end);
}

void draw_lines(const Plate& plate, const FlowLines& lines) {
  const std::string band =
      line_path(simplified(lines.low, tolerance)) + line_path(simplified(lines.high, tolerance));
  plate.picture.path(band, "band-ground");
  plate.picture.path(band, "band");
  const double today = plate.x(plate.site.on) + 0.05;
  std::vector<Point> past;
  std::vector<Point> ahead;
  for (const Point& point : lines.up) {
    if (point.x <= today) past.push_back(point);
    if (point.x >= today - 0.1) ahead.push_back(point);
  }
  plate.picture.path(line_path(simplified(past, tolerance)), "curve");
  plate.picture.path(line_path(simplified(ahead, tolerance)), "curve dashed");
}

/// Where a label of this width has most room between two lines, away from the frame and from today.
std::optional<Point> roomiest(const Plate& plate, const std::vector<Point>& upper,
                              const std::vector<Point>& lower, double width, double height) {
  std::vector<std::pair<double, double>> taken{{plate.x(plate.site.on) - 3.0, plate.x(plate.site.on) + 3.0}};
  if (const auto best = plate.best_days()) {
    for (const Day edge : {best->begin(), best->end()})
      taken.emplace_back(plate.x.held(edge) - 4.0, plate.x.held(edge) + 4.0);
  }
  std::optional<Point> found;
  double most = height;
  for (std::size_t i = 0; i < upper.size(); ++i) {
    const double from = upper[i].x;
    const double to = from + width;
    if (to > plate.plot_right() - 4.0) break;
    const bool free = std::none_of(taken.begin(), taken.end(), [&](const auto& stretch) {
      return from < stretch.second && to > stretch.first;
    });
    if (!free || from < plate.plot_left() + 6.0) continue;
    double top = upper[i].y;
    double bottom = lower[i].y;
    for (std::size_t j = i; j < upper.size() && upper[j].x <= to; ++j) {
      top = std::max(top, upper[j].y);
      bottom = std::min(bottom, lower[j].y);
    }
    if (bottom - top <= most + 0.5) continue;
    most = bottom - top;
    found = Point{from + 0.5 * width, 0.5 * (top + bottom)};
  }
  return found;
}

void draw_names(const Plate& plate, const FlowLines& lines, bool ages) {
  struct Name {
    const char* text;
    const char* css_class;
    const std::vector<Point>& upper;
    const std::vector<Point>& lower;
  };
  const Name to_come{"still to come", "b", lines.ceiling, lines.up};
  const Name young{ages ? "up, young" : "up", "b", lines.up, ages ? lines.older : lines.floor};
  const Name older{"up, older", "b on-older", lines.older, lines.floor};
  for (const Name& name : {to_come, young, older}) {
    if (!ages && &name.lower == &lines.floor && &name.upper == &lines.older) continue;
    const double width = text_width(name.text, plate.layout.text) * 1.1;
    const auto at = roomiest(plate, name.upper, name.lower, width, plate.layout.text * 1.25);
    if (at)
      plate.picture.text({at->x, at->y + 0.35 * plate.layout.text}, name.text, name.css_class,
                         Anchor::middle);
  }
}

/// "35 up" at this morning's point, with its band.
void draw_now(const Plate& plate, const LinearScale& y) {
  const Band<double>& up = plate.target.emerged_percent;
  const Point at{plate.x(plate.site.on), y(up.middle)};
  plate.picture.circle(at, 4.0, "ring");
  const double size = plate.layout.text;
  const double above = std::clamp(at.y - 0.9 * size, y(100.0) + 1.1 * size, y(0.0) - 1.6 * size);
  const std::string words = fmt::format("{} up", number_text(up.middle, 0));
  const std::string band = fmt::format("{} to {}", number_text(up.low, 0), number_text(up.high, 0));
  const double width = text_width(band, size);
  // Left of the point, and of the frame where that stands there.
  double edge = at.x;
  if (const auto best = plate.best_days(); best && best->contains(plate.site.on))
    edge = std::min(edge, plate.x.held(best->begin()));
  const bool left = edge - width - 9.0 > plate.plot_left();
  const double x = left ? edge - 9.0 : at.x + 9.0;
  const Anchor anchor = left ? Anchor::end : Anchor::start;
  plate.picture.text({x, above}, words, "big halo-seed", anchor);
  plate.picture.text({x, above + 1.1 * size}, band, "s halo-seed", anchor);
}

void draw_scale(const Plate& plate, const LinearScale& y) {
  plate.picture.line({plate.plot_left(), y(50.0)}, {plate.plot_right(), y(50.0)}, "half");
  if (plate.names_above()) return;
  for (const int value : {0, 50, 100}) {
    plate.picture.text({plate.plot_left() - 7.0, y(value) + 0.35 * plate.layout.small},
                       fmt::format("{}", value), "s", Anchor::end);
  }
}

/// What the columns are made of, at the foot of the older plants where they are thick enough.
void draw_outlook_words(const Plate& plate, const FlowLines& lines, const PlateRow& row) {
  const Day outlook = outlook_start(plate.target);
  if (!plate.x.shows(outlook) || lines.older.empty()) return;
  const std::string text =
      plate.names_above()
          ? "weeks: past years' weather"
          : fmt::format("columns of a week: from {} on past years' weather", short_date(outlook));
  const double width = text_width(text, plate.layout.small);
  const double from = plate.plot_right() - width - 6.0;
  if (from < plate.x(outlook)) return;
  double highest = row.top;
  for (const Point& point : lines.older) {
    if (point.x >= from) highest = std::max(highest, point.y);
  }
  const bool dark = has_ages(plate.target) && row.bottom() - highest > 1.8 * plate.layout.small;
  plate.picture.text({plate.plot_right() - 5.0, row.bottom() - 5.0}, text, dark ? "s on-older" : "s halo",
                     Anchor::end);
}

}  // namespace

void draw_flow(const Plate& plate, const PlateRow& row) {
  const LinearScale y{0.0, 100.0, row.bottom(), row.top};
  draw_row_name(plate, row, "Of 100", "seedlings");
  const FlowLines lines = flow_lines(plate, y);
  if (lines.up.size() < 2) return;
  const bool ages = has_ages(plate.target);
  draw_areas(plate.picture, lines, ages);
  draw_comb(plate, row);
  draw_scale(plate, y);
  draw_behind(plate, y, lines);
  draw_lines(plate, lines);
  draw_names(plate, lines, ages);
  draw_now(plate, y);
  draw_outlook_words(plate, lines, row);
  if (plate.names_above()) return;
  std::vector<double> ends = spread_out({lines.high.back().y, lines.low.back().y}, plate.layout.small * 1.15);
  // Above the row stand the names of the ribbon's ends.
  const double too_high = std::max(row.top - ends[0], 0.0);
  for (double& end : ends) end += too_high;
  draw_line_name(plate, ends[0], "1 in 10 above", "s");
  draw_line_name(plate, ends[1], "1 in 10 below", "s");
}

}  // namespace soilclock::report
