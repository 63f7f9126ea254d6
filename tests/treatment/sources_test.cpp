// SPDX-License-Identifier: MIT
#include <filesystem>
#include <regex>
#include <set>

#include "model_files.hpp"

using namespace soilclock::treatment;

TEST_CASE("every source named in the treatment files is in the list of sources") {
  const auto matches = [](const std::string& text, const char* pattern) {
    std::set<std::string> found;
    const std::regex wanted{pattern};
    for (std::sregex_iterator it{text.begin(), text.end(), wanted}, end; it != end; ++it)
      found.insert((*it)[1]);
    return found;
  };
  const std::set<std::string> known = matches(model_text("../sources.json"), "\"id\": *\"([^\"]+)\"");
  const std::filesystem::path folder = std::string{SOILCLOCK_SOURCE_DIR} + "/models/treatment";
  int files = 0;
  std::set<std::string> of_control_files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder}) {
    if (!entry.is_regular_file()) continue;
    ++files;
    const std::string name = entry.path().lexically_relative(folder).generic_string();
    for (const std::string& id : matches(model_text(name), "\"source\": *\"([^\"]+)\"")) {
      INFO(name << " names " << id);
      CHECK(known.contains(id));
      if (name.starts_with("control/")) of_control_files.insert(id);
    }
  }
  CHECK(files == 10);
  CHECK(of_control_files.size() >= 20);
}
