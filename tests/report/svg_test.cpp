// SPDX-License-Identifier: MIT
// Scales, ticks, paths and the time axis, each alone.
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <cmath>

#include "report/svg/path.hpp"
#include "report/svg/picture.hpp"
#include "report/svg/scale.hpp"
#include "report/svg/time_axis.hpp"

using namespace soilclock;
using namespace soilclock::report;

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

/// How far a point lies from a line through points that runs from left to right.
double height_over(const std::vector<Point>& line, Point point) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (point.x > line[i].x) continue;
    const double share = (point.x - line[i - 1].x) / (line[i].x - line[i - 1].x);
    return std::abs(line[i - 1].y + share * (line[i].y - line[i - 1].y) - point.y);
  }
  return INFINITY;
}

}  // namespace

TEST_CASE("a linear scale maps its ends to its ends, and upside down as well") {
  const LinearScale y{0.0, 100.0, 250.0, 0.0};
  CHECK(y(0.0) == 250.0);
  CHECK(y(100.0) == 0.0);
  CHECK(y(25.0) == Approx(187.5));
  CHECK(y(110.0) == Approx(-25.0));
}

TEST_CASE("ticks are round, cover the values and are not more than asked for") {
  CHECK(round_ticks(41.0, 79.0, 3) == std::vector<double>{40, 60, 80});
  CHECK(round_ticks(0.0, 1.0, 2) == std::vector<double>{0, 0.5, 1});
  CHECK(round_ticks(5.0, 5.0, 4).size() >= 2);
  rc::prop("any range", [] {
    const double low = *rc::gen::inRange(-500, 500);
    const double high = low + *rc::gen::inRange(1, 500);
    const int most = *rc::gen::inRange(2, 8);
    const auto ticks = round_ticks(low, high, most);
    RC_ASSERT(ticks.front() <= low);
    RC_ASSERT(ticks.back() >= high);
    RC_ASSERT(static_cast<int>(ticks.size()) <= most + 1);
  });
}

TEST_CASE("days lie a day apart and outside days can be held at the edge") {
  const DayRange days{make_day(2026, 9, 28), make_day(2026, 11, 2)};
  const TimeScale x{days, 100.0, 450.0};
  CHECK(x(make_day(2026, 9, 28)) == 100.0);
  CHECK(x(make_day(2026, 10, 5)) == 170.0);
  CHECK(x(make_day(2026, 9, 27)) == 90.0);
  CHECK(x.held(make_day(2026, 9, 1)) == 100.0);
  CHECK(x.held(make_day(2027, 9, 1)) == 450.0);
  CHECK(x.shows(make_day(2026, 11, 1)));
  CHECK(!x.shows(make_day(2026, 11, 2)));
}

TEST_CASE("months begin on the first and weeks on Monday") {
  const DayRange days{make_day(2026, 12, 30), make_day(2027, 2, 2)};
  CHECK(month_starts(days) == std::vector<Day>{make_day(2027, 1, 1), make_day(2027, 2, 1)});
  CHECK(mondays(days) == std::vector<Day>{make_day(2027, 1, 4), make_day(2027, 1, 11), make_day(2027, 1, 18),
                                          make_day(2027, 1, 25), make_day(2027, 2, 1)});
}

TEST_CASE("the time axis names months and the year after January") {
  Picture picture{400, 40, "plain", {"p", "a title", "a description"}};
  draw_time_axis(picture, TimeScale{{make_day(2026, 11, 23), make_day(2027, 2, 8)}, 0.0, 400.0}, 10.0, 12.0);
  const std::string svg = picture.finish();
  CHECK(count_of(svg, ">Dec<") == 1);
  CHECK(count_of(svg, ">Jan 2027<") == 1);
  CHECK(count_of(svg, "v8") == 3);   // first of December, January, February
  CHECK(count_of(svg, "v3") == 11);  // Mondays
}

