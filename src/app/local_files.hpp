// SPDX-License-Identifier: MIT
// Reading and writing whole files of this machine.
#pragma once

#include <chrono>
#include <filesystem>
#include <istream>
#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::app {

/// Judgment: a program that writes into a pipe starts within this time.
inline constexpr std::chrono::milliseconds longest_silence{10'000};

/// A whole file as text. A request problem when it is a folder, not there or larger than
/// `largest_file_bytes`; an environment problem when it cannot be read, or is a pipe or device that sends
/// nothing for so long. Pipes are read to their end.
Result<std::string> read_file(const std::string& path, std::chrono::milliseconds silence = longest_silence);

/// What is left of a stream as text, within the same limit; `name` is what messages call it.
Result<std::string> read_stream(std::istream& in, const std::string& name);

/// Writes a file whole or not at all: a reader never meets half of it, and what stood there before stays when
/// the disk is full. A device or pipe is written straight. An environment problem when the file cannot be
/// written.
Checked write_whole(const std::filesystem::path& path, std::string_view text);

}  // namespace soilclock::app
