// SPDX-License-Identifier: MIT
#include "report/svg/path.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/markup/markup.hpp"

namespace soilclock::report {

namespace {

double distance_from_line(Point p, Point a, Point b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length == 0.0) return std::hypot(p.x - a.x, p.y - a.y);
  return std::abs((b.x - a.x) * (a.y - p.y) - (a.x - p.x) * (b.y - a.y)) / length;
}

double tenths(double value) { return std::round(value * 10.0) / 10.0; }

/// ".5" for "0.5" and "-.5" for "-0.5".
std::string short_number(double value) {
  std::string text = drawn(value);
  const std::size_t digits = text.starts_with('-') ? 1 : 0;
  if (text.compare(digits, 2, "0.") == 0) text.erase(digits, 1);
  return text;
}

}  // namespace

void PathPen::command(char letter) {
  // A line goes on without its letter.
  const auto last = path_.find_last_not_of("0123456789.- ");
  if (letter == 'l' && last != std::string::npos && path_[last] == 'l') return;
  path_ += letter;
}

void PathPen::number(double value) {
  const std::string text = short_number(value);
  const bool after_number = !path_.empty() && (path_.back() >= '0' && path_.back() <= '9');
  if (after_number && !text.starts_with('-')) path_ += ' ';
  path_ += text;
}

void PathPen::move_to(Point to) {
  const Point next{tenths(to.x), tenths(to.y)};
  command(path_.empty() ? 'M' : 'm');
  number(next.x - at_.x);
  number(next.y - at_.y);
  at_ = begun_ = next;
}

void PathPen::line_to(Point to) {
  const Point next{tenths(to.x), tenths(to.y)};
  command('l');
  number(next.x - at_.x);
  number(next.y - at_.y);
  at_ = next;
}

void PathPen::across_to(double x) {
  command('h');
  number(tenths(x) - at_.x);
  at_.x = tenths(x);
}

void PathPen::down_to(double y) {
  command('v');
  number(tenths(y) - at_.y);
  at_.y = tenths(y);
}

void PathPen::close() {
  command('z');
  at_ = begun_;
}

std::vector<Point> simplified(std::span<const Point> points, double tolerance) {
  if (points.size() < 3) return {points.begin(), points.end()};
  std::vector<bool> stays(points.size(), false);
  stays.front() = stays.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> parts{{0, points.size() - 1}};
  while (!parts.empty()) {
    const auto [first, last] = parts.back();
    parts.pop_back();
    std::size_t farthest = first;
    double distance = tolerance;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double d = distance_from_line(points[i], points[first], points[last]);
      if (d <= distance) continue;
      distance = d;
      farthest = i;
    }
    if (farthest == first) continue;
    stays[farthest] = true;
    parts.emplace_back(first, farthest);
    parts.emplace_back(farthest, last);
  }
  std::vector<Point> result;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (stays[i]) result.push_back(points[i]);
  }
  return result;
}

std::string line_path(std::span<const Point> points) {
  if (points.size() < 2) return "";
  PathPen pen;
  pen.move_to(points.front());
  for (const Point& point : points.subspan(1)) pen.line_to(point);
  return pen.written();
}

std::string strokes_path(std::span<const double> places, double from, double to) {
  PathPen pen;
  for (const double x : places) {
    pen.move_to({x, from});
    pen.down_to(to);
  }
  return pen.written();
}

std::string area_path(std::span<const Point> upper, std::span<const Point> lower) {
  std::vector<Point> around{upper.begin(), upper.end()};
  around.insert(around.end(), lower.rbegin(), lower.rend());
  const std::string path = line_path(around);
  return path.empty() ? path : path + "z";
}

}  // namespace soilclock::report
