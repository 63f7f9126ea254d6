// SPDX-License-Identifier: MIT
// What every page begins and ends with.
#include <fmt/format.h>

#include "core/text.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/style_sheet.hpp"

namespace soilclock::report {

std::string long_date(Day day) { return weekday_name(day) + ", " + short_date(day, true); }

namespace {

/// Nothing from outside, and inside only what has these hashes.
std::string policy(const PageExtras& extras) {
  std::string text = fmt::format("default-src 'none'; style-src '{}'", style_sheet_hash());
  if (!extras.style.empty()) text += fmt::format(" '{}'", extras.style_hash);
  if (!extras.script_hash.empty()) text += fmt::format("; script-src '{}'", extras.script_hash);
  return text;
}

}  // namespace

std::string page_start(const std::string& title, const PageExtras& extras) {
  Markup head;
  head.leaf("meta", {{"charset", "utf-8"}});
  head.leaf("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", policy(extras)}});
  head.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  head.leaf("meta", {{"name", "color-scheme"}, {"content", "light"}});
  head.element("title", title);
  // The style sheet is our own file and holds no "</"; its hash is that of exactly these bytes.
  const std::string more =
      extras.style.empty() ? std::string{} : fmt::format("<style>{}</style>\n", extras.style);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n{}<style>{}</style>\n{}</head>\n<body{}>\n",
      head.written(), style_sheet(), more, extras.script_hash.empty() ? "" : " class=\"list\"");
}

void write_grasses(Markup& page, const advice::CourseSummary& course, const std::string& start) {
  for (const advice::GrassOnAreas& grass : course.grasses)
    page.element("p",
                 fmt::format("{}{}: {}", start, grass.title.empty() ? "all grasses" : lowered(grass.title),
                             grass.sentence));
}

std::string page_end() { return "</body>\n</html>\n"; }

void write_textures(Markup& page) {
  page.open("svg", {{"class", "textures"}, {"aria-hidden", "true"}, {"width", 0}, {"height", 0}});
  page.open("defs");
  const auto pattern = [&](std::string_view id, double width, double height) {
    page.open("pattern",
              {{"id", id}, {"width", width}, {"height", height}, {"patternUnits", "userSpaceOnUse"}});
  };
  const auto seeds = [&](double width) {
    page.leaf("rect", {{"width", width}, {"height", 8}, {"class", "straw"}});
    page.leaf("path", {{"class", "seed"}, {"d", "M1 2.2h2.4M5.5 6.2h2.4"}});
  };
  pattern("seeds", 9, 8);
  seeds(9);
  page.close();
  pattern("both", 9, 8);
  seeds(9);
  page.leaf("rect", {{"x", 4.5}, {"width", 4.5}, {"height", 8}, {"class", "young"}});
  page.close();
  page.close();
  page.close();
}

}  // namespace soilclock::report
