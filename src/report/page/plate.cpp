// SPDX-License-Identifier: MIT
#include "report/page/plate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/words.hpp"
#include "core/number_text.hpp"
#include "report/page/plate_parts.hpp"
#include "report/svg/time_axis.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// Its texts are laid out for paper, where they must be larger; the style sheet draws them smaller on a
/// screen.
constexpr PlateLayout wide{"plate wide", 1124, 150, 150, 34, 230, 80, 42, 112, 16.5, 15, 26, 12};
constexpr PlateLayout phone{"plate phone", 358, 0, 0, 32, 190, 84, 40, 0, 12, 11, 18, 9};

const PlateLayout& layout_of(PlateForm form) { return form == PlateForm::phone ? phone : wide; }

/// Rows placed one below another.
class RowStack {
 public:
  RowStack(const PlateLayout& layout, double top) : layout_{layout}, y_{top} {}
  /// A row with room for its name above it where names stand there.
  PlateRow take(double height, double gap) {
    if (height == 0.0) return {y_, 0.0};
    y_ += gap + (layout_.left == 0.0 ? layout_.text + 5.0 : 0.0);
    const PlateRow row{y_, height};
    y_ += height;
    return row;
  }
  /// Room without a name.
  PlateRow space(double height) {
    const PlateRow row{y_, height};
    y_ += height;
    return row;
  }
  double bottom() const { return y_; }

 private:
  const PlateLayout& layout_;
  double y_;
};

/// Where every row stands; the same for drawing and for the height of the picture.
struct Rows {
  PlateRow strip, ribbon, flow, flow_axis, half_up, soil, rain, notes, control, figures, axis;
  double bottom = 0.0;
};

Rows rows_of(const TargetAnswer& target, const PlateLayout& layout) {
  RowStack stack{layout, 0.0};
  const double line = layout.text + 5.0;
  const double gap = layout.text * 0.8;
  const bool weeks = layout.control > 0.0 && !target.weeks.empty();
  Rows rows;
  rows.strip = stack.space(layout.left == 0.0 ? 2.0 * line : line + 2.0);
  rows.ribbon = stack.take(target.windows.empty() ? 0.0 : layout.ribbon, 0.0);
  rows.flow = stack.take(layout.flow, gap);
  rows.flow_axis = stack.space(layout.text + 8.0);
  rows.half_up = stack.take(half_up_height(target, layout), gap * 0.6);
  rows.soil = stack.take(layout.soil, gap);
  rows.rain = stack.take(layout.rain, gap);
  rows.notes = stack.take(target.notes.empty() ? 0.0 : line, gap * 0.8);
  rows.control = stack.take(weeks ? layout.control : 0.0, gap * 1.5);
  rows.figures = stack.space(weeks ? 2.0 * line : 0.0);
  rows.axis = stack.space(layout.text + 8.0);
  rows.bottom = stack.bottom();
  return rows;
}

std::string best_words(const TargetAnswer& target, bool with_end) {
  const advice::Decision& decision = target.decision;
  std::string text = "best " + advice::week_range(decision.best_range->first, decision.best_range->last);
  if (with_end && decision.good_through && *decision.good_through > decision.best_range->last)
    text += fmt::format(", good through {}", short_date(*decision.good_through + Days{6}));
  return text;
}

/// The blue label over the best weeks; gives where it begins.
double draw_best_label(const Plate& plate, const PlateRow& strip, DayRange best) {
  const double height = plate.layout.text + 4.0;
  const double from = plate.x.held(best.begin());
  const double to = plate.x.held(best.end());
  const bool above = plate.names_above();
  double width = 0.0;
  std::string text;
  for (const bool with_end : {true, false}) {
    text = best_words(plate.target, with_end);
    width = text_width(text, plate.layout.text) * 1.06 + 10.0;
    if (from + width <= plate.layout.width) break;
  }
  width = std::max(width, to - from);
  const double left = from + width <= plate.layout.width ? from : std::max(0.0, to - width);
  const double top = above ? strip.top : strip.bottom() - height;
  plate.picture.rect({left, top}, width, height, "week");
  plate.picture.text({left + 5.0, top + height - 4.5}, text, "b on-dark");
  return left;
}

