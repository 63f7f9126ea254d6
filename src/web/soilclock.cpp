// SPDX-License-Identifier: MIT
#include "web/soilclock.h"

#include <fmt/format.h>

#include <exception>
#include <new>
#include <string>

#include "core/limits.hpp"
#include "core/zone_rules.hpp"
#include "web/session.hpp"

struct soilclock_session {
  soilclock::web::Session asked_of;
  soilclock::web::Outcome outcome;
};

namespace {

using soilclock::web::Outcome;

/// Nothing may be thrown through C: what is thrown here is a mistake of the program, or no memory is left.
template <class Ask>
int answer(soilclock_session* session, const Ask& ask) noexcept {
  try {
    session->outcome = ask(session->asked_of);
  } catch (const std::exception& error) {
    const std::string line = std::string{"soilclock: a mistake of the program: "} + error.what() + "\n";
    session->outcome = {soilclock::exit_code(soilclock::Family::fault), {}, line};
  }
  return session->outcome.code;
}

}  // namespace

extern "C" {

soilclock_session* soilclock_open(void) { return new (std::nothrow) soilclock_session; }

void soilclock_close(soilclock_session* session) { delete session; }

int soilclock_put_file(soilclock_session* session, const char* name, const char* bytes, size_t size) {
  return answer(session, [&](auto& at) { return at.put_file(name, {bytes, size}); });
}

int soilclock_put_answer(soilclock_session* session, const char* name, int status, const char* bytes,
                         size_t size) {
  return answer(session, [&](auto& at) { return at.put_answer(name, status, {bytes, size}); });
}

void soilclock_drop_files(soilclock_session* session) { session->asked_of.drop_files(); }

int soilclock_advice(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.advice(sites, options); });
}

int soilclock_course(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.course(sites, options); });
}

int soilclock_courses(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.courses(sites, options); });
}

int soilclock_what_if(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.what_if(sites, options); });
}

int soilclock_cases(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.cases(sites, options); });
}

int soilclock_comparison(soilclock_session* session, const char* sites, const char* options) {
  return answer(session, [&](auto& at) { return at.comparison(sites, options); });
}

int soilclock_inspect(soilclock_session* session, const char* options) {
  return answer(session, [&](auto& at) { return at.inspection(options); });
}

int soilclock_weather_request(soilclock_session* session, const char* options) {
  return answer(session, [&](auto& at) { return at.weather_request(options); });
}

const char* soilclock_result(const soilclock_session* session) { return session->outcome.result.c_str(); }

size_t soilclock_result_size(const soilclock_session* session) { return session->outcome.result.size(); }

const char* soilclock_problems(const soilclock_session* session) { return session->outcome.problems.c_str(); }

const char* soilclock_limits(void) {
  static const std::string limits = fmt::format(R"({{"largest_file_bytes": {}, "most_cases": {}}})",
                                                soilclock::largest_file_bytes, soilclock::web::most_cases);
  return limits.c_str();
}

const char* soilclock_version(void) {
  static const std::string version =
      std::string{SOILCLOCK_VERSION} + ", time zones of " + soilclock::time_zone_version();
  return version.c_str();
}
}
