// SPDX-License-Identifier: MIT
// Writes the manual pages and the completion into a folder while the program is built: write_manual FOLDER
#include <filesystem>
#include <iostream>

#include "app/command_line.hpp"
#include "app/local_files.hpp"
#include "app/manual.hpp"

int main(int count, char** words) {
  if (count != 2) return 2;
  using namespace soilclock::app;
  const std::filesystem::path folder{words[1]};
  const auto commands = all_commands();
  std::filesystem::create_directories(folder);
  const auto written = [&](const std::string& name, const std::string& text) {
    const auto result = write_whole(folder / name, text);
    if (!result) std::cerr << folder / name << " cannot be written\n";
    return result.has_value();
  };
  bool good = written("soilclock.1", manual_page(commands, SOILCLOCK_VERSION)) &&
              written("soilclock.bash", bash_completion(all_commands()));
  for (const auto& command : commands)
    good = good && written("soilclock-" + command->name() + ".1", manual_page(*command, SOILCLOCK_VERSION));
  return good ? 0 : 4;
}
