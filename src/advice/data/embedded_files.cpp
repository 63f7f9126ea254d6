// SPDX-License-Identifier: MIT
#include "advice/data/embedded_files.hpp"

namespace soilclock::advice {

std::string_view embedded_text(std::string_view name) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name == name) return file.text;
  }
  return {};
}

}  // namespace soilclock::advice
