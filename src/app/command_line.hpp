// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/command.hpp"

namespace soilclock::app {

/// All sub-commands, in the order the help lists them.
std::vector<std::unique_ptr<Command>> all_commands();

/// Runs one command line (without the program's name) and gives the exit code: 0 answered, 1 some sites
/// failed, 2 the request is wrong, 3 the data are wrong, 4 disk or network failed, 70 an internal error.
int run_command_line(const std::vector<std::string>& arguments, Streams& streams);

}  // namespace soilclock::app
