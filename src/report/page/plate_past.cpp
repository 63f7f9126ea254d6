// SPDX-License-Identifier: MIT
// Rows of dates: when half were up in past seasons and this one, and what was noted.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "advice/answer/words.hpp"
#include "report/page/plate_parts.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonSummary;

const advice::Milestone* half_up_of(const advice::TargetAnswer& target) {
  for (const advice::Milestone& milestone : target.milestones) {
    if (milestone.percent == 50 && milestone.date.middle) return &milestone;
  }
  return nullptr;
}

std::vector<const SeasonSummary*> dated_seasons(const advice::TargetAnswer& target) {
  std::vector<const SeasonSummary*> seasons;
  for (const SeasonSummary& season : target.past_seasons) {
    if (season.reached(50)) seasons.push_back(&season);
  }
  return seasons;
}

double season_step(const advice::TargetAnswer& target, const PlateLayout& layout) {
  const auto count = static_cast<double>(dated_seasons(target).size());
  return count == 0.0 ? 0.0 : std::min(0.4 * layout.text, 4.0 * layout.text / count);
}

std::string this_season_words(const Plate& plate, const advice::Milestone& milestone) {
  const DateBand& half = milestone.date;
  std::string text = advice::day_words(milestone.date, milestone.either);
  if (half.low)
    text += fmt::format(" ({} to {})", short_date(*half.low), half.high ? short_date(*half.high) : "later");
  const auto& usual = plate.target.usual;
  if (!usual || !usual->days_against_usual || !milestone.either.empty()) return text;
  const int days = *usual->days_against_usual;
  if (days == 0) return text + ", as usual";
  return fmt::format("{}, {} day{} {} than usual", text, std::abs(days), std::abs(days) == 1 ? "" : "s",
                     days > 0 ? "later" : "earlier");
}

/// A dot a season at its own day of the season, the newest lowest.
void draw_past_seasons(const Plate& plate, const PlateRow& row) {
  const auto seasons = dated_seasons(plate.target);
  if (seasons.empty()) return;
  const double step = season_step(plate.target, plate.layout);
  const double small = plate.layout.small;
  std::vector<double> places;
  PathPen dots;
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    const Day day = plate.target.season_start + (*seasons[i]->reached(50) - seasons[i]->season_start);
    const Point at{plate.x.held(day), row.top + step * (static_cast<double>(i) + 0.5)};
    places.push_back(at.x);
    if (!plate.x.shows(day)) continue;
    dots.move_to(at);
    dots.across_to(at.x);
  }
  plate.picture.path(dots.written(), "dots");
  const double bottom = row.top + step * static_cast<double>(seasons.size());
  const double left = *std::min_element(places.begin(), places.end()) - 0.8 * small;
  if (left - 2.5 * small > plate.plot_left()) {
    const auto year = [](const SeasonSummary& season) {
      return fmt::format("{}", civil(season.season_start).year);
    };
    plate.picture.text({left, row.top + 0.7 * small}, year(*seasons.front()), "s halo", Anchor::end);
    if (seasons.size() > 2)
      plate.picture.text({left, bottom + 0.1 * small}, year(*seasons.back()), "s halo", Anchor::end);
  }
  const auto& usual = plate.target.usual;
  if (!usual || !usual->half_up || !plate.x.shows(*usual->half_up)) return;
  const double x = plate.x(*usual->half_up);
  plate.picture.line({x, row.top}, {x, bottom}, "dotted");
  const double right = *std::max_element(places.begin(), places.end()) + 0.8 * small;
  plate.picture.text({right, row.top + 0.7 * small}, "usually " + short_date(*usual->half_up), "s halo");
}

