// SPDX-License-Identifier: MIT
// Writes the elements of HTML pages and SVG pictures. Every text and attribute goes through it, so that none
// can be taken for markup.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace soilclock::report {

/// A number of a drawing with one decimal at most: "12", "12.5", never "-0".
std::string drawn(double value);

/// One attribute of an element; an empty name writes nothing.
struct Attribute {
  std::string_view name;
  std::string value;
  Attribute(std::string_view attribute, std::string_view text) : name{attribute}, value{text} {}
  Attribute(std::string_view attribute, double number) : name{attribute}, value{drawn(number)} {}
};
using Attributes = std::initializer_list<Attribute>;

/// Elements written one after another. Names of tags and attributes are the program's own and are not
/// escaped.
class Markup {
 public:
  void open(std::string_view tag, Attributes attributes = {});
  /// Closes the element opened last.
  void close();
  /// An element without content.
  void leaf(std::string_view tag, Attributes attributes = {});
  void text(std::string_view text);
  /// An element that holds nothing but text.
  void element(std::string_view tag, std::string_view text, Attributes attributes = {});
  /// Markup already written by this class.
  void add(std::string_view markup) { out_ += markup; }
  /// All that was written; every element must be closed.
  const std::string& written() const { return out_; }

 private:
  void start(std::string_view tag, Attributes attributes);

  std::string out_;
  std::vector<std::string> open_;
};

}  // namespace soilclock::report
