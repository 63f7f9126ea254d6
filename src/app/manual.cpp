// SPDX-License-Identifier: MIT
#include "app/manual.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "app/option_list.hpp"

namespace soilclock::app {

namespace {

/// A text as man(7) shows it unchanged: no character of it is a request, and a hyphen can be copied.
std::string plain(const std::string& text) {
  std::string shown;
  for (const char one : text) {
    const bool begins_line = shown.empty() || shown.back() == '\n';
    if (begins_line && (one == '.' || one == '\'')) shown += "\\&";
    if (one == '\\')
      shown += "\\e";
    else if (one == '-')
      shown += "\\-";
    else
      shown += one;
  }
  return shown;
}

std::string title(const std::string& page, const std::string& version) {
  std::string upper = page;
  std::transform(upper.begin(), upper.end(), upper.begin(), [](char one) {
    return one >= 'a' && one <= 'z' ? static_cast<char>(one - 'a' + 'A') : one;
  });
  return fmt::format(".TH {} 1 \"\" \"soilclock {}\" \"soilclock\"\n", plain(upper), plain(version));
}

std::string entry(const ListedOption& option) {
  const std::string argument =
      option.argument.empty() ? std::string{} : " \\fI" + plain(option.argument) + "\\fR";
  return fmt::format(".TP\n\\fB{}\\fR{}\n{}\n", plain(option.name), argument, plain(option.help));
}

std::string help_entry() {
  return fmt::format(".TP\n\\fB\\-h\\fR, \\fB\\-\\-help\\fR\n{}\n", plain(help_of_help));
}

/// The options under their headings, as the help of the command lists them.
std::string option_section(const std::vector<ListedOption>& options) {
  std::string text = ".SH OPTIONS\n";
  std::string under;
  for (const ListedOption& option : options) {
    const std::string heading = option.positional ? "Positionals" : heading_words(option.heading);
    if (heading != under) text += ".SS " + heading + "\n";
    under = heading;
    text += entry(option);
  }
  const std::string last = heading_words(Heading::advanced);
  if (under != last) text += ".SS " + last + "\n";
  return text + help_entry();
}

std::string exit_section() {
  std::string text = exit_code_help;
  std::replace(text.begin(), text.end(), '\n', ' ');
  return ".SH \"EXIT STATUS\"\n" + plain(text) + "\n";
}

std::vector<ListedOption> positionals_first(Command& command) {
  std::vector<ListedOption> options = options_of(command);
  std::stable_partition(options.begin(), options.end(), [](const ListedOption& o) { return o.positional; });
  return options;
}

/// The names of options, joined for a shell: "--on|--only".
std::string joined(const std::vector<std::string>& names, const char* between) {
  return fmt::format("{}", fmt::join(names, between));
}

/// The lines of the completion's table for one command.
std::string completion_of(Command& command) {
  std::vector<std::string> names;
  std::vector<std::string> followed;  // by a word that only the user knows
  std::string text;
  for (const ListedOption& option : options_of(command)) {
    if (option.positional) continue;
    names.push_back(option.name);
    if (option.argument.empty()) continue;
    if (option.offered.empty())
      followed.push_back('"' + command.name() + " " + option.name + '"');
    else
      text += fmt::format("    \"{} {}\") offered=\"{}\" ;;\n", command.name(), option.name,
                          joined(option.offered, " "));
  }
  names.emplace_back("--help");
  if (!followed.empty()) text += fmt::format("    {}) return ;;\n", joined(followed, " | "));
  return text + fmt::format("    \"{} \"*) offered=\"{}\" ;;\n", command.name(), joined(names, " "));
}

}  // namespace

std::string manual_page(const std::vector<std::unique_ptr<Command>>& commands, const std::string& version) {
  std::string text = title("soilclock", version);
  text += fmt::format(".SH NAME\nsoilclock \\- {}\n", plain(program_purpose));
  text += ".SH SYNOPSIS\n\\fBsoilclock\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR]\n.br\n";
  text += "\\fBsoilclock\\fR \\fB\\-\\-version\\fR\n";
  text += ".SH COMMANDS\n";
  for (const auto& command : commands) {
    text += fmt::format(".TP\n\\fB{}\\fR\n{}\n", plain(command->name()), plain(command->purpose()));
  }
  text += ".SH OPTIONS\n" + help_entry();
  text += ".TP\n\\fB\\-\\-version\\fR\n" + plain(help_of_version) + "\n";
  text += exit_section() + ".SH \"SEE ALSO\"\n";
  for (const auto& command : commands) {
    const char* behind = command == commands.back() ? "" : ",";
    text += fmt::format(".BR soilclock\\-{} (1){}\n", plain(command->name()), behind);
  }
  return text;
}

std::string manual_page(Command& command, const std::string& version) {
  const std::string page = "soilclock-" + command.name();
  const std::vector<ListedOption> options = positionals_first(command);
  std::string words;
  for (const ListedOption& option : options) {
    if (option.positional) words += " [\\fI" + plain(option.name) + "\\fR...]";
  }
  std::string text = title(page, version);
  text += fmt::format(".SH NAME\n{} \\- {}\n", plain(page), plain(command.purpose()));
  text +=
      fmt::format(".SH SYNOPSIS\n\\fBsoilclock {}\\fR [\\fIOPTIONS\\fR]{}\n", plain(command.name()), words);
  text += option_section(options);
  text += ".SH EXAMPLES\n.nf\n" + plain(command.examples()) + ".fi\n";
  return text + exit_section() + ".SH \"SEE ALSO\"\n.BR soilclock (1)\n";
}

std::string bash_completion(const std::vector<std::unique_ptr<Command>>& commands) {
  std::vector<std::string> names;
  std::string table;
  for (const auto& command : commands) {
    names.push_back(command->name());
    table += completion_of(*command);
  }
  names.emplace_back("--help");
  names.emplace_back("--version");
  return fmt::format(
      "# SPDX-License-Identifier: MIT\n"
      "# Completion of soilclock for bash; made from the program's own help.\n"
      "_soilclock() {{\n"
      "  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} offered=\n"
      "  if ((COMP_CWORD == 1)); then\n"
      "    offered=\"{}\"\n"
      "  else case \"${{COMP_WORDS[1]}} $before\" in\n"
      "{}"
      "  esac; fi\n"
      "  mapfile -t COMPREPLY < <(compgen -W \"$offered\" -- \"$word\")\n"
      "}}\n"
      "complete -o default -F _soilclock soilclock\n",
      joined(names, " "), table);
}

}  // namespace soilclock::app
