// SPDX-License-Identifier: MIT
#include "app/page_files.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <set>

#include "report/file_names.hpp"

namespace soilclock::app {

std::vector<std::string> page_names(const std::vector<Site>& sites) {
  std::set<std::string> taken{"index"};
  std::vector<std::string> names;
  for (const Site& site : sites) {
    const std::string stem = report::safe_file_name(site.id);
    std::string name = stem;
    for (int number = 2; !taken.insert(name).second; ++number) name = fmt::format("{}-{}", stem, number);
    names.push_back(std::move(name));
  }
  return names;
}

Checked make_folder(const std::string& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error || !std::filesystem::is_directory(folder, error))
    return fail(Problem{Family::environment,
                        "the folder cannot be made",
                        {folder, {}, {}, {}},
                        {},
                        {},
                        "check the folder above it and its permissions"});
  return {};
}

}  // namespace soilclock::app
