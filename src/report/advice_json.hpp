// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/answer/course_summary.hpp"
#include "core/source.hpp"

namespace soilclock::report {

/// What every answer carries beside the sites.
struct AnswerFrame {
  Day on{};
  std::string program;          ///< version of this program
  std::vector<Source> sources;  ///< citations of the models used
  std::vector<std::string> cautions;
  std::vector<std::string> brief_cautions;          ///< the few that stand below every text answer
  std::vector<advice::CourseSummary> courses = {};  ///< of courses with areas, all of which were answered
};

/// The "soilclock-advice" document, version 2, indented by two blanks; ends with a line feed.
/// Temperatures in Celsius, shares in percent whatever units the user reads; dates "YYYY-MM-DD" or null.
std::string advice_json(std::span<const advice::SiteAnswer> sites, const AnswerFrame& frame);

/// The same on one line, for answers streamed line by line.
std::string advice_json_line(std::span<const advice::SiteAnswer> sites, const AnswerFrame& frame);

}  // namespace soilclock::report
