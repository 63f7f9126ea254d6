// SPDX-License-Identifier: MIT
// Expected control by week and kind, and two rows of figures of the kind that is named.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/number_text.hpp"
#include "report/page/plate_parts.hpp"

namespace soilclock::report {

namespace {

using advice::WeekRow;
using treatment::Kind;

Kind named_kind(const Plate& plate) { return plate.target.decision.kind.value_or(Kind::pre_post); }

std::vector<const WeekRow*> shown_weeks(const Plate& plate) {
  std::vector<const WeekRow*> weeks;
  for (const WeekRow& row : plate.target.weeks) {
    if (plate.x.shows(row.week.week_of) && plate.x.shows(row.week.week_of + Days{6})) weeks.push_back(&row);
  }
  return weeks;
}

double week_middle(const Plate& plate, Day monday) {
  return 0.5 * (plate.x(monday) + plate.x(monday + one_week));
}

/// The bars of one kind in all weeks as one path, low to high, and the strokes at their middles as another.
struct KindBars {
  PathPen bars;
  PathPen strokes;
};

void add_bar(KindBars& kind, const LinearScale& y, double x, double width, const advice::KindInWeek& cell) {
  if (!cell.allowed) return;
  const double top = y(cell.control.high);
  const double left = x - 0.5 * width;
  const double right = x + 0.5 * width;
  kind.bars.move_to({left, top});
  kind.bars.across_to(right);
  kind.bars.down_to(std::max(y(cell.control.low), top + 1.0));
  kind.bars.across_to(left);
  kind.bars.close();
  kind.strokes.move_to({left, y(cell.control.middle)});
  kind.strokes.across_to(right);
}

/// The named kind is thick and in the middle; the others stand left and right of it in their usual order.
void draw_bars(const Plate& plate, const LinearScale& y, const std::vector<const WeekRow*>& weeks) {
  const Kind named = named_kind(plate);
  double side = -1.0;
  for (const Kind kind : treatment::all_kinds) {
    KindBars drawing;
    for (const WeekRow* row : weeks) {
      const Day monday = row->week.week_of;
      const double week = std::min(plate.x(monday + one_week) - plate.x(monday), 40.0);
      const double offset = kind == named ? 0.0 : side * 0.34 * week;
      add_bar(drawing, y, week_middle(plate, monday) + offset, (kind == named ? 0.38 : 0.2) * week,
              row->week.of(kind));
    }
    if (kind != named) side = 1.0;
    plate.picture.path(drawing.bars.written(), std::string{texture(kind)} + " edge");
    plate.picture.path(drawing.strokes.written(), "tick");
  }
}

void draw_control_names(const Plate& plate, const LinearScale& y, const WeekRow& last) {
  std::vector<double> wanted;
  std::vector<Kind> kinds;
  for (const Kind kind : treatment::all_kinds) {
    if (!last.week.of(kind).allowed) continue;
    kinds.push_back(kind);
    wanted.push_back(y(last.week.of(kind).control.middle));
  }
  const std::vector<double> places = spread_out(wanted, 1.15 * plate.layout.text);
  for (std::size_t i = 0; i < kinds.size(); ++i)
    draw_line_name(plate, places[i], treatment::name(kinds[i]), kinds[i] == named_kind(plate) ? "b" : "");
}

/// How to read the bars, in the part before today, where no bar stands.
void draw_control_key(const Plate& plate, const PlateRow& row) {
  static constexpr std::array lines{"Bar: low to high end, 8 of 10 cases.", "Stroke: middle.",
                                    "Thick: the kind named above."};
  const double room = plate.x.held(monday_of(plate.site.on)) - plate.plot_left();
  if (room < text_width(lines[0], plate.layout.small) + 12.0) return;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double y = row.top + plate.layout.small * (1.6 + 1.35 * static_cast<double>(i));
    plate.picture.text({plate.plot_left() + 4.0, y}, lines[i], "s halo");
  }
}

/// What stops the named kind in a week; empty where it may be done.
std::string stop_words(const Plate& plate, const WeekRow& row) {
  if (row.week.of(named_kind(plate)).allowed) return "";
  for (const treatment::Gate& gate : row.gates) {
    if (gate.stops)
      return fmt::format("{} stopped: {}", treatment::name(named_kind(plate)), treatment::name(gate.reason));
  }
  return "";
}

/// A line over each run of weeks in which the named kind is stopped, with what stops it.
void draw_stops(const Plate& plate, const PlateRow& row, const std::vector<const WeekRow*>& weeks) {
  const double y = row.top + 0.35 * plate.layout.small;
  for (std::size_t i = 0; i < weeks.size();) {
    const std::string words = stop_words(plate, *weeks[i]);
    std::size_t end = i + 1;
    while (end < weeks.size() && stop_words(plate, *weeks[end]) == words) ++end;
    if (!words.empty()) {
      const double from = plate.x(weeks[i]->week.week_of) + 2.0;
      plate.picture.line({from, y}, {plate.x(weeks[end - 1]->week.week_of + one_week) - 2.0, y}, "bar");
      plate.picture.text({from, y + 1.3 * plate.layout.small}, words, "s halo");
    }
    i = end;
  }
}

std::string figure(const advice::KindInWeek& cell, double Band<double>::*part) {
  return cell.allowed ? number_text(cell.control.*part, 0) : "-";
}

bool in_best(const Plate& plate, Day monday) {
  const auto best = plate.best_days();
  return best && best->contains(monday);
}

}  // namespace

