// SPDX-License-Identifier: MIT
// What the rows of the season plate share: sizes, the one time axis, the picture they draw on.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"
#include "report/svg/picture.hpp"
#include "report/svg/scale.hpp"

namespace soilclock::report {

/// Sizes of one form of the plate, in units of its drawing. A row of height 0 is left out.
struct PlateLayout {
  std::string_view css_class;
  double width;
  double left;   ///< for names of rows; 0: they stand above their rows
  double right;  ///< for names of lines; 0: they stand inside
  double ribbon;
  double flow;
  double soil;
  double rain;
  double control;
  double text;   ///< size of a text
  double small;  ///< size of a small one
  int most_weeks;
  int weeks_ahead;  ///< kept in view where the axis must be shortened
};

/// A row's place.
struct PlateRow {
  double top = 0.0;
  double height = 0.0;
  double bottom() const { return top + height; }
  double at(double share_from_top) const { return top + height * share_from_top; }
};

/// What every row draws with.
struct Plate {
  const advice::SiteAnswer& site;
  const advice::TargetAnswer& target;
  const PlateLayout& layout;
  TimeScale x;
  Picture& picture;
  const advice::TargetAnswer* behind = nullptr;  ///< whose seedlings up stand as a line behind; or none

  double plot_left() const { return x(x.days().begin()); }
  double plot_right() const { return x(x.days().end()); }
  bool names_above() const { return layout.left == 0.0; }
  /// Where the best weeks begin and end, when there are any.
  std::optional<DayRange> best_days() const;
};

/// The days a plate shows: from before the first seedlings to the last useful week, cut to what the form can
/// hold around today and the best weeks.
DayRange plate_days(const advice::TargetAnswer& target, Day on, const PlateLayout& layout);

/// The name of a row: left of it, or above it where there is no room; a second line in small type.
void draw_row_name(const Plate& plate, const PlateRow& row, std::string_view name, std::string_view second);

/// The name of a line at its right end; beside the plot, or inside where there is no room.
void draw_line_name(const Plate& plate, double y, std::string_view name, std::string_view css_class = "");

/// Places for labels that want to stand at `wanted`, at least `gap` apart, in the same order.
std::vector<double> spread_out(const std::vector<double>& wanted, double gap);

/// One kind of the ribbon: the area from where it opens to the end, and the stretch its name may stand in.
struct RibbonPiece {
  treatment::Kind kind = treatment::Kind::pre;
  double name_from = 0.0;
  double name_to = 0.0;
  std::vector<Point> around;
};

/// The ribbon's pieces from left to right; a later one covers the one before it from its slanted joint on.
std::vector<RibbonPiece> ribbon_pieces(const advice::TargetAnswer& target, const TimeScale& x,
                                       const PlateRow& row);

void draw_ribbon(const Plate& plate, const PlateRow& row);
void draw_flow(const Plate& plate, const PlateRow& row);
void draw_half_up(const Plate& plate, const PlateRow& row);
double half_up_height(const advice::TargetAnswer& target, const PlateLayout& layout);
void draw_soil(const Plate& plate, const PlateRow& row);
void draw_rain(const Plate& plate, const PlateRow& row);
void draw_notes(const Plate& plate, const PlateRow& row);
void draw_control(const Plate& plate, const PlateRow& row);
/// Two rows of figures below the expected control.
void draw_figures(const Plate& plate, const PlateRow& row);

/// The first day of the table that is neither measured nor forecast; the day after its end where there is
/// none.
Day outlook_start(const advice::TargetAnswer& target);

/// The CSS class of a kind's texture.
std::string_view texture(treatment::Kind kind);

}  // namespace soilclock::report
