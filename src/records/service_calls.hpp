// SPDX-License-Identifier: MIT
// Calls sent to services, whether anything came of them or not: they count against what a service allows a
// day.
#pragma once

#include <string>
#include <vector>

#include "core/time_zone.hpp"
#include "records/store.hpp"

namespace soilclock::records {

/// A call to a service as the budget counts it.
struct CountedCall {
  Instant at{};
  double weight = 0.0;
};

class ServiceCalls {
 public:
  /// Works on the records file of `store`, which must outlive it.
  explicit ServiceCalls(Store& store) : database_{store.database()} {}

  /// Problem (environment): the file cannot be written.
  Result<bool> add(const std::string& service, const CountedCall& call);
  /// Calls to a service since an instant, in order of time.
  Result<std::vector<CountedCall>> since(const std::string& service, Instant begin);

 private:
  Database& database_;
};

}  // namespace soilclock::records
