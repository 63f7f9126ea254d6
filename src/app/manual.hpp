// SPDX-License-Identifier: MIT
// The manual pages and the completion of a shell, from what the commands say about themselves. Commands are
// handed over new: each declares its options once.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/command.hpp"

namespace soilclock::app {

/// The page of the program itself (soilclock.1) in the language of man(7); `version` stands in its foot.
std::string manual_page(const std::vector<std::unique_ptr<Command>>& commands, const std::string& version);

/// The page of one command (soilclock-NAME.1).
std::string manual_page(Command& command, const std::string& version);

/// A script for bash that completes commands, options and the words an option takes; files elsewhere.
std::string bash_completion(const std::vector<std::unique_ptr<Command>>& commands);

}  // namespace soilclock::app
