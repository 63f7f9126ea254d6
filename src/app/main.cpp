// SPDX-License-Identifier: MIT
#include <chrono>
#include <exception>
#include <iostream>

#include "app/command_line.hpp"

int main(int count, char** words) {
  try {
    const auto today = date::floor<soilclock::Days>(std::chrono::system_clock::now());
    soilclock::app::Streams streams{std::cin, std::cout, std::cerr, today};
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
