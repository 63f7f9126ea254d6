// SPDX-License-Identifier: MIT
// The options of a command as a list, and the words its help and its manual page share.
#pragma once

#include <string>
#include <vector>

#include "app/command.hpp"

namespace soilclock::app {

/// What the program is for, in one sentence.
inline constexpr const char* program_purpose =
    "Which week to treat turf for annual grasses, and what kind of treatment that week calls for.";

inline constexpr const char* exit_code_help =
    "Exit codes: 0 answered; 1 answered, but some sites failed; 2 the request is wrong; 3 the data are "
    "wrong;\n"
    "4 disk or network failed; 70 a mistake of the program.";

inline constexpr const char* help_of_help = "this text";
inline constexpr const char* help_of_version = "the version of the program and a hash of the models in it";

/// The heading as it stands in a help text.
std::string heading_words(Heading heading);

/// The help of an option that takes one of the words offered, and of one that may be given several times.
std::string help_of_choice(const std::string& help, const std::vector<std::string>& offered);
std::string help_of_several(const std::string& help, bool several);

/// An option as its command declares it.
struct ListedOption {
  Heading heading = Heading::answer;
  std::string name;      ///< "--on"; what stands without a name is called as the help calls it
  std::string argument;  ///< "DAY"; empty when nothing follows the name
  std::string help;
  std::vector<std::string> offered;  ///< the only words it takes; empty: any
  bool positional = false;
};

/// The options of a command, heading by heading as its help lists them; -h is not among them. The
/// command must be new: it declares its options once.
std::vector<ListedOption> options_of(Command& command);

}  // namespace soilclock::app
