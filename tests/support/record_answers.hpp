// SPDX-License-Identifier: MIT
// Measured records of 2020 and their edited copies, asked as a user would ask.
#pragma once

#include <cstdio>
#include <fstream>
#include <functional>
#include <optional>
#include <sstream>
#include <string>

#include "pipeline.hpp"
#include "report/advice_json.hpp"
#include "support/record_files.hpp"
#include "support/shipped_catalogue.hpp"

namespace soilclock::tests {

inline std::string whole_file(const std::filesystem::path& file) {
  std::ifstream input{file, std::ios::binary};
  std::ostringstream text;
  text << input.rdbuf();
  return text.str();
}

/// The text of a reference station's year ("TN_Crossville_7_NW").
inline std::string station_text(const std::string& name) { return whole_file(reference_file(name)); }

/// One line of a reference station file with its columns (counted from 1) open for editing.
struct StationLine {
  std::string text;
  Day day() const {
    return make_day(std::stoi(text.substr(6, 4)), static_cast<unsigned>(std::stoi(text.substr(10, 2))),
                    static_cast<unsigned>(std::stoi(text.substr(12, 2))));
  }
  void move_to(Day day) {
    const CivilDate date = civil(day);
    char stamp[32];
    std::snprintf(stamp, sizeof stamp, "%04d%02u%02u", date.year, date.month, date.day);
    text.replace(6, 8, stamp);
  }
  void put(std::size_t from, std::size_t to, double value, int decimals) {
    char cell[32];
    std::snprintf(cell, sizeof cell, "%*.*f", static_cast<int>(to - from + 1), decimals, value);
    text.replace(from - 1, to - from + 1, cell);
  }
  double get(std::size_t from, std::size_t to) const {
    return std::stod(text.substr(from - 1, to - from + 1));
  }
  void set_rain(double mm) { put(71, 77, mm, 1); }
  void warm(double kelvin) {
    for (const std::size_t from : {39U, 47U, 55U, 63U, 178U, 186U}) {  // extremes, means, soil at 5 and 10 cm
      if (get(from, from + 6) > -99.0) put(from, from + 6, get(from, from + 6) + kelvin, 1);
    }
  }
  void forget_soil() {
    for (std::size_t from = 178; from <= 210; from += 8) put(from, from + 6, -9999.0, 1);
  }
};

/// The file with every line passed through `edit`; lines for which it says false are left out.
inline std::string edited(const std::string& file, const std::function<bool(StationLine&)>& edit) {
  std::istringstream lines{file};
  std::string result;
  for (std::string line; std::getline(lines, line);) {
    StationLine one{line};
    if (edit(one)) result += one.text + "\n";
  }
  return result;
}

/// The record without its soil probes: what most people have.
inline std::string air_only(const std::string& file) {
  return edited(file, [](StationLine& line) {
    line.forget_soil();
    return true;
  });
}

/// A question about annual bluegrass on irrigated turf, place from the file.
inline SiteRequest question(const std::string& bytes, Day on) {
  SiteRequest request;
  request.id = "record";
  request.name = "Record";
  request.irrigation = emergence::Irrigation{true, 0.0};
  request.weather.push_back({"record.txt", bytes, false, {}});
  request.on = on;
  request.targets = {"POAAN"};
  return request;
}

inline advice::SiteAnswer answered(const SiteRequest& request) {
  return answer_site(request, shipped_catalogue());
}

/// The document a user gets, without its citations.
inline std::string json_of(const advice::SiteAnswer& answer) {
  report::AnswerFrame frame;
  frame.on = answer.on;
  return report::advice_json({&answer, 1}, frame);
}

/// Today's milestone of a percent; empty band when it is not there.
inline DateBand milestone(const advice::TargetAnswer& target, int percent) {
  for (const advice::Milestone& one : target.milestones) {
    if (one.percent == percent) return one.date;
  }
  return {};
}

inline std::string text_of(const DateBand& band) {
  const auto day = [](const std::optional<Day>& d) {
    return d ? short_date(*d, true) : std::string{"never"};
  };
  return day(band.low) + " / " + day(band.middle) + " / " + day(band.high);
}

/// First day of the week (seven days) in which most emerges.
inline Day steepest_week(const advice::TargetAnswer& target) {
  Day best{};
  double most = -1.0;
  for (std::size_t d = 7; d < target.season.size(); ++d) {
    const double gain = target.season[d].emerged_percent.middle - target.season[d - 7].emerged_percent.middle;
    if (gain > most) {
      most = gain;
      best = target.season[d - 6].day;
    }
  }
  return best;
}

inline std::string all_reasons(const advice::TargetAnswer& target) {
  std::string text;
  for (const std::string& reason : target.reasons) text += reason + " ";
  return text;
}

}  // namespace soilclock::tests
