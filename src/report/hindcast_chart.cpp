// SPDX-License-Identifier: MIT
#include "report/hindcast_chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/text.hpp"
#include "report/markup/escaping.hpp"
#include "report/svg/path.hpp"

namespace soilclock::report {

namespace {

constexpr double side = 300.0;  // of the square plot
constexpr double left = 70.0;
constexpr double top = 66.0;
constexpr double legend_width = 190.0;
constexpr double panel_width = left + side + legend_width + 20.0;
constexpr double panel_height = top + side + 70.0;
constexpr std::size_t heading_limit = 74;  // characters that fit over a panel

/// Dash and gray of a line; marks differ as well, so that a copy in black and white can be read.
struct Look {
  const char* dash;
  const char* color;
};
constexpr std::array<Look, 6> looks{{{"none", "#000000"},
                                     {"7 3", "#303030"},
                                     {"2 3", "#000000"},
                                     {"9 3 2 3", "#505050"},
                                     {"14 4", "#202020"},
                                     {"4 6", "#606060"}}};

Point at(double issued, double came) { return {left + side * issued, top + side * (1.0 - came)}; }

std::string words(double x, double y, const std::string& text, const char* anchor = "start", int size = 12,
                  const char* extra = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\" font-size=\"{}\"{}>{}</text>\n", x,
                     y, anchor, size, extra, escaped(text));
}

/// A mark of its own for each line.
std::string mark(std::size_t line, Point p, const char* color) {
  constexpr double r = 4.0;
  switch (line % looks.size()) {
    case 0:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\" fill=\"{}\"/>\n", p.x, p.y, r, color);
    case 1:
      return fmt::format(
          "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{}\" height=\"{}\" fill=\"#ffffff\" stroke=\"{}\"/>\n",
          p.x - r, p.y - r, 2 * r, 2 * r, color);
    case 2:
      return fmt::format("<path d=\"M{:.1f} {:.1f}l{} {}h-{}z\" fill=\"{}\"/>\n", p.x, p.y - r - 1, r + 1,
                         2 * r, 2 * r + 2, color);
    case 3:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\" fill=\"#ffffff\" stroke=\"{}\"/>\n",
                         p.x, p.y, r, color);
    case 4:
      return fmt::format("<path d=\"M{0:.1f} {1:.1f}l{2} {2}l-{2} {2}l-{2} -{2}z\" fill=\"{3}\"/>\n", p.x,
                         p.y - r - 1, r + 1, color);
    default:
      return fmt::format("<path d=\"M{0:.1f} {1:.1f}h{2}m-{3} -{3}v{2}\" fill=\"none\" stroke=\"{4}\"/>\n",
                         p.x - r, p.y, 2 * r, r, color);
  }
}

/// The region in which the lines of honest forecasts stay four times in five, point by point.
std::string chance_band(int fewest) {
  constexpr double z = 1.2815516;  // normal quantile of 0.9
  std::string upper;
  std::string lower;
  for (int i = 0; i <= 40; ++i) {
    const double p = i / 40.0;
    const double spread = z * std::sqrt(p * (1.0 - p) / fewest);
    const Point high = at(p, std::min(1.0, p + spread));
    const Point low = at(p, std::max(0.0, p - spread));
    upper += fmt::format("{:.1f},{:.1f} ", high.x, high.y);
    lower.insert(0, fmt::format("{:.1f},{:.1f} ", low.x, low.y));
  }
  return "<polygon points=\"" + upper + lower + "\" fill=\"#e4e4e4\"/>\n";
}

