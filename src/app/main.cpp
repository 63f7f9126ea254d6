// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <chrono>
#include <exception>
#include <iostream>
#include <thread>

#include "app/command_line.hpp"

int main(int count, char** words) {
  try {
    const auto now = [] { return date::floor<std::chrono::seconds>(std::chrono::system_clock::now()); };
    const auto pause = [](std::chrono::milliseconds length) { std::this_thread::sleep_for(length); };
    soilclock::app::Streams streams{std::cin, std::cout, std::cerr,     date::floor<soilclock::Days>(now()),
                                    now,      pause,     isatty(2) == 1};
    const int code = soilclock::app::run_command_line({words + 1, words + count}, streams);
    std::cout.flush();
    if (!std::cout) {
      std::cerr << "soilclock: the result could not be written (is the disk full or the pipe closed?)\n";
      return soilclock::exit_code(soilclock::Family::world);
    }
    return code;
  } catch (const std::exception& error) {
    std::cerr << "soilclock: a mistake of the program: " << error.what() << "\n";
    return soilclock::exit_code(soilclock::Family::fault);
  }
}
