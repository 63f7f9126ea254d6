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
  for (const auto& entry : std::filesystem::directory_iterator{folder}) {
    ++files;
    for (const std::string& id :
         matches(model_text(entry.path().filename().string()), "\"source\": *\"([^\"]+)\"")) {
      INFO(entry.path().filename().string() << " names " << id);
      CHECK(known.contains(id));
    }
  }
  CHECK(files == 7);
}