/// A blue frame through all rows, with a line of paper on both sides where it crosses what is dark.
void draw_best_frame(const Plate& plate, const Rows& rows, DayRange best) {
  const double from = plate.x.held(best.begin());
  const double to = plate.x.held(best.end());
  if (to <= from) return;
  const double top = rows.strip.bottom();
  for (const char* css_class : {"frame-ground", "frame"})
    plate.picture.rect({from, top}, to - from, rows.axis.top - top, css_class);
  const auto& good_through = plate.target.decision.good_through;
  if (!good_through) return;
  const double end = plate.x.held(*good_through + one_week);
  if (end > to) plate.picture.rect({to, top - 3.0}, end - to, 3.0, "week");
}

void draw_today(const Plate& plate, const Rows& rows, std::optional<double> blue_left) {
  const double at = plate.x(plate.site.on);
  const double text_y = rows.strip.bottom() - 4.5;
  const double bottom = rows.control.height > 0.0 ? rows.control.bottom() : rows.axis.top;
  plate.picture.line({at, rows.strip.bottom() - 2.0}, {at, bottom}, "today");
  const std::string text = "today " + short_date(plate.site.on);
  const double width = text_width(text, plate.layout.text);
  // Left of the line, or of the blue label or frame where the line runs inside it.
  const double end = (blue_left ? std::min(at, *blue_left) : at) - 5.0;
  if (end - width >= 0.0)
    plate.picture.text({end, text_y}, text, "b", Anchor::end);
  else
    plate.picture.text({at + 5.0, text_y}, text, "b halo");
}

std::string plate_description(const SiteAnswer& site, const TargetAnswer& target) {
  const auto& up = target.emerged_percent;
  std::string text =
      fmt::format("On the morning of {} {} of a hundred seedlings are up ({} to {}). ", short_date(site.on),
                  number_text(up.middle, 0), number_text(up.low, 0), number_text(up.high, 0));
  for (const advice::Milestone& milestone : target.milestones) {
    if (milestone.percent != 50 || !milestone.date.middle) continue;
    text += fmt::format("Half are up by {}. ", advice::day_words(milestone.date, milestone.either));
  }
  if (target.decision.best_range && target.decision.kind)
    text +=
        fmt::format("Best weeks: {}, {}. ",
                    advice::week_range(target.decision.best_range->first, target.decision.best_range->last),
                    treatment::name(*target.decision.kind));
  return text + "The tables of the weeks say the same in figures.";
}

}  // namespace

bool has_plate(const TargetAnswer& target) {
  return !target.season.empty() && std::isfinite(target.emerged_percent.middle);
}

DayRange plate_span(const TargetAnswer& target, Day on) { return plate_days(target, on, wide); }

std::string season_plate(const SiteAnswer& site, const TargetAnswer& target, PlateForm form,
                         const std::string& id, const TargetAnswer* behind) {
  const PlateLayout& layout = layout_of(form);
  const Rows rows = rows_of(target, layout);
  Picture picture{layout.width,
                  rows.bottom + 2.0,
                  layout.css_class,
                  {id, "The season so far, and as it may go on", plate_description(site, target)}};
  const double edge = layout.left == 0.0 ? 1.0 : 0.0;  // room for half a line's width
  const Plate plate{site,
                    target,
                    layout,
                    TimeScale{plate_days(target, site.on, layout), layout.left + edge,
                              layout.width - std::max(layout.right, edge)},
                    picture,
                    behind};
  if (rows.ribbon.height > 0.0) draw_ribbon(plate, rows.ribbon);
  draw_flow(plate, rows.flow);
  picture.begin_part("axis");
  draw_time_axis(picture, plate.x, rows.flow.bottom(), layout.text);
  picture.end_part();
  draw_soil(plate, rows.soil);
  draw_rain(plate, rows.rain);
  if (rows.control.height > 0.0) draw_control(plate, rows.control);
  const auto best = plate.best_days();
  if (best) draw_best_frame(plate, rows, *best);
  draw_half_up(plate, rows.half_up);
  if (rows.notes.height > 0.0) draw_notes(plate, rows.notes);
  if (rows.figures.height > 0.0) draw_figures(plate, rows.figures);
  picture.again("axis", rows.axis.top - rows.flow.bottom());
  std::optional<double> blue_left;
  if (best) {
    blue_left = draw_best_label(plate, rows.strip, *best);
    if (plate.names_above()) blue_left = plate.x.held(best->begin());  // the label has a line of its own
  }
  draw_today(plate, rows, blue_left);
  return picture.finish();
}

}  // namespace soilclock::report
