// SPDX-License-Identifier: MIT
#include "weather/services/series_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <vector>

#include "core/text.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

namespace {

std::string name_of(const AnswerSeries& series) {
  return series.location.empty() ? std::to_string(series.point) : series.location;
}

bool is_wanted(const AnswerSeries& series, const std::string& wanted) {
  return wanted.empty() || series.location == wanted || std::to_string(series.point) == wanted;
}

std::string left_out(const ServiceAnswer& answer, const AnswerSeries& chosen) {
  std::set<int> points;
  std::set<std::string> models;
  std::set<int> members;
  std::vector<std::string> names;
  for (const AnswerSeries& series : answer.series) {
    if (points.insert(series.point).second) names.push_back(name_of(series));
    models.insert(series.model);
    members.insert(series.member);
  }
  std::string text;
  if (points.size() > 1) {
    text = fmt::format("the answer holds {} places ({}); '{}' is read, --station chooses another",
                       points.size(), shortened_list(names, 6), name_of(chosen));
  }
  if (models.size() > 1) {
    text += fmt::format("{}{} models are in the answer; '{}' is read", text.empty() ? "" : "; ",
                        models.size(), chosen.model);
  }
  if (members.size() > 1) {
    text +=
        fmt::format("{}{} members are in the answer; {} is read", text.empty() ? "" : "; ", members.size(),
                    chosen.member == 0 ? "the control run" : fmt::format("number {}", chosen.member));
  }
  return text;
}

}  // namespace

Result<ParsedFile> choose_series(ServiceAnswer answer, const std::string& wanted) {
  const auto chosen = std::find_if(answer.series.begin(), answer.series.end(),
                                   [&](const AnswerSeries& series) { return is_wanted(series, wanted); });
  if (chosen == answer.series.end()) {
    std::vector<std::string> names;
    for (const AnswerSeries& series : answer.series) {
      if (names.empty() || names.back() != name_of(series)) names.push_back(name_of(series));
    }
    return fail({Family::data,
                 "this place is not in the answer",
                 {answer.series.front().reading.file, {}, {}, {}},
                 wanted,
                 "one of " + shortened_list(names, 8),
                 "name it with --station"});
  }
  const std::string about = left_out(answer, *chosen);
  ParsedFile reading = std::move(chosen->reading);
  if (!about.empty()) {
    reading.doubts.insert(reading.doubts.begin(), {{}, {}, about});
    reading.outcome = Outcome::warn;
  }
  return reading;
}

}  // namespace soilclock::weather
