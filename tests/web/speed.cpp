// SPDX-License-Identifier: MIT
// How long the native library takes over a what-if: speed SITES DAY COUNT FILE... prints the median of COUNT
// in milliseconds of processor time, so that other programs on the machine count little. Files are named as
// the site file's folder and its "file" keys give them; speed_ratio.mjs asks the module the same.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "web/soilclock.h"

namespace {

std::string text_of(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace

int main(int count, char** words) {
  if (count < 5) return 2;
  soilclock_session* session = soilclock_open();
  const std::string sites = text_of(words[1]);
  for (int i = 4; i < count; ++i) {
    const std::string bytes = text_of(words[i]);
    if (soilclock_put_file(session, words[i], bytes.data(), bytes.size()) != 0) return 4;
  }
  std::vector<double> times;
  for (int i = 0; i < std::atoi(words[3]); ++i) {
    const std::string options =
        std::string{"{\"on\": \""} + words[2] + "\", \"sites_file\": \"" + words[1] +
        "\", \"what_if\": {\"target\": \"POAAN\", \"soil_c\": " + std::to_string(i % 5 - 2) + "}}";
    const std::clock_t began = std::clock();
    if (soilclock_what_if(session, sites.c_str(), options.c_str()) != 0) {
      std::fputs(soilclock_problems(session), stderr);
      return 1;
    }
    times.push_back(1000.0 * static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC);
  }
  soilclock_close(session);
  std::sort(times.begin(), times.end());
  std::printf("%.1f\n", times.at(times.size() / 2));
  return 0;
}