std::string axes() {
  std::string svg =
      fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#000000\"/>\n",
                  left, top, side, side);
  for (int percent = 0; percent <= 100; percent += 20) {
    const Point below = at(percent / 100.0, 0.0);
    const Point beside = at(0.0, percent / 100.0);
    svg += fmt::format("<path d=\"M{:.1f} {:.1f}v5M{:.1f} {:.1f}h-5\" stroke=\"#000000\"/>\n", below.x,
                       below.y, beside.x, beside.y);
    svg += words(below.x, below.y + 19, fmt::format("{}", percent), "middle");
    svg += words(beside.x - 9, beside.y + 4, fmt::format("{}", percent), "end");
  }
  const Point from = at(0, 0);
  const Point to = at(1, 1);
  svg += fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"#808080\"/>\n", from.x, from.y, to.x,
                     to.y);
  svg += words(left + side / 2, top + side + 42, "chance given that the day has come by then, percent",
               "middle");
  const double x = left - 42;
  const double y = top + side / 2;
  return svg + words(x, y, "how often it had come, percent", "middle", 12,
                     fmt::format(" transform=\"rotate(-90 {:.1f} {:.1f})\"", x, y).c_str());
}

std::string line_of(const advice::EventHindcast& event, std::size_t number) {
  const advice::HindcastScores& scores = event.scores[number];
  const Look& look = looks[number % looks.size()];
  std::vector<advice::ProbabilitySteps> steps;
  for (const advice::HindcastCase& one : cases_of(event, scores.issue_date)) steps.push_back(one.steps);
  std::string path;
  std::string marks;
  for (const double issued : reliability_steps) {
    const Point p = at(issued, advice::observed_share(steps, issued));
    path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", p.x, p.y);
    marks += mark(number, p, look.color);
  }
  const double x = left + side + 18;
  const double y = top + 12 + 22.0 * static_cast<double>(number);
  const std::string stroke = fmt::format(
      "fill=\"none\" stroke=\"{}\" stroke-width=\"1.6\" stroke-dasharray=\"{}\"", look.color, look.dash);
  return fmt::format("<path d=\"{}\" {}/>\n", path, stroke) + marks +
         fmt::format("<path d=\"M{:.1f} {:.1f}h36\" {}/>\n", x, y, stroke) +
         mark(number, {x + 18, y}, look.color) +
         words(x + 44, y + 4, fmt::format("{}: {} seasons", calendar_words(scores.issue_date), scores.cases));
}

std::string panel(const SiteHindcast& site, const advice::EventHindcast& event) {
  std::string svg =
      words(left, 24, printable(site.name, heading_limit), "start", 15, " font-weight=\"bold\"");
  svg += words(left, 46, printable("The day " + event.event.words, heading_limit), "start", 13);
  int fewest = event.scores.front().cases;
  for (const advice::HindcastScores& scores : event.scores) fewest = std::min(fewest, scores.cases);
  svg += chance_band(fewest) + axes();
  for (std::size_t i = 0; i < event.scores.size(); ++i) svg += line_of(event, i);
  const double x = left + side + 18;
  const double y = top + 12 + 22.0 * static_cast<double>(event.scores.size());
  svg += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"36\" height=\"12\" fill=\"#e4e4e4\"/>\n", x,
                     y - 6);
  svg += words(x + 44, y + 4, fmt::format("chance alone ({} seasons)", fewest));
  svg += words(left + 8, top + 18, "came earlier than forecast", "start", 11, " fill=\"#505050\"");
  return svg +
         words(left + side - 8, top + side - 10, "came later than forecast", "end", 11, " fill=\"#505050\"");
}

}  // namespace

std::string hindcast_chart(const HindcastReport& report) {
  std::string body;
  int panels = 0;
  for (const SiteHindcast& site : report.sites) {
    for (const advice::EventHindcast& event : site.events) {
      if (event.scores.empty()) continue;
      body += fmt::format("<g transform=\"translate(0 {:.0f})\">\n", panels * panel_height) +
              panel(site, event) + "</g>\n";
      ++panels;
    }
  }
  if (panels == 0) {
    body = words(left, 40, "No season could be judged.");
    panels = 1;
  }
  return fmt::format(
             "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.0f}\" height=\"{1:.0f}\" viewBox=\"0 0 "
             "{0:.0f} {1:.0f}\" "
             "font-family=\"sans-serif\" role=\"img\">\n<title>How often what was forecast came "
             "true</title>\n"
             "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n",
             panel_width, panels * panel_height) +
         body + "</svg>\n";
}

}  // namespace soilclock::report
