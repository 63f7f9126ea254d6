// SPDX-License-Identifier: MIT
// A sub-command of the program, and how it says which options it takes. The option library is named in
// command_line.cpp only.
#pragma once

#include <chrono>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/problem.hpp"
#include "core/time_zone.hpp"

namespace soilclock::app {

/// Where a command reads and writes, and what time it is.
struct Streams {
  std::istream& in;
  std::ostream& out;  ///< results
  std::ostream& err;  ///< remarks and problems
  Day today;          ///< on the user's own calendar
  std::function<Instant()> now;
  std::function<void(std::chrono::milliseconds)> pause;  ///< waits that long
  bool watched = false;     ///< somebody looks at the error stream: progress is shown
  bool one_screen = false;  ///< results and problems come to one pair of eyes: nothing need be said twice
};

/// What the options of a command stand under in its help, in this order.
enum class Heading { site, weather_file, answer, advanced };

/// Declares the options of one command. Names are written with their dashes and what stands behind them
/// ("--on DAY"); the variables must outlive the parsing.
class Options {
 public:
  virtual ~Options() = default;
  /// The heading of the options declared from here on.
  virtual void under(Heading heading) = 0;
  virtual void text(const std::string& name, std::string& variable, const std::string& help) = 0;
  /// May be given several times; the help says so unless the command allows one value only.
  virtual void texts(const std::string& name, std::vector<std::string>& variable, const std::string& help,
                     bool several) = 0;
  void texts(const std::string& name, std::vector<std::string>& variable, const std::string& help) {
    texts(name, variable, help, true);
  }
  virtual void number(const std::string& name, std::optional<double>& variable, const std::string& help) = 0;
  virtual void whole(const std::string& name, std::optional<int>& variable, const std::string& help) = 0;
  virtual void flag(const std::string& name, bool& variable, const std::string& help) = 0;
  /// The words offered stand behind the name.
  virtual void choice(const std::string& name, std::string& variable, const std::vector<std::string>& offered,
                      const std::string& help) = 0;
  /// What stands on the line without a name, in order.
  virtual void positional(const std::string& name, std::vector<std::string>& variable,
                          const std::string& help) = 0;
};

class Command {
 public:
  virtual ~Command() = default;
  virtual std::string name() const = 0;
  virtual std::string purpose() const = 0;   ///< one line
  virtual std::string examples() const = 0;  ///< command lines that work, one a line
  virtual void declare(Options& options) = 0;
  /// The exit code 0, 1, 2, 3 or 4; see core/problem.hpp.
  virtual int run(Streams& streams) = 0;
};

/// Writes "soilclock: " and the problem to the error stream and gives its exit code.
int report(const Problem& problem, Streams& streams);

/// Writes a problem with one of several sites to the error stream, unless the result is text on the same
/// screen, which holds it, too.
void report_of_site(const std::string& site, const Problem& problem, const std::string& format,
                    Streams& streams);

}  // namespace soilclock::app
