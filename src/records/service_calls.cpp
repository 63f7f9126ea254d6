// SPDX-License-Identifier: MIT
#include "records/service_calls.hpp"

#include "records/stored_values.hpp"

namespace soilclock::records {

Result<bool> ServiceCalls::add(const std::string& service, const CountedCall& call) {
  return guarded([&] {
    database_.prepare("INSERT INTO service_call(service, sent_at, weight) VALUES (?,?,?)")
        .bind({service, iso(call.at), call.weight})
        .run();
    return true;
  });
}

Result<std::vector<CountedCall>> ServiceCalls::since(const std::string& service, Instant begin) {
  return guarded([&] {
    Statement rows = database_.prepare(
        "SELECT sent_at, weight FROM service_call WHERE service = ? AND sent_at >= ? ORDER BY sent_at");
    rows.bind({service, iso(begin)});
    std::vector<CountedCall> calls;
    while (rows.step())
      calls.push_back({instant_of(rows, 0, database_.path()), number_of(rows, 1).value_or(0.0)});
    return calls;
  });
}

}  // namespace soilclock::records
