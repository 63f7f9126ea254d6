// SPDX-License-Identifier: MIT
#include "report/markup/markup.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/markup/escaping.hpp"

namespace soilclock::report {

namespace {

/// Elements inside a sentence, where a line end would be read as a blank, and the cells of a row.
bool in_line(std::string_view tag) {
  static constexpr std::array tags{"a", "b", "small", "span", "strong", "td", "tspan"};
  return std::find(tags.begin(), tags.end(), tag) != tags.end();
}

}  // namespace

std::string drawn(double value) {
  const double rounded_value = std::round(value * 10.0) / 10.0;
  return fmt::format("{}", rounded_value == 0.0 ? 0.0 : rounded_value);
}

void Markup::start(std::string_view tag, Attributes attributes) {
  out_ += '<';
  out_ += tag;
  for (const Attribute& attribute : attributes) {
    if (attribute.name.empty()) continue;
    out_ += ' ';
    out_ += attribute.name;
    out_ += "=\"";
    out_ += escaped(attribute.value);
    out_ += '"';
  }
}

void Markup::open(std::string_view tag, Attributes attributes) {
  start(tag, attributes);
  out_ += ">";
  open_.emplace_back(tag);
}

void Markup::close() {
  out_ += "</" + open_.back() + ">";
  if (!in_line(open_.back())) out_ += '\n';
  open_.pop_back();
}

void Markup::leaf(std::string_view tag, Attributes attributes) {
  start(tag, attributes);
  out_ += "/>\n";
}

void Markup::text(std::string_view text) { out_ += escaped(text); }

void Markup::element(std::string_view tag, std::string_view text, Attributes attributes) {
  open(tag, attributes);
  this->text(text);
  close();
}

}  // namespace soilclock::report
