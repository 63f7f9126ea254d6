// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <ctime>
#include <exception>
#include <iostream>
#include <thread>

#include "app/command_line.hpp"
#include "app/shown_output.hpp"

namespace {

/// Today as the calendar of whoever sits here says: in an American evening the day of universal time is
/// tomorrow.
soilclock::Day calendar_day(soilclock::Instant now) {
  const std::time_t seconds = now.time_since_epoch().count();
  std::tm parts{};
  localtime_r(&seconds, &parts);
  return soilclock::make_day(parts.tm_year + 1900, static_cast<unsigned>(parts.tm_mon) + 1,
                             static_cast<unsigned>(parts.tm_mday));
}

}  // namespace

int main(int count, char** words) {
  // At a limit on file size a write then fails, which is reported, instead of the signal killing the program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    const auto now = [] { return date::floor<std::chrono::seconds>(std::chrono::system_clock::now()); };
    const auto pause = [](std::chrono::milliseconds length) { std::this_thread::sleep_for(length); };
    soilclock::app::ShownOutput shown_results{*std::cout.rdbuf()};
    soilclock::app::ShownOutput shown_remarks{*std::cerr.rdbuf()};
    std::ostream out{&shown_results};
    std::ostream err{&shown_remarks};
    err.setf(std::ios::unitbuf);
    soilclock::app::Streams streams{std::cin,
                                    out,
                                    err,
                                    calendar_day(now()),
                                    now,
                                    pause,
                                    isatty(2) == 1,
                                    isatty(1) == 1 && isatty(2) == 1};
    const int code = soilclock::app::run_command_line({words + 1, words + count}, streams);
    out.flush();
    if (!out) {
      std::cerr << "soilclock: the result could not be written (is the disk full or the pipe closed?)\n";
      return soilclock::exit_code(soilclock::Family::environment);
    }
    return code;
  } catch (const std::exception& error) {
    std::cerr << "soilclock: a mistake of the program: " << error.what() << "\n";
    return soilclock::exit_code(soilclock::Family::fault);
  }
}
