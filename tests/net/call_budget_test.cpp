// SPDX-License-Identifier: MIT
#include "net/call_budget.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "net/requests/service_requests.hpp"
#include "net/user_settings.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::net;
using std::chrono::seconds;

namespace {

const CallLimits published{600.0, 5000.0, 10000.0};

Instant at(const std::string& text) { return *parse_iso_instant("2026-10-15T" + text + "Z"); }

}  // namespace

TEST_CASE("thirty years of three variables count 235 calls") {
  // 10957 days, 0.3 x 782.6: the example of a user of the service who was refused without warning.
  CHECK(std::lround(call_weight(1, 3, 10957)) == 235);
  CHECK(std::lround(call_weight(20, 3, 10957)) == 4696);
}

TEST_CASE("a small request counts one call for each place") {
  CHECK(call_weight(1, forecast_variables, 16) == 1.0);
  CHECK(call_weight(100, history_variables, 31) == 100.0);
  CHECK(call_weight(1, 20, 7) == 2.0);
  CHECK(call_weight(1, member_variables(31), 14) == Approx(6.2));
}

TEST_CASE("a call is sent at once while the counters have room") {
  const CallBudget budget{published, {{at("10:00:05"), 300.0}}};
  CHECK(budget.before(300.0, at("10:00:30")).pause == seconds{0});
  CHECK(budget.before(301.0, at("10:00:30")).pause == seconds{30});
  CHECK_FALSE(budget.before(301.0, at("10:00:30")).tomorrow);
}

TEST_CASE("the hour's and the day's counters are waited for to the full hour and to midnight") {
  const CallBudget hour{published, {{at("10:01:00"), 4999.5}}};
  CHECK(hour.before(1.0, at("10:30:10")).pause == seconds{29 * 60 + 50});
  CHECK_FALSE(hour.before(1.0, at("10:30:10")).tomorrow);
  const CallBudget day{published, {{at("00:00:00"), 5000.0}, {at("09:00:00"), 5000.0}}};
  CHECK(day.before(1.0, at("23:59:00")).pause == seconds{60});
  CHECK(day.before(1.0, at("23:59:00")).tomorrow);
  CHECK(day.used_today(at("23:59:59")) == 10000.0);
  CHECK(day.used_today(at("23:59:59") + seconds{1}) == 0.0);
}

TEST_CASE("a call heavier than a limit waits for the zero of its counter and is then let through") {
  CallBudget budget{published, {{at("10:00:05"), 1.0}}};
  CHECK(budget.before(700.0, at("10:00:20")).pause == seconds{40});
  CHECK(budget.before(700.0, at("10:01:00")).pause == seconds{0});
  budget.sent(700.0, at("10:01:00"));
  CHECK(budget.before(1.0, at("10:01:01")).pause == seconds{59});
}

TEST_CASE("a service without published limits is never waited for") {
  const CallBudget budget{{}, std::vector<PastCall>(1000, {at("10:00:00"), 1e6})};
  CHECK(budget.before(1e6, at("10:00:00")).pause == seconds{0});
}

TEST_CASE("calls to a service that wants them apart are kept apart, and only that is said of them") {
  CallLimits apart;
  apart.least_pause = seconds{3};
  CallBudget budget{apart, {}};
  CHECK(budget.before(1.0, at("10:00:00")).pause == seconds{0});
  budget.sent(1.0, at("10:00:00"));
  CHECK(budget.before(1.0, at("10:00:00")).pause == seconds{3});
  CHECK(budget.before(1.0, at("10:00:01")).pause == seconds{2});
  CHECK(budget.before(1.0, at("10:00:03")).pause == seconds{0});
  CHECK_FALSE(budget.before(1.0, at("10:00:00")).used_up);
  CHECK_FALSE(budget.before(1.0, at("10:00:00")).tomorrow);
}

