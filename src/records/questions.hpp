// SPDX-License-Identifier: MIT
// What is asked before a record is added, because it is more often a slip than meant: the same site written
// in another way, the same count noted again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "records/store.hpp"

namespace soilclock::records {

/// The questions the user has answered beforehand.
struct Answered {
  bool new_site = false;  ///< a site whose id looks like another one's is meant
  bool again = false;     ///< a count of the same plants on the same day is meant
};

/// The id among `known` that differs from the site's only in case, blanks, '-' and '_'; nothing when the id
/// itself is among them.
std::optional<std::string> same_site_written_otherwise(const std::string& site,
                                                       const std::vector<std::string>& known);

/// A problem (request) that names the id that is there and the way out; nothing when all is well.
std::optional<Problem> question_about_site(const std::string& site, const std::vector<std::string>& known);

/// The same for a count of a target, area and day that `held` has a count of already.
std::optional<Problem> question_about_count(const Record& record, const std::vector<Entry>& held);

/// The first question about a record nobody has answered yet. `held` and `sites` are what the file held
/// before.
std::optional<Problem> question_about(const Record& record, const std::vector<Entry>& held,
                                      const std::vector<std::string>& sites, const Answered& answered);

}  // namespace soilclock::records