void draw_this_season(const Plate& plate, const advice::Milestone& milestone, double y) {
  const DateBand& half = milestone.date;
  const double size = plate.layout.text;
  const double from = plate.x.held(half.low.value_or(*half.middle));
  const double to = plate.x.held(half.high.value_or(plate.x.days().end()));
  plate.picture.line({from, y}, {to, y}, "bar");
  for (const double end : {from, to}) plate.picture.line({end, y - 0.3 * size}, {end, y + 0.3 * size}, "bar");
  const double r = 0.4 * size;
  for (const Day day : advice::named_days(milestone.date, milestone.either)) {
    if (!plate.x.shows(day)) continue;
    const double x = plate.x(day);
    plate.picture.path(
        line_path(std::vector<Point>{{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}, {x, y - r}}), "mark");
  }
  // Right of the bar with as many words as fit, else left of it, else below.
  std::string words = "this season " + this_season_words(plate, milestone);
  const double room = plate.layout.width - to - 8.0;
  if (text_width(words, size) > room) words = this_season_words(plate, milestone);
  const double width = text_width(words, size);
  if (width <= room)
    plate.picture.text({to + 8.0, y + 0.35 * size}, words, "halo");
  else if (from - 8.0 - width >= plate.plot_left() - 2.0)
    plate.picture.text({from - 8.0, y + 0.35 * size}, words, "halo", Anchor::end);
  else
    plate.picture.text({plate.plot_right() - 4.0, y + 1.5 * size}, words, "halo", Anchor::end);
}

/// Filled where something was put down or counted, open where it was only looked at.
std::string_view note_mark(advice::NoteKind kind) {
  const bool open = kind == advice::NoteKind::reading || kind == advice::NoteKind::turf_check;
  return open ? "mark-open" : "mark";
}

/// A square for what was put down, a triangle for what was seen.
std::vector<Point> note_shape(advice::NoteKind kind, double x, double y, double r) {
  if (kind == advice::NoteKind::application)
    return {{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}, {x - r, y - r}};
  return {{x - r, y - r}, {x + r, y - r}, {x, y + r}, {x - r, y - r}};
}

}  // namespace

double half_up_height(const advice::TargetAnswer& target, const PlateLayout& layout) {
  const auto seasons = static_cast<double>(dated_seasons(target).size());
  if (half_up_of(target) == nullptr && seasons == 0.0) return 0.0;
  const double words = layout.left == 0.0 ? 3.0 * layout.text : 1.9 * layout.text;
  return seasons * season_step(target, layout) + words;
}

void draw_half_up(const Plate& plate, const PlateRow& row) {
  if (row.height == 0.0) return;
  draw_row_name(plate, row, "Half up", plate.target.past_seasons.empty() ? "" : "a dot a season");
  draw_past_seasons(plate, row);
  const auto seasons = static_cast<double>(dated_seasons(plate.target).size());
  const advice::Milestone* half = half_up_of(plate.target);
  if (half != nullptr)
    draw_this_season(plate, *half,
                     row.top + seasons * season_step(plate.target, plate.layout) + 0.9 * plate.layout.text);
}

void draw_notes(const Plate& plate, const PlateRow& row) {
  draw_row_name(plate, row, "Your notes", "");
  plate.picture.line({plate.plot_left(), row.bottom()}, {plate.plot_right(), row.bottom()}, "faint");
  const double r = 0.35 * plate.layout.text;
  const double y = row.bottom() - r - 1.0;
  double free_from = plate.plot_left();
  const std::vector<advice::NoteShown>& notes = plate.target.notes;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (!plate.x.shows(notes[i].day)) continue;
    const double x = plate.x(notes[i].day);
    plate.picture.path(line_path(note_shape(notes[i].kind, x, y, r)), note_mark(notes[i].kind));
    const double next = i + 1 < notes.size() ? plate.x.held(notes[i + 1].day) - r : plate.layout.width;
    const std::string words = short_date(notes[i].day) + ": " + notes[i].text;
    const double width = text_width(words, plate.layout.small);
    // Right of its mark, else left of it, else only in the list below.
    if (x + r + 4.0 + width <= next) {
      plate.picture.text({x + r + 4.0, row.bottom() - 4.0}, words, "s halo");
      free_from = x + r + 4.0 + width;
    } else if (x - r - 4.0 - width >= free_from) {
      plate.picture.text({x - r - 4.0, row.bottom() - 4.0}, words, "s halo", Anchor::end);
      free_from = x + r;
    } else {
      free_from = x + r;
    }
  }
}

}  // namespace soilclock::report
