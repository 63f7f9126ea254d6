// SPDX-License-Identifier: MIT
// What all words and numbers of a heading say together, before it is decided what the column is.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weather/columns/heading_words.hpp"

namespace soilclock::weather {

struct HeadingReading {
  Hints hints;
  int words = 0;                   ///< known words that say something
  std::vector<double> lengths_cm;  ///< numbers with a unit of length: depths, heights
  bool bracketed_length = false;   ///< one of them stands in brackets: "(0.2 mm)"
  int scale = 1;                   ///< 10 for tenths, 100 for hundredths
  bool start_of_day = false;
  bool rate = false;           ///< per hour or shorter
  bool per_area = false;       ///< "l/m2", "kg m-2"
  bool liters = false;         ///< with `per_area`: millimeters
  bool point_in_time = false;  ///< "hour of ...", "date of ..."
  bool sensor_number = false;
  bool of_day = false;  ///< "daily"
  std::optional<int> window_minutes;
  std::string qualifier;    ///< first word that makes the column something else
  std::string other_thing;  ///< first word of something that is neither air nor an amount
  std::string other_date;   ///< first word that makes a date that of something else
  /// Words that say something about dates only: "sunset".
  std::vector<std::string> other_moments;
  std::vector<std::string> unknown;
  std::string unknown_in_brackets;
  bool unknown_beside_unit = false;  ///< in the brackets of a unit: "(hundretths of in)"
  bool unknown_last = false;         ///< the last word is not known
};

HeadingReading read_heading_words(std::string_view heading);

}  // namespace soilclock::weather
