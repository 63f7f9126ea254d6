// SPDX-License-Identifier: MIT
// Pages as files: names that any file system takes, and the folder they go into.
#pragma once

#include <string>
#include <vector>

#include "site/site_file.hpp"

namespace soilclock::app {

/// A name without ending for each site's files, see report::safe_file_name: "copper-heron". All differ; none
/// is "index".
std::vector<std::string> page_names(const std::vector<Site>& sites);

/// The folder, with those above it, made where it is not there; an environment problem when that fails.
Checked make_folder(const std::string& folder);

}  // namespace soilclock::app