TEST_CASE("the longer of the two pauses counts, and a full counter is told from the pause between calls") {
  CallLimits limits = published;
  limits.least_pause = seconds{20};
  const CallBudget budget{limits, {{at("10:00:50"), 600.0}}};
  CHECK(budget.before(1.0, at("10:00:55")).pause == seconds{15});
  CHECK(budget.before(1.0, at("10:00:55")).used_up);
  CHECK(budget.before(1.0, at("10:01:05")).pause == seconds{5});
  CHECK_FALSE(budget.before(1.0, at("10:01:05")).used_up);
  const CallBudget full{published, {{at("00:00:00"), 10'000.0}}};
  CHECK(full.before(1.0, at("10:00:00")).used_up);
}

TEST_CASE("two calls for each of 200 sites of the US forecast service take no less than a second each") {
  const auto services = read_services(tests::source_text("config/services.json"), "", "");
  if (!services) FAIL(describe(services.error()));
  CallBudget budget{services->all.at("nws").limits, {}};
  const Instant begin = at("10:00:00");
  Instant now = begin;
  for (int i = 0; i < 400; ++i) {
    now += budget.before(1.0, now).pause;
    budget.sent(1.0, now);
  }
  CHECK(now - begin == seconds{399});
}

TEST_CASE("a clock that was set back does not make the pause between calls longer") {
  CallLimits apart;
  apart.least_pause = seconds{3};
  CallBudget budget{apart, {{at("12:00:00"), 1.0}}};
  CHECK(budget.before(1.0, at("10:00:00")).pause == seconds{0});
  budget.sent(1.0, at("10:00:00"));
  CHECK(budget.before(1.0, at("10:00:01")).pause == seconds{2});
}

TEST_CASE("calls stamped after now, as when the clock was set back, still count") {
  const CallBudget budget{published, {{at("12:00:00"), 600.0}}};
  CHECK(budget.before(1.0, at("10:00:00")).pause == seconds{60});
}

TEST_CASE("laws of the call budget") {
  rc::prop("calls are apart; no minute, hour or day holds more than its limit unless one call does", [] {
    CallLimits limits = published;
    limits.least_pause = seconds{*rc::gen::inRange(0, 4)};
    CallBudget budget{limits, {}};
    std::optional<Instant> latest;
    Instant now = at("20:00:00") + seconds{*rc::gen::inRange(0, 14'400)};
    std::map<long long, std::map<long long, std::vector<double>>> windows;  // by length and number
    const auto count = *rc::gen::inRange(1, 60);
    for (int i = 0; i < count; ++i) {
      now += seconds{*rc::gen::weightedOneOf<int>(
          {{8, rc::gen::inRange(0, 5)}, {1, rc::gen::inRange(0, 4000)}, {1, rc::gen::just(0)}})};
      const double weight =
          *rc::gen::weightedOneOf<int>({{8, rc::gen::inRange(1, 400)}, {1, rc::gen::inRange(400, 12'000)}});
      const Waiting waiting = budget.before(weight, now);
      RC_ASSERT(waiting.pause >= seconds{0} && waiting.pause <= seconds{86'400});
      if (waiting.pause > seconds{0}) {
        RC_ASSERT(budget.before(weight, now + waiting.pause - seconds{1}).pause == seconds{1});
        RC_ASSERT(budget.before(weight, now + waiting.pause).pause == seconds{0});
      }
      now += waiting.pause;
      RC_ASSERT(!latest || now - *latest >= limits.least_pause);
      latest = now;
      budget.sent(weight, now);
      for (const long long length : {60LL, 3600LL, 86'400LL})
        windows[length][now.time_since_epoch().count() / length].push_back(weight);
    }
    const std::map<long long, double> limit{{60, 600.0}, {3600, 5000.0}, {86'400, 10000.0}};
    for (const auto& [length, numbered] : windows) {
      for (const auto& [number, weights] : numbered) {
        double sum = 0.0;
        for (const double weight : weights) sum += weight;
        RC_ASSERT(sum <= limit.at(length) || weights.size() == 1);
      }
    }
  });
  rc::prop("a request weighs at least its places, and never less with more variables or days", [] {
    const int points = *rc::gen::inRange(1, 1000);
    const int variables = *rc::gen::inRange(1, 100);
    const int days = *rc::gen::inRange(1, 20'000);
    const double weight = call_weight(points, variables, days);
    RC_ASSERT(weight >= points);
    RC_ASSERT(call_weight(points, variables + 1, days) >= weight);
    RC_ASSERT(call_weight(points, variables, days + 1) >= weight);
    RC_ASSERT(std::abs(call_weight(2 * points, variables, days) - 2.0 * weight) < 1e-6 * weight);
  });
}
