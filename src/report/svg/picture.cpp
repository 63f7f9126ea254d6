// SPDX-License-Identifier: MIT
#include "report/svg/picture.hpp"

#include <fmt/format.h>

#include <cmath>

namespace soilclock::report {

namespace {

Attribute class_of(std::string_view css_class) { return {css_class.empty() ? "" : "class", css_class}; }

/// Characters of UTF-8, not bytes.
std::size_t characters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return count;
}

std::string anchored(std::string_view css_class, Anchor anchor) {
  std::string classes{css_class};
  if (anchor == Anchor::start) return classes;
  if (!classes.empty()) classes += ' ';
  return classes + (anchor == Anchor::middle ? "m" : "e");
}

}  // namespace

double text_width(std::string_view text, double size) {
  constexpr double mean_width = 0.54;  // of digits and lower case in the faces of the style sheet
  return mean_width * size * static_cast<double>(characters(text));
}

Picture::Picture(double width, double height, std::string_view css_class, const PictureWords& words)
    : id_{words.id} {
  out_.open("svg", {{"class", css_class},
                    {"viewBox", fmt::format("0 0 {} {}", drawn(width), drawn(height))},
                    {"role", "img"},
                    {"aria-labelledby", fmt::format("{0}-title {0}-desc", words.id)}});
  out_.element("title", words.title, {{"id", words.id + "-title"}});
  out_.element("desc", words.description, {{"id", words.id + "-desc"}});
}

void Picture::line(Point from, Point to, std::string_view css_class) {
  out_.leaf("path",
            {class_of(css_class),
             {"d", fmt::format("M{} {}L{} {}", drawn(from.x), drawn(from.y), drawn(to.x), drawn(to.y))}});
}

void Picture::rect(Point corner, double width, double height, std::string_view css_class) {
  out_.leaf("rect",
            {class_of(css_class), {"x", corner.x}, {"y", corner.y}, {"width", width}, {"height", height}});
}

void Picture::circle(Point center, double radius, std::string_view css_class) {
  out_.leaf("circle", {class_of(css_class), {"cx", center.x}, {"cy", center.y}, {"r", radius}});
}

void Picture::path(std::string_view data, std::string_view css_class) {
  if (!data.empty()) out_.leaf("path", {class_of(css_class), {"d", data}});
}

void Picture::text(Point at, std::string_view text, std::string_view css_class, Anchor anchor) {
  out_.element("text", text,
               {class_of(anchored(css_class, anchor)), {"x", std::round(at.x)}, {"y", std::round(at.y)}});
}

void Picture::texts(double y, const std::vector<PlacedText>& texts, std::string_view css_class,
                    Anchor anchor) {
  if (texts.empty()) return;
  out_.open("text", {class_of(anchored(css_class, anchor)), {"y", std::round(y)}});
  for (const PlacedText& text : texts) out_.element("tspan", text.text, {{"x", std::round(text.x)}});
  out_.close();
}

void Picture::begin_part(std::string_view name) { out_.open("g", {{"id", fmt::format("{}-{}", id_, name)}}); }

void Picture::end_part() { out_.close(); }

void Picture::again(std::string_view name, double down) {
  out_.leaf("use", {{"href", fmt::format("#{}-{}", id_, name)}, {"y", down}});
}

void Picture::shape(std::string_view id, Point at) {
  out_.leaf("use", {{"href", fmt::format("#{}", id)}, {"x", at.x}, {"y", at.y}});
}

std::string Picture::finish() {
  out_.close();
  return out_.written();
}

}  // namespace soilclock::report
