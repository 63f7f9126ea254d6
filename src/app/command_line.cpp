// SPDX-License-Identifier: MIT
#include "app/command_line.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <functional>
#include <ostream>
#include <sstream>

#include "advice/data/embedded_files.hpp"
#include "app/option_list.hpp"
#include "core/text.hpp"
#include "site/site_answer.hpp"

namespace soilclock::app {

namespace {

/// A number of a command line: only digits, sign, point and exponent, so that "12abc" and "nan" are refused.
std::string check_number(const std::string& text) {
  return parse_number(text) ? std::string{} : "'" + printable(text, 40) + "' is not a number";
}

std::string check_whole(const std::string& text) {
  constexpr double most = 1e9;
  const auto number = parse_number(text);
  if (number && std::abs(*number) <= most && *number == std::floor(*number)) return {};
  return "'" + printable(text, 40) + "' is not a whole number";
}

/// Takes one of the words offered, in any case; the refusal suggests the nearest.
CLI::Validator one_of(const std::vector<std::string>& offered) {
  return CLI::Validator{[offered](std::string& typed) {
                          const auto same = std::find(offered.begin(), offered.end(), lowered(typed));
                          if (same == offered.end()) {
                            const auto near = nearest(typed, offered);
                            return "'" + printable(typed, 40) + "' is none of " + listed(offered) +
                                   (near ? "; did you mean '" + *near + "'?" : "");
                          }
                          typed = *same;
                          return std::string{};
                        },
                        ""};
}

constexpr std::size_t help_column = 30;
constexpr std::size_t help_width = 100;

/// A help text broken at blanks, so that it stays in its column.
std::string in_column(const std::string& text) {
  std::string result;
  std::size_t length = 0;
  std::istringstream words{text};
  for (std::string word; words >> word;) {
    const bool breaks = length > 0 && length + 1 + word.size() > help_width - help_column;
    if (length > 0) result += breaks ? "\n" : " ";
    length = breaks ? word.size() : length + (length > 0 ? 1 : 0) + word.size();
    result += word;
  }
  return result;
}

class CliOptions : public Options {
 public:
  explicit CliOptions(CLI::App& app) : app_{app} { app_.set_help_flag(); }

  void under(Heading heading) override { heading_ = heading; }
  void text(const std::string& name, std::string& variable, const std::string& help) override {
    add(name, help, [this, &variable](const std::string& bare) { return app_.add_option(bare, variable); });
  }
  using Options::texts;
  void texts(const std::string& name, std::vector<std::string>& variable, const std::string& help,
             bool several) override {
    add(name, help_of_several(help, several), [this, &variable](const std::string& bare) {
      return app_.add_option(bare, variable)->allow_extra_args(false);
    });
  }
  void number(const std::string& name, std::optional<double>& variable, const std::string& help) override {
    add(name, help, [this, &variable](const std::string& bare) {
      return app_
          .add_option_function<std::string>(
              bare, [&variable](const std::string& text) { variable = parse_number(text); })
          ->check(CLI::Validator{check_number, ""});
    });
  }
  void whole(const std::string& name, std::optional<int>& variable, const std::string& help) override {
    add(name, help, [this, &variable](const std::string& bare) {
      return app_
          .add_option_function<std::string>(bare,
                                            [&variable](const std::string& text) {
                                              variable = static_cast<int>(parse_number(text).value_or(0.0));
                                            })
          ->check(CLI::Validator{check_whole, ""});
    });
  }
  void flag(const std::string& name, bool& variable, const std::string& help) override {
    add(name, help, [this, &variable](const std::string& bare) { return app_.add_flag(bare, variable); });
  }
  void choice(const std::string& name, std::string& variable, const std::vector<std::string>& offered,
              const std::string& help) override {
    add(name, help_of_choice(help, offered), [this, &variable, offered](const std::string& bare) {
      return app_.add_option(bare, variable)->transform(one_of(offered));
    });
  }
  void positional(const std::string& name, std::vector<std::string>& variable,
                  const std::string& help) override {
    app_.add_option(name, variable, in_column(help))->option_text(" ");
  }

  /// Hands the options over, heading by heading in the order of their headings.
  void finish() {
    std::stable_sort(declared_.begin(), declared_.end(),
                     [](const Declared& a, const Declared& b) { return a.heading < b.heading; });
    for (const Declared& one : declared_) {
      const auto blank = one.name.find(' ');
      CLI::Option* option = one.make(one.name.substr(0, blank));
      option->description(in_column(one.help))->group(heading_words(one.heading));
      option->option_text(blank == std::string::npos ? " " : one.name.substr(blank + 1));
    }
    app_.set_help_flag("-h,--help", help_of_help)->group(heading_words(Heading::advanced));
  }

 private:
  using Maker = std::function<CLI::Option*(const std::string& bare)>;
  struct Declared {
    Heading heading;
    std::string name;
    std::string help;
    Maker make;
  };

  void add(const std::string& name, std::string help, Maker make) {
    declared_.push_back({heading_, name, std::move(help), std::move(make)});
  }