TEST_CASE("a simplified line keeps its ends and stays within its tolerance") {
  rc::prop("any line", [] {
    std::vector<Point> points;
    const auto heights = *rc::gen::container<std::vector<int>>(40, rc::gen::inRange(0, 200));
    for (std::size_t i = 0; i < heights.size(); ++i)
      points.push_back({static_cast<double>(i), static_cast<double>(heights[i])});
    const double tolerance = *rc::gen::inRange(0, 20);
    const auto fewer = simplified(points, tolerance);
    RC_ASSERT(fewer.front().y == points.front().y);
    RC_ASSERT(fewer.back().y == points.back().y);
    for (const Point& point : points) {
      // The distance at right angles is at most the tolerance; straight up it is longer by the slope.
      RC_ASSERT(fewer.size() == points.size() || height_over(fewer, point) <= tolerance * 201.0);
    }
  });
  std::vector<Point> straight;
  for (int i = 0; i < 50; ++i) straight.push_back({i * 2.0, i * 3.0});
  CHECK(simplified(straight, 0.01).size() == 2);
  straight[25].y += 1.0;
  CHECK(simplified(straight, 0.4).size() == 5);
}

TEST_CASE("steps of a path do not add up their rounding") {
  std::vector<Point> points;
  for (int i = 0; i < 200; ++i) points.push_back({i * 0.333, 0.0});
  const std::string path = line_path(points);
  double x = 0.0;
  std::istringstream steps{path.substr(path.find('l') + 1)};
  for (double dx = 0.0, dy = 0.0; steps >> dx >> dy;) x += dx;
  CHECK(x == Approx(199 * 0.333).margin(0.06));
}

TEST_CASE("an area runs along one line and back along the other") {
  const std::vector<Point> upper{{0, 0}, {10, 0}};
  const std::vector<Point> lower{{0, 5}, {10, 5}};
  CHECK(area_path(upper, lower) == "M0 0l10 0 0 5-10 0z");
  CHECK(area_path({}, {}).empty());
  CHECK(line_path(std::vector<Point>{{1, 1}}).empty());
}

TEST_CASE("a pen writes steps, no letter twice for a line, and no blank or zero that can be left out") {
  PathPen pen;
  pen.move_to({1, 2});
  pen.line_to({1.5, 1.5});
  pen.line_to({3, 4});
  pen.across_to(5);
  pen.down_to(3.96);
  pen.close();
  pen.move_to({2, 2});
  pen.line_to({2, 1});
  CHECK(pen.written() == "M1 2l.5-.5 1.5 2.5h2v0zm1 0l0-1");
  CHECK(strokes_path(std::vector<double>{10, 12.5}, 3, 8) == "M10 3v5m2.5-5v5");
  CHECK(strokes_path({}, 3, 8).empty());
}

TEST_CASE("texts of one line stand in one element, and a part is drawn again by its name") {
  Picture picture{100, 50, "plain", {"p", "Title", "Words"}};
  picture.begin_part("axis");
  picture.texts(7.4, {{10, "1"}, {20.6, "2"}}, "b", Anchor::middle);
  picture.end_part();
  picture.texts(9, {}, "b", Anchor::middle);
  picture.again("axis", 12.5);
  const std::string svg = picture.finish();
  CHECK(count_of(svg,
                 "<g id=\"p-axis\"><text class=\"b m\" y=\"7\"><tspan x=\"10\">1</tspan><tspan "
                 "x=\"21\">2</tspan></text>") == 1);
  CHECK(count_of(svg, "<use href=\"#p-axis\" y=\"12.5\"/>") == 1);
  CHECK(count_of(svg, "<text") == 1);
}

TEST_CASE("a picture has a role, a title and a description, and escapes what it writes") {
  Picture picture{100, 50, "plain", {"p-1", "Title <1>", "Words & more"}};
  picture.text({1, 2}, "a < b", "s", Anchor::end);
  picture.path("", "nothing");
  const std::string svg = picture.finish();
  CHECK(svg.starts_with(
      "<svg class=\"plain\" viewBox=\"0 0 100 50\" role=\"img\" aria-labelledby=\"p-1-title p-1-desc\">"));
  CHECK(count_of(svg, "<title id=\"p-1-title\">Title &lt;1&gt;</title>") == 1);
  CHECK(count_of(svg, "<desc id=\"p-1-desc\">Words &amp; more</desc>") == 1);
  CHECK(count_of(svg, "<text class=\"s e\" x=\"1\" y=\"2\">a &lt; b</text>") == 1);
  CHECK(count_of(svg, "nothing") == 0);
  CHECK(svg.ends_with("</svg>\n"));
}
