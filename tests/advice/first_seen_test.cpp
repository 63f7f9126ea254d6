// SPDX-License-Identifier: MIT
#include "advice/scouting/first_seen.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "support/shipped_catalogue.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

constexpr const char* rule_file = "models/scouting/first_seen.json";

const FirstSeenRule& rule() { return tests::shipped_catalogue().scouting.first_seen; }

/// Nothing up before a season day, then two points of a hundred more each day.
emergence::EmergenceCurve rising_from(int day) {
  emergence::EmergenceCurve curve;
  for (int d = 0; d < 365; ++d) curve.up.push_back(std::clamp((d - day + 1) * 0.02, 0.0, 1.0));
  return curve;
}

double likelihood(int seen, int first_up) {
  return std::exp(first_seen_log_likelihood(rule(), rising_from(first_up), seen));
}

}  // namespace

TEST_CASE("a note is likeliest in the season that has just begun, and earlier and later ones lose alike") {
  CHECK(likelihood(100, 100) > likelihood(100, 95));
  CHECK(likelihood(100, 95) > likelihood(100, 88));
  CHECK(likelihood(100, 93) == Approx(likelihood(100, 107)));
  // One standard deviation away, by hand: 0.9 e^-0.5 / (7 sqrt(2 pi)) + 0.1 / 365.
  CHECK(likelihood(100, 107) == Approx(0.0313845).margin(1e-6));
}

TEST_CASE("a note far from every season rules none out") {
  CHECK(likelihood(20, 100) == Approx(0.1 / 365.0));
  CHECK(likelihood(20, 100) == Approx(likelihood(20, 200)));
  emergence::EmergenceCurve none;
  none.up.assign(365, 0.0);
  CHECK(std::isfinite(first_seen_log_likelihood(rule(), none, 100)));
}

TEST_CASE("over the days of a season the likelihood of a note adds up to one") {
  double sum = 0.0;
  for (int seen = 0; seen < 365; ++seen) sum += likelihood(seen, 180);
  CHECK(sum == Approx(1.0).margin(1e-6));
}

TEST_CASE("a file with a slip is refused at its place") {
  const auto place = [](const std::string& part, const std::string& by) {
    const auto read =
        read_first_seen_rule(tests::exchanged(tests::source_text(rule_file), part, by), rule_file);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"value\": 2,", "\"value\": 0,") == "/share_up/value");
  CHECK(place("\"unit\": \"d\"", "\"unit\": \"h\"") == "/sd/unit");
  CHECK(place("\"says_nothing\"", "\"says_noting\"") == "/says_nothing");
}
