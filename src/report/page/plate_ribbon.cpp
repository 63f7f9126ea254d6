// SPDX-License-Identifier: MIT
// The ribbon of kinds: a slanted boundary runs from its early date (bottom) over its middle to its late date
// (top).
#include <algorithm>
#include <cmath>

#include "report/page/plate_parts.hpp"

namespace soilclock::report {

namespace {

/// Boundary from bottom to top, held inside the plot.
std::vector<Point> boundary(const TimeScale& x, const PlateRow& row, const DateBand& opens) {
  const Day middle = *opens.middle;
  return {{x.held(opens.low.value_or(middle)), row.bottom()},
          {x.held(middle), row.at(0.5)},
          {x.held(opens.high.value_or(x.days().end())), row.top}};
}

struct Stretch {
  double from = 0.0;
  double to = 0.0;
  double length() const { return to - from; }
};

/// The widest part of a stretch that neither today's line nor an edge of the frame crosses.
Stretch widest_free(const Plate& plate, Stretch whole) {
  std::vector<double> cuts{plate.x.held(plate.site.on)};
  if (const auto best = plate.best_days()) {
    cuts.push_back(plate.x.held(best->begin()));
    cuts.push_back(plate.x.held(best->end()));
  }
  std::sort(cuts.begin(), cuts.end());
  constexpr double air = 3.0;
  Stretch widest{whole.from, whole.from};
  double from = whole.from;
  for (const double cut : cuts) {
    if (cut <= whole.from || cut >= whole.to) continue;
    if (cut - air - from > widest.length()) widest = {from, cut - air};
    from = cut + air;
  }
  return whole.to - from > widest.length() ? Stretch{from, whole.to} : widest;
}

void draw_kind_name(const Plate& plate, const PlateRow& row, treatment::Kind kind, Stretch whole) {
  const double width = text_width(treatment::name(kind), plate.layout.text) * 1.08 + 12.0;
  const Stretch free = widest_free(plate, whole);
  if (free.length() < width) return;
  const double x = 0.5 * (free.from + free.to);
  const double height = plate.layout.text + 5.0;
  plate.picture.rect({x - 0.5 * width, row.at(0.5) - 0.5 * height}, width, height, "patch");
  plate.picture.text({x, row.at(0.5) + 0.35 * plate.layout.text}, treatment::name(kind), "b", Anchor::middle);
}

}  // namespace

std::vector<RibbonPiece> ribbon_pieces(const advice::TargetAnswer& target, const TimeScale& x,
                                       const PlateRow& row) {
  const Day end_day = target.last_useful_week ? std::min(*target.last_useful_week + one_week, x.days().end())
                                              : x.days().end();
  const double end = x.held(end_day);
  std::vector<RibbonPiece> pieces;
  for (const advice::Window& window : target.windows) {
    if (!window.opens.middle) continue;
    std::vector<Point> around = boundary(x, row, window.opens);
    for (Point& point : around) point.x = std::min(point.x, end);
    const double from = around[1].x;
    if (!pieces.empty()) pieces.back().name_to = from;
    around.push_back({end, row.top});
    around.push_back({end, row.bottom()});
    around.push_back(around.front());
    pieces.push_back({window.kind, from, end, std::move(around)});
  }
  return pieces;
}

void draw_ribbon(const Plate& plate, const PlateRow& row) {
  draw_row_name(plate, row, "Kind by % up", "rule of thumb");
  const std::vector<RibbonPiece> pieces = ribbon_pieces(plate.target, plate.x, row);
  for (const RibbonPiece& piece : pieces)
    plate.picture.path(line_path(piece.around), std::string{texture(piece.kind)} + " edge");
  for (const RibbonPiece& piece : pieces)
    draw_kind_name(plate, row, piece.kind, {piece.name_from, piece.name_to});
  if (plate.names_above() || pieces.empty()) return;
  plate.picture.text({plate.plot_right() + 8.0, row.top + plate.layout.small * 0.9}, "late end", "s");
  plate.picture.text({plate.plot_right() + 8.0, row.bottom()}, "early end", "s");
}

}  // namespace soilclock::report