  CLI::App& app_;
  Heading heading_ = Heading::answer;
  std::vector<Declared> declared_;
};

/// The command a mistyped word was probably meant to be.
std::string suggestion(const std::string& typed, const std::vector<std::unique_ptr<Command>>& commands) {
  std::vector<std::string> names;
  names.reserve(commands.size());
  for (const auto& command : commands) names.push_back(command->name());
  const auto near = nearest(typed, names);
  return near ? "; did you mean '" + *near + "'?" : "; known are " + listed(names) + "; see soilclock --help";
}

std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

/// The words left over in the order they were written.
std::vector<std::string> in_order(std::vector<std::string> left, const std::vector<std::string>& written) {
  const auto place = [&](const std::string& word) { return std::find(written.begin(), written.end(), word); };
  std::stable_sort(left.begin(), left.end(),
                   [&](const auto& a, const auto& b) { return place(a) < place(b); });
  return left;
}

/// "; did you mean --only (one site of a file) or --sites (a file)?", or nothing.
std::string meant_option(const std::string& typed, const std::vector<std::string>& names) {
  const auto has = [&](const char* name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (typed == "--site" && has("--only"))
    return "; did you mean --only ID (a site of the file) or --sites FILE?";
  const auto near = nearest(typed, names);
  return near ? "; did you mean " + *near + "?" : "";
}

/// What is wrong with words that no command takes, and what was probably meant. `command` is null when none
/// was named before them.
std::string stray_words(const std::vector<std::string>& stray, const CLI::App* command) {
  const auto option =
      std::find_if(stray.begin(), stray.end(), [](const std::string& word) { return word.starts_with("-"); });
  const std::string& word = option == stray.end() ? stray.front() : *option;
  const std::string shown = "'" + printable(word, 40) + "'";
  if (command == nullptr)
    return shown + " is not an option of soilclock itself; options stand behind the command";
  const std::vector<std::string> names = option_names(*command);
  const std::string name = command->get_name();
  if (option != stray.end()) {
    const std::string bare = word.substr(0, word.find('='));
    if (std::find(names.begin(), names.end(), bare) != names.end()) {
      return shown + " stands before the command; write soilclock " + name + " " + printable(word, 40) +
             " ...";
    }
    return shown + " is not an option of soilclock " + name + meant_option(bare, names);
  }
  const bool answers_for_sites = std::find(names.begin(), names.end(), "--sites") != names.end();
  const std::string file = lowered(word).ends_with(".json") ? "--sites " : "--weather ";
  return shown + " is not expected here" +
         (answers_for_sites ? "; name a file by its option, such as " + file + printable(word, 40) : "");
}

/// The option library's refusal in plain words.
std::string refusal_words(const CLI::ParseError& error) {
  const std::string text = error.what();
  if (error.get_exit_code() != static_cast<int>(CLI::ExitCodes::ArgumentMismatch)) return text;
  const std::string option = text.substr(0, text.find(':'));
  return option + (text.find("At Most") != std::string::npos ? " is given more than once" : " needs a value");
}

/// The version of the program and a hash of the models in it: two programs of one version may differ in their
/// numbers.
std::string version_line() {
  constexpr std::size_t enough_digits = 12;
  const std::string models{advice::embedded_hash().substr(0, enough_digits)};
  return "soilclock " SOILCLOCK_VERSION ", models " + models;
}

int refuse(const std::string& text, Streams& streams) {
  streams.err << "soilclock: " << text << "\n";
  return 2;
}

}  // namespace

void report_of_site(const std::string& site, const Problem& problem, const std::string& format,
                    Streams& streams) {
  if (format == "text" && streams.one_screen) return;
  streams.err << problem_line(site, problem);
}

int report(const Problem& problem, Streams& streams) {
  streams.err << problem_line({}, problem);
  return exit_code(problem.family);
}

int run_command_line(const std::vector<std::string>& arguments, Streams& streams) {
  const std::vector<std::unique_ptr<Command>> commands = all_commands();
  CLI::App app{program_purpose};
  app.name("soilclock");
  app.set_version_flag("--version", version_line(), help_of_version);
  app.footer(exit_code_help);
  app.require_subcommand(0, 1);
  for (const auto& command : commands) {
    CLI::App* sub = app.add_subcommand(command->name(), command->purpose());
    // Declaring the options of all commands would take longer than answering --version.
    if (std::find(arguments.begin(), arguments.end(), command->name()) == arguments.end()) continue;
    sub->footer("Examples:\n" + command->examples() + "\n" + exit_code_help);
    CliOptions options{*sub};
    command->declare(options);
    options.finish();
  }
  if (!arguments.empty() && !arguments.front().starts_with("-") &&
      std::none_of(commands.begin(), commands.end(),
                   [&](const auto& c) { return c->name() == arguments.front(); })) {
    return refuse("'" + printable(arguments.front(), 40) + "' is not a command" +
                      suggestion(arguments.front(), commands),
                  streams);
  }
  try {
    std::vector<std::string> reversed{arguments.rbegin(),
                                      arguments.rend()};  // the library takes the last first
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    streams.out << (chosen.empty() ? app.help() : chosen.front()->help("soilclock"));
    return 0;
  } catch (const CLI::CallForVersion&) {
    streams.out << version_line() << "\n";
    return 0;
  } catch (const CLI::ParseError& error) {
    const auto chosen = app.get_subcommands();
    const std::string help =
        chosen.empty() ? "soilclock --help" : "soilclock " + chosen.front()->get_name() + " --help";
    const auto stray = in_order(app.remaining(true), arguments);
    const bool unknown_words =
        error.get_exit_code() == static_cast<int>(CLI::ExitCodes::ExtrasError) && !stray.empty();
    return refuse((unknown_words ? stray_words(stray, chosen.empty() ? nullptr : chosen.front())
                                 : refusal_words(error)) +
                      "; see " + help,
                  streams);
  }
  for (const auto& command : commands) {
    if (app.got_subcommand(command->name())) return command->run(streams);
  }
  streams.out << app.help();
  return 0;
}

}  // namespace soilclock::app
