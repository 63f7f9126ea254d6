// SPDX-License-Identifier: MIT
// Lines and areas through many points, written short.
#pragma once

#include <span>
#include <string>
#include <vector>

namespace soilclock::report {

struct Point {
  double x = 0.0;
  double y = 0.0;
};

/// Writes path data as steps from place to place. Places are rounded to a tenth first, so that rounding does
/// not add up, and nothing is written that a reader of path data does not need.
class PathPen {
 public:
  /// Begins a stroke.
  void move_to(Point to);
  void line_to(Point to);
  /// To another x or y; the other one stays.
  void across_to(double x);
  void down_to(double y);
  /// Back to where the stroke began.
  void close();
  const std::string& written() const { return path_; }

 private:
  void command(char letter);
  void number(double value);

  std::string path_;
  Point at_;
  Point begun_;
};

/// The points without those that lie within `tolerance` of the line through their neighbors (Douglas and
/// Peucker); first and last stay.
std::vector<Point> simplified(std::span<const Point> points, double tolerance);

/// Path data of a line through the points: "M0 10l5-2...". Empty for fewer than two points.
std::string line_path(std::span<const Point> points);

/// Path data of upright strokes from one height to another, at places from left to right.
std::string strokes_path(std::span<const double> places, double from, double to);

/// Path data of the area between two lines that both run from left to right.
std::string area_path(std::span<const Point> upper, std::span<const Point> lower);

}  // namespace soilclock::report
