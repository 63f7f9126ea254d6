// SPDX-License-Identifier: MIT
// Names of the columns of an answer: variable, member of an ensemble, model.
#pragma once

#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "weather/columns/heading_meaning.hpp"

namespace soilclock::weather {

/// Which run of which model a series is.
struct RunName {
  std::string model;  ///< empty when the answer is of one model
  int member = 0;     ///< the control run has no number
  friend bool operator==(const RunName&, const RunName&) = default;
  friend bool operator<(const RunName& a, const RunName& b) {
    return std::tie(a.model, a.member) < std::tie(b.model, b.member);
  }
};

/// " of model gfs of member 3", empty for the control run of the only model.
std::string described(const RunName& run);

/// One column name taken apart: "temperature_2m_max_member01_gfs_seamless".
struct AnswerName {
  Quantity quantity = Quantity::not_used;
  std::string variable;  ///< as the service calls it; the whole name when it is not used
  RunName run;
};

/// Takes the names of one block ("hourly" or "daily") apart, all together: what stands behind a variable is a
/// model only when no temperature of the block stands without it, since spreads and anomalies are written the
/// same way. The member stands before the model.
std::vector<AnswerName> split_names(std::string_view section, const std::vector<std::string>& names);

}  // namespace soilclock::weather
