// SPDX-License-Identifier: MIT
// Files of models and practice numbers.
#include <algorithm>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "fuzz/harnesses.hpp"

namespace soilclock::fuzz {

namespace {

/// A file whose name says nothing the catalogue knows is refused before anything is read: no time is spent on
/// it.
bool belongs(std::string_view name) {
  const auto files = advice::built_in_files();
  return std::any_of(files.begin(), files.end(), [&](const auto& file) { return file.name == name; });
}

}  // namespace

void model_file(std::string_view bytes) {
  const auto line_end = bytes.find('\n');
  if (line_end == std::string_view::npos || !belongs(bytes.substr(0, line_end))) return;
  // Ahead of the others, so that one that is refused costs little time.
  std::vector<advice::NamedText> files{
      {std::string{bytes.substr(0, line_end)}, std::string{bytes.substr(line_end + 1)}}};
  for (const advice::NamedText& file : advice::built_in_files()) {
    if (file.name != files.front().name) files.push_back(file);
  }
  const auto catalogue = advice::load_catalogue(files);
  if (!catalogue) {
    demand_good(catalogue.error());
    demand(catalogue.error().family == Family::request, "a model file is the user's");
    return;
  }
  for (const auto& [code, target] : catalogue->targets) (void)catalogue->control_of(code);
}

}  // namespace soilclock::fuzz
