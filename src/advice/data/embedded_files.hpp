// SPDX-License-Identifier: MIT
// The model, practice and service files compiled into the program, so that it answers without its folders.
#pragma once

#include <span>
#include <string_view>

namespace soilclock::advice {

/// A file in the program: its path below the source folder ("models/targets/POAAN.json") and its bytes.
struct EmbeddedFile {
  std::string_view name;
  std::string_view text;
};

/// All files of models/, config/practice.json, config/services.json and config/us_places.json as they were
/// when the program was built.
std::span<const EmbeddedFile> embedded_files();

/// The bytes of one of them; empty for a name that none has.
std::string_view embedded_text(std::string_view name);

/// SHA-256 of the names and bytes of all these files, 64 hexadecimal digits: the same where all numbers are.
std::string_view embedded_hash();

}  // namespace soilclock::advice
