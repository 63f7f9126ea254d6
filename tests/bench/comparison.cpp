// SPDX-License-Identifier: MIT
#include "bench/comparison.hpp"

#include <sys/resource.h>

#include <array>
#include <cstdio>

namespace soilclock::bench {

double processor_seconds() {
  double total = 0.0;
  for (const auto who : {RUSAGE_SELF, RUSAGE_CHILDREN}) {
    rusage used{};
    getrusage(who, &used);
    total += static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
             1e-6 * static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
  }
  return total;
}

std::optional<std::string> output_of(const std::string& command) {
  std::FILE* pipe = popen((command + " 2>/dev/null").c_str(), "r");
  if (pipe == nullptr) return std::nullopt;
  std::string text;
  std::array<char, 4096> block{};
  while (const std::size_t count = std::fread(block.data(), 1, block.size(), pipe))
    text.append(block.data(), count);
  return pclose(pipe) == 0 ? std::optional{text} : std::nullopt;
}

std::string in_build_folder(const std::string& name) { return std::string{SOILCLOCK_BENCH_DIR} + "/" + name; }

}  // namespace soilclock::bench
