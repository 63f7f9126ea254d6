// SPDX-License-Identifier: MIT
#include "report/page/plate_parts.hpp"

#include <algorithm>

namespace soilclock::report {

namespace {

/// The first Monday worth drawing: two weeks before seedlings may be up, three before today at the latest.
Day first_monday(const advice::TargetAnswer& target, Day on) {
  Day first = monday_of(on) - 3 * one_week;
  for (const advice::SeasonDay& row : target.season) {
    if (row.emerged_percent.high < 1.0) continue;
    first = std::min(first, monday_of(row.day) - 2 * one_week);
    break;
  }
  return std::max(first, target.season.front().day);
}

}  // namespace

std::optional<DayRange> Plate::best_days() const {
  const auto& best = target.decision.best_range;
  if (!best) return std::nullopt;
  return DayRange{best->first, best->last + one_week};
}

DayRange plate_days(const advice::TargetAnswer& target, Day on, const PlateLayout& layout) {
  const Day first = first_monday(target, on);
  const Day season_end = target.season.back().day + Days{1};
  Day last =
      target.weeks.empty() ? monday_of(on) + 8 * one_week : target.weeks.back().week.week_of + one_week;
  last = std::min(last, season_end);
  Day needed = monday_of(on) + layout.weeks_ahead * one_week;
  if (target.decision.best_range) needed = std::max(needed, target.decision.best_range->last + 3 * one_week);
  const Days most = layout.most_weeks * one_week;
  if (last - first > most) last = std::clamp(first + most, std::min(needed, last), last);
  return {std::max(first, last - most), last};
}

void draw_row_name(const Plate& plate, const PlateRow& row, std::string_view name, std::string_view second) {
  const double text = plate.layout.text;
  if (plate.names_above()) {
    plate.picture.text({plate.plot_left(), row.top - 5.0}, name, "b halo");
    if (!second.empty())
      plate.picture.text({plate.plot_left() + text_width(name, text) * 1.1 + 6.0, row.top - 5.0}, second,
                         "s halo");
    return;
  }
  const double x = plate.layout.left - (row.height > 3.0 * text ? 26.0 : 8.0) * text / 13.5;
  const double middle = row.at(0.5) + (second.empty() ? 0.35 * text : -0.1 * text);
  plate.picture.text({x, middle}, name, "b", Anchor::end);
  if (!second.empty()) plate.picture.text({x, middle + 1.1 * text}, second, "s", Anchor::end);
}

void draw_line_name(const Plate& plate, double y, std::string_view name, std::string_view css_class) {
  const double middle = y + 0.35 * plate.layout.small;
  if (plate.layout.right > 0.0)
    plate.picture.text({plate.plot_right() + 8.0, middle}, name, css_class);
  else
    plate.picture.text({plate.plot_right() - 4.0, middle}, name, std::string{css_class} + " halo",
                       Anchor::end);
}

std::vector<double> spread_out(const std::vector<double>& wanted, double gap) {
  std::vector<std::size_t> order(wanted.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return wanted[a] < wanted[b]; });
  std::vector<double> placed = wanted;
  // Each run of labels that would overlap is centered on where its members want to stand.
  std::size_t first = 0;
  while (first < order.size()) {
    std::size_t end = first + 1;
    double sum = wanted[order[first]];
    const auto top = [&] {
      const auto count = static_cast<double>(end - first);
      return sum / count - 0.5 * gap * (count - 1.0);
    };
    while (end < order.size() && wanted[order[end]] < top() + gap * static_cast<double>(end - first))
      sum += wanted[order[end++]];
    for (std::size_t i = first; i < end; ++i) placed[order[i]] = top() + gap * static_cast<double>(i - first);
    first = end;
  }
  return placed;
}

Day outlook_start(const advice::TargetAnswer& target) {
  for (const advice::SeasonDay& row : target.season) {
    if (row.origin == "outlook") return row.day;
  }
  return target.season.back().day + Days{1};
}

std::string_view texture(treatment::Kind kind) {
  switch (kind) {
    case treatment::Kind::pre:
      return "seeds";
    case treatment::Kind::pre_post:
      return "both";
    case treatment::Kind::post:
      break;
  }
  return "young";
}

}  // namespace soilclock::report