void draw_control(const Plate& plate, const PlateRow& row) {
  const LinearScale y{0.0, 100.0, row.bottom(), row.top};
  draw_row_name(plate, row, "Expected", "control, of 100");
  for (const int value : {0, 50, 100}) {
    plate.picture.line({plate.plot_left(), y(value)}, {plate.plot_right(), y(value)},
                       value == 0 ? "thin" : "faint");
    plate.picture.text({plate.plot_left() - 7.0, y(value) + 0.35 * plate.layout.small},
                       fmt::format("{}", value), "s", Anchor::end);
  }
  draw_control_key(plate, row);
  const auto weeks = shown_weeks(plate);
  draw_bars(plate, y, weeks);
  draw_stops(plate, row, weeks);
  if (!weeks.empty()) draw_control_names(plate, y, *weeks.back());
}

void draw_figures(const Plate& plate, const PlateRow& row) {
  const auto weeks = shown_weeks(plate);
  if (weeks.empty()) return;
  const Kind named = named_kind(plate);
  const double size = plate.layout.text;
  const double line = row.height / 2.0;
  const double names_at = plate.layout.left - 8.0;
  const double upper = row.top + 0.5 * line + 0.35 * size;
  plate.picture.text({names_at, upper}, fmt::format("{} gives", treatment::name(named)), "b", Anchor::end);
  plate.picture.text({names_at, upper + line}, "at least", "b", Anchor::end);
  const std::string words = "in 9 of 10 cases";
  const double first = plate.x(weeks.front()->week.week_of);
  if (first - plate.plot_left() > text_width(words, plate.layout.small) + 12.0)
    plate.picture.text({first - 8.0, upper + line}, words, "s", Anchor::end);
  const double week_width = plate.x(weeks.front()->week.week_of + one_week) - first;
  const std::size_t step = week_width >= text_width("100", size) ? 1 : 2;
  for (const bool best : {false, true}) {
    std::vector<PlacedText> middles;
    std::vector<PlacedText> lows;
    for (std::size_t i = 0; i < weeks.size(); i += step) {
      const advice::TreatmentWeek& week = weeks[i]->week;
      if (in_best(plate, week.week_of) != best) continue;
      const double x = week_middle(plate, week.week_of);
      middles.push_back({x, figure(week.of(named), &Band<double>::middle)});
      lows.push_back({x, figure(week.of(named), &Band<double>::low)});
    }
    plate.picture.texts(upper, middles, best ? "b" : "", Anchor::middle);
    plate.picture.texts(upper + line, lows, best ? "b" : "", Anchor::middle);
  }
}

}  // namespace soilclock::report
