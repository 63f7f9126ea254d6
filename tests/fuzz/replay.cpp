// SPDX-License-Identifier: MIT
// Runs the kept inputs of one harness without libFuzzer: replay HARNESS FOLDER... A folder without any input
// is a fault, or the check would pass without checking.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "fuzz/harnesses.hpp"

namespace {

using namespace soilclock;

struct Harness {
  std::string_view name;
  void (*call)(std::string_view bytes);
};

constexpr Harness harnesses[] = {{"weather_text", fuzz::weather_text},
                                 {"service_answer", fuzz::service_answer},
                                 {"site_file", fuzz::site_file},
                                 {"model_file", fuzz::model_file},
                                 {"dates_and_units", fuzz::dates_and_units},
                                 {"log_import", fuzz::log_import},
                                 {"records_file", fuzz::records_file},
                                 {"settings", fuzz::settings}};

const Harness* named(std::string_view name) {
  for (const Harness& harness : harnesses) {
    if (harness.name == name) return &harness;
  }
  return nullptr;
}

}  // namespace

int main(int count, char** words) {
  const auto* harness = count > 2 ? named(words[1]) : nullptr;
  if (harness == nullptr) {
    std::fprintf(stderr, "usage: replay HARNESS FOLDER...\n");
    return 2;
  }
  for (int i = 2; i < count; ++i) {
    int inputs = 0;
    for (const auto& entry : std::filesystem::directory_iterator{words[i]}) {
      std::ifstream in{entry.path(), std::ios::binary};
      const std::string bytes{std::istreambuf_iterator<char>{in}, {}};
      // Flushed, so that the input at which the program ends is named.
      std::printf("%s\n", entry.path().c_str());
      std::fflush(stdout);
      harness->call(bytes);
      ++inputs;
    }
    if (inputs == 0) {
      std::fprintf(stderr, "no input in %s\n", words[i]);
      return 1;
    }
  }
}
