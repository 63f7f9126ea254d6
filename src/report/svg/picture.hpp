// SPDX-License-Identifier: MIT
// One SVG picture inside a page. How its parts look is said by the classes of the page's style sheet.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "report/markup/markup.hpp"
#include "report/svg/path.hpp"

namespace soilclock::report {

/// What a picture is called and what it says to those who do not see it.
struct PictureWords {
  std::string id;  ///< unique in the page; letters, digits and hyphens
  std::string title;
  std::string description;
};

/// Where a text is held: at its start, its middle (class "m") or its end (class "e").
enum class Anchor { start, middle, end };

/// About how wide a text is drawn in a sans-serif face, in units of its size; for finding room only.
double text_width(std::string_view text, double size);

/// A text of a line of texts.
struct PlacedText {
  double x = 0.0;
  std::string text;
};

class Picture {
 public:
  /// Units are those of the view box; the page decides how large it is shown.
  Picture(double width, double height, std::string_view css_class, const PictureWords& words);

  void line(Point from, Point to, std::string_view css_class);
  void rect(Point corner, double width, double height, std::string_view css_class);
  void circle(Point center, double radius, std::string_view css_class);
  /// Path data; empty data draws nothing.
  void path(std::string_view data, std::string_view css_class);
  void text(Point at, std::string_view text, std::string_view css_class = "", Anchor anchor = Anchor::start);
  /// Texts of one line and look, each at its own place.
  void texts(double y, const std::vector<PlacedText>& texts, std::string_view css_class, Anchor anchor);
  /// What is drawn from here to end_part() can be drawn again, by a name unique in the picture.
  void begin_part(std::string_view name);
  void end_part();
  /// A part once more, so much further down.
  void again(std::string_view name, double down);
  /// A shape of the page, defined outside the pictures, with its origin at a place.
  void shape(std::string_view id, Point at);
  /// The whole element, closed; nothing can be drawn after it.
  std::string finish();

 private:
  std::string id_;
  Markup out_;
};

}  // namespace soilclock::report
