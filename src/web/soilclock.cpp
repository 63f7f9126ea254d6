// SPDX-License-Identifier: MIT
#include "web/soilclock.h"

#include <fmt/format.h>

#include <exception>
#include <new>
#include <string>

#include "core/limits.hpp"
#include "core/zone_rules.hpp"
#include "web/desk.hpp"

struct soilclock_desk {
  soilclock::web::Desk desk;
  soilclock::web::Outcome outcome;
};

namespace {

using soilclock::web::Outcome;

/// Nothing may be thrown through C: what is thrown here is a mistake of the program, or no memory is left.
template <class Ask>
int answer(soilclock_desk* desk, const Ask& ask) noexcept {
  try {
    desk->outcome = ask(desk->desk);
  } catch (const std::exception& error) {
    const std::string line = std::string{"soilclock: a mistake of the program: "} + error.what() + "\n";
    desk->outcome = {soilclock::exit_code(soilclock::Family::fault), {}, line};
  }
  return desk->outcome.code;
}

}  // namespace

extern "C" {

soilclock_desk* soilclock_open(void) { return new (std::nothrow) soilclock_desk; }

void soilclock_close(soilclock_desk* desk) { delete desk; }

int soilclock_put_file(soilclock_desk* desk, const char* name, const char* bytes, size_t size) {
  return answer(desk, [&](auto& at) {
    if (at.put_file(name, {bytes, size})) return Outcome{};
    return Outcome{soilclock::exit_code(soilclock::Family::request),
                   {},
                   fmt::format("soilclock: {}: this file is larger than {} MB; cut it to the years needed\n",
                               name, soilclock::largest_file_bytes / 1'000'000)};
  });
}

void soilclock_drop_files(soilclock_desk* desk) { desk->desk.drop_files(); }

int soilclock_advice(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.advice(sites, options); });
}

int soilclock_course(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.course(sites, options); });
}

int soilclock_courses(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.courses(sites, options); });
}

int soilclock_what_if(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.what_if(sites, options); });
}

int soilclock_cases(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.cases(sites, options); });
}

int soilclock_comparison(soilclock_desk* desk, const char* sites, const char* options) {
  return answer(desk, [&](auto& at) { return at.comparison(sites, options); });
}

int soilclock_inspect(soilclock_desk* desk, const char* options) {
  return answer(desk, [&](auto& at) { return at.inspection(options); });
}

const char* soilclock_result(const soilclock_desk* desk) { return desk->outcome.result.c_str(); }

size_t soilclock_result_size(const soilclock_desk* desk) { return desk->outcome.result.size(); }

const char* soilclock_problems(const soilclock_desk* desk) { return desk->outcome.problems.c_str(); }

const char* soilclock_version(void) {
  static const std::string version =
      std::string{SOILCLOCK_VERSION} + ", time zones of " + soilclock::time_zone_version();
  return version.c_str();
}
}
