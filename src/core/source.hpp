// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace soilclock {

/// Where a number comes from.
enum class Basis {
  published,        ///< printed in the cited source
  derived,          ///< computed by us from what the note names
  common_practice,  ///< what people in the field do, no source
  memory,           ///< remembered, not read again
  invented          ///< made-up demo data
};

/// A citation, kept once in models/sources.json.
struct Source {
  std::string id;
  std::string authors;
  int year = 0;
  std::string title;
  std::string journal;
  std::string pages;  ///< volume and pages
  std::string doi;
  std::string how_read;  ///< "full text", "abstract", "secondary: ...", "memory"
};

}  // namespace soilclock
