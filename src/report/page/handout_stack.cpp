// SPDX-License-Identifier: MIT
// Seasons one above another.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/comparison_report.hpp"
#include "report/page/handout_pictures.hpp"
#include "report/svg/picture.hpp"
#include "report/svg/time_axis.hpp"
#include "report/text_columns.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonRow;

/// Sizes of one form of the picture, in units of its drawing.
struct StackForm {
  std::string_view css_class;
  double width;
  double left;    ///< for the labels of the rows
  double column;  ///< of one date at the right; 0: no dates
  double row;
  double gap;
  double text;
};

// The wide form leaves room for the larger type that tablets and paper show it in.
constexpr std::array stack_forms{StackForm{"wide", 1124.0, 150.0, 82.0, 24.0, 6.0, 16.5},
                                 StackForm{"phone", 360.0, 64.0, 0.0, 21.0, 5.0, 12.0}};

/// What all rows share.
struct Stack {
  const StackForm& form;
  TimeScale x;
  int yardstick_percent;
  Day start;
  Picture& picture;

  double right() const { return x(x.days().end()); }
  /// Where a day of a row's season stands on the shared axis.
  double at(const SeasonRow& row, Day day) const { return x.held(start + (day - row.season.season_start)); }
};

std::optional<Day> rule_day(const SeasonRow& row) {
  return row.season.rule_days.empty() ? std::nullopt : row.season.rule_days.front().day;
}

/// From before the first call or plant of any row to after the last 80 percent.
DayRange stack_days(const std::vector<SeasonRow>& rows, int yardstick_percent, Day start,
                    const std::optional<Day>& calendar) {
  constexpr Days margin{12};
  std::optional<Day> first = calendar;
  std::optional<Day> last = calendar;
  const auto reach = [&](const SeasonRow& row, const std::optional<Day>& day) {
    if (!day) return;
    const Day moved = start + (*day - row.season.season_start);
    first = first ? std::min(*first, moved) : moved;
    last = last ? std::max(*last, moved) : moved;
  };
  for (const SeasonRow& row : rows) {
    reach(row, row.season.reached(yardstick_percent));
    reach(row, row.season.reached(80));
    reach(row, rule_day(row));
  }
  if (!first) return {start, start + Days{200}};
  return {std::max(start, *first - margin), std::min(start + Days{364}, *last + margin)};
}

void draw_row(const Stack& stack, const SeasonRow& row, double top) {
  const double bottom = top + stack.form.row;
  const LinearScale y{0.0, 100.0, bottom, top};
  std::vector<Point> up{{stack.x(stack.x.days().begin()), bottom}};
  std::vector<Point> older = up;
  for (const advice::CurvePoint& point : row.season.weekly) {
    const Day moved = stack.start + (point.day - row.season.season_start);
    if (!stack.x.shows(moved)) continue;
    up.push_back({stack.x(moved), y(point.emerged_percent)});
    older.push_back({stack.x(moved), y(std::min(point.older_percent, point.emerged_percent))});
  }
  up.push_back({stack.right(), up.back().y});
  older.push_back({stack.right(), older.back().y});
  const std::vector<Point> floor{{up.front().x, bottom}, {stack.right(), bottom}};
  const std::vector<Point> ceiling{{up.front().x, top}, {stack.right(), top}};
  stack.picture.path(area_path(ceiling, up), "seeds");
  stack.picture.path(area_path(up, older), "young");
  stack.picture.path(area_path(older, floor), "older");
  stack.picture.line(floor.front(), floor.back(), "thin");
}

void draw_marks(const Stack& stack, const SeasonRow& row, double top) {
  const double r = 0.34 * stack.form.text;
  const double middle = top + 0.5 * stack.form.row;
  if (const auto rule = rule_day(row)) {
    const double x = stack.at(row, *rule);
    stack.picture.path(line_path(std::vector<Point>{
                           {x - r, middle - r}, {x + r, middle - r}, {x, middle + r}, {x - r, middle - r}}),
                       "mark-open");
  }
  if (const auto first = row.season.reached(stack.yardstick_percent))
    stack.picture.circle({stack.at(row, *first), middle}, r, "ring");
  if (const auto half = row.season.reached(50)) {
    const double x = stack.at(row, *half);
    const double r = 0.5 * stack.form.text;
    stack.picture.path(
        line_path(std::vector<Point>{
            {x, middle - r}, {x + r, middle}, {x, middle + r}, {x - r, middle}, {x, middle - r}}),
        "lozenge");
  }
}

void write_row_words(const Stack& stack, const SeasonRow& row, double top) {
  const double base = top + 0.5 * stack.form.row + 0.35 * stack.form.text;
  const auto letters = static_cast<std::size_t>(stack.form.left / (0.56 * stack.form.text));
  stack.picture.text({stack.form.left - 8.0, base}, fitted(row.label, std::max<std::size_t>(letters, 4)),
                     row.open ? "b" : "", Anchor::end);
  if (stack.form.column == 0.0) return;
  double x = stack.right();
  for (const auto& day :
       {row.season.reached(stack.yardstick_percent), row.season.reached(50), rule_day(row)}) {
    x += stack.form.column;
    stack.picture.text({x, base}, day_cell(day), "", Anchor::end);
  }
}

std::string drawn_form(const StackForm& form, const std::vector<SeasonRow>& rows, int yardstick_percent,
                       Day start, const std::optional<Day>& calendar, const StackWords& words) {
  const double axis = 2.4 * form.text;
  const double foot = calendar ? 1.6 * form.text : 0.0;
  const double step = form.row + form.gap;
  const double bottom = axis + step * static_cast<double>(rows.size());
  Picture picture{form.width,
                  bottom + foot,
                  form.css_class,
                  {fmt::format("{}-{}", words.id, form.css_class), words.title, words.description}};
  const Stack stack{form,
                    TimeScale{stack_days(rows, yardstick_percent, start, calendar), form.left,
                              form.width - 3.0 * form.column - (form.column == 0.0 ? 4.0 : 0.0)},
                    yardstick_percent, start, picture};
  draw_time_axis(picture, stack.x, 2.0, form.text);
  if (form.column > 0.0) {
    const std::array heads{fmt::format("{}% up", yardstick_percent), std::string{"half up"},
                           std::string{"soil rule"}};
    for (std::size_t i = 0; i < heads.size(); ++i)
      picture.text({stack.right() + form.column * static_cast<double>(i + 1), form.text + 2.0}, heads[i], "s",
                   Anchor::end);
  }
  for (std::size_t i = 0; i < rows.size(); ++i)
    draw_row(stack, rows[i], axis + step * static_cast<double>(i));
  if (calendar) {
    const double x = stack.x.held(*calendar);
    picture.line({x, axis - 3.0}, {x, bottom}, "rule");
    picture.text({x, bottom + 1.1 * form.text}, short_date(*calendar), "b", Anchor::middle);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    draw_marks(stack, rows[i], axis + step * static_cast<double>(i));
    write_row_words(stack, rows[i], axis + step * static_cast<double>(i));
  }
  return picture.finish();
}

}  // namespace

std::string season_stack(const std::vector<SeasonRow>& rows, int yardstick_percent, Day start,
                         const std::optional<Day>& calendar, const StackWords& words) {
  std::string drawn;
  for (const StackForm& form : stack_forms)
    drawn += drawn_form(form, rows, yardstick_percent, start, calendar, words);
  return drawn;
}

}  // namespace soilclock::report
