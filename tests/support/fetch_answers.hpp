// SPDX-License-Identifier: MIT
// Answers and questions that tests of fetching share.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/served_desk.hpp"

namespace soilclock::tests {

inline std::vector<std::string> one_course(const std::vector<std::string>& more) {
  return joined({"--latitude", "35.6", "--longitude", "-83.1", "--name", "course"}, more);
}

/// Days of a station's summaries in metric units, for an id.
inline std::string summaries(const std::string& id, Day begin, int days, double high, double low,
                             const std::string& observed = "") {
  std::string text =
      "\"STATION\",\"LATITUDE\",\"LONGITUDE\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_"
      "ATTRIBUTES\"\n";
  for (int i = 0; i < days; ++i) {
    text += fmt::format("\"{0}\",\"35.70\",\"-83.00\",\"{1}\",\"{2}\",\",,7,{4}\",\"{3}\",\",,7,{4}\"\n", id,
                        iso(begin + Days{i}), high, low + i % 2, observed);
  }
  return text;
}

inline Reply csv(std::string body) {
  Reply reply;
  reply.content_type = "text/csv";
  reply.body = std::move(body);
  return reply;
}

inline bool remarked(const Json& list, const std::string& code) {
  return std::any_of(list.begin(), list.end(), [&](const Json& remark) { return remark["code"] == code; });
}

}  // namespace soilclock::tests
