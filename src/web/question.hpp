// SPDX-License-Identifier: MIT
// The options of a question, as JSON that a program writes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"
#include "site/site_answer.hpp"
#include "site/what_if.hpp"

namespace soilclock::web {

/// A what-if as it is asked.
struct WhatIfQuestion {
  WhatIfChange change;
  std::string plan;     ///< words of --plan; empty: the site's own
  int weeks_later = 0;  ///< 0 to 3
  std::string target;   ///< code or plain name; empty: the first answered for
};

/// Cases that stand side by side: a table of more columns than that is not read. Judgment.
inline constexpr std::size_t most_cases = 3;

struct Question {
  std::string sites_file;
  std::vector<std::string> only;  ///< ids; empty: all
  Asked asked;
  bool past_seasons = false;
  WhatIfQuestion what_if;
  std::vector<WhatIfQuestion> cases;  ///< at most `most_cases`, all about the grass of `what_if`
};

/// Reads the options of the questions about sites; see soilclock.h. Unknown keys are request problems.
Result<Question> read_question(std::string_view options);

struct InspectionQuestion {
  std::string file;
  std::string format;  ///< "json" or "text"
  std::string units;   ///< "us", "metric" or empty
  weather::ReadingOptions reading;
};

/// Weather of an open service is wanted for a place.
struct PlaceQuestion {
  Place place;
  Day on{};  ///< today in UTC
};

/// Reads the options of a question for weather.
Result<PlaceQuestion> read_place_question(std::string_view options);

/// Reads the options of a question about a file.
Result<InspectionQuestion> read_inspection_question(std::string_view options);

}  // namespace soilclock::web
