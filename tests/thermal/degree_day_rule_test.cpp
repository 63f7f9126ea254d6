// SPDX-License-Identifier: MIT
#include "thermal/degree_day_rule.hpp"

#include <catch2/catch.hpp>

#include "celsius_series.hpp"
#include "thermal/degree_day.hpp"

using namespace soilclock;
using namespace soilclock::thermal;
using tests::c;

TEST_CASE("the words of methods and cutoffs are read and printed alike") {
  for (const char* word :
       {"average", "clamped", "triangle", "sine", "double-triangle", "double-sine", "hourly", "four-case"}) {
    const auto method = parse_method(word);
    REQUIRE(method.has_value());
    CHECK(name(*method) == word);
  }
  for (const char* word : {"none", "horizontal", "intermediate", "vertical"}) {
    const auto cutoff = parse_cutoff(word);
    REQUIRE(cutoff.has_value());
    CHECK(name(*cutoff) == word);
  }
}

TEST_CASE("a misspelled method is refused with the nearest word") {
  const auto method = parse_method("sinus");
  REQUIRE_FALSE(method.has_value());
  CHECK(method.error().family == Family::request);
  CHECK_THAT(describe(method.error()), Catch::Contains("'sinus'") &&
                                           Catch::Contains("did you mean 'sine'?") &&
                                           Catch::Contains("four-case"));
}

TEST_CASE("combinations that do not exist are request problems") {
  const auto family_of = [](const DegreeDayRule& rule) {
    const auto result = checked(rule);
    REQUIRE_FALSE(result.has_value());
    return result.error().family;
  };
  CHECK(family_of({Method::four_case, c(10), c(30), Cutoff::horizontal, true}) == Family::request);
  CHECK(family_of({Method::average, c(10), c(30), Cutoff::vertical, true}) == Family::request);
  CHECK(family_of({Method::average, c(10), c(30), Cutoff::intermediate, true}) == Family::request);
  CHECK(family_of({Method::clamped, c(10), c(30), Cutoff::vertical, true}) == Family::request);
  CHECK(family_of({Method::sine, c(10), {}, Cutoff::horizontal, true}) == Family::request);
  CHECK(family_of({Method::sine, c(30), c(10), Cutoff::horizontal, true}) == Family::request);
  CHECK(family_of({Method::sine, c(10), c(10), Cutoff::horizontal, true}) == Family::request);
  CHECK(family_of({Method::sine, Temperature::unknown(), {}, Cutoff::none, true}) == Family::request);
}

TEST_CASE("an upper threshold without a cutoff is accepted and changes nothing but the clamped method") {
  const auto value = [](Method method, std::optional<Temperature> upper) {
    const auto result = degree_days_of_day({method, c(10), upper, Cutoff::none, true}, c(20), c(36));
    REQUIRE(result.has_value());
    return result->value.celsius_days();
  };
  CHECK(value(Method::sine, c(30)) == value(Method::sine, {}));
  CHECK(value(Method::average, c(30)) == value(Method::average, {}));
  CHECK(value(Method::clamped, {}) == Approx(18.0));
  CHECK(value(Method::clamped, c(30)) == Approx(15.0));
}

TEST_CASE("the average with a horizontal cutoff caps the mean") {
  const DegreeDayRule rule{Method::average, c(10), c(30), Cutoff::horizontal, true};
  CHECK(degree_days_of_day(rule, c(20), c(36))->value.celsius_days() == Approx(18.0));
  CHECK(degree_days_of_day(rule, c(28), c(40))->value.celsius_days() == Approx(20.0));
}

TEST_CASE("a minimum above its maximum is a data problem and equal extremes are a constant day") {
  const DegreeDayRule rule{Method::sine, c(10), {}, Cutoff::none, true};
  const auto reversed = degree_days_of_day(rule, c(20), c(19.9));
  REQUIRE_FALSE(reversed.has_value());
  CHECK(reversed.error().family == Family::data);
  for (const Method method : {Method::average, Method::clamped, Method::sine, Method::triangle,
                              Method::double_sine, Method::double_triangle, Method::four_case}) {
    CHECK(degree_days_of_day({method, c(10), {}, Cutoff::none, true}, c(14), c(14))->value.celsius_days() ==
          Approx(4.0));
  }
}

TEST_CASE("an unknown extreme is a data problem, never zero degree-days") {
  const auto value =
      degree_days_of_day({Method::sine, c(10), {}, Cutoff::none, true}, Temperature::unknown(), c(20));
  REQUIRE_FALSE(value.has_value());
  CHECK(value.error().family == Family::data);
}

TEST_CASE("a constant day exactly at the upper threshold does not count as above it") {
  const DegreeDayRule rule{Method::sine, c(10), c(30), Cutoff::vertical, true};
  CHECK(degree_days_of_day(rule, c(30), c(30))->value.celsius_days() == Approx(20.0));
  CHECK(degree_days_of_day(rule, c(30.001), c(30.001))->value.celsius_days() == Approx(0.0));
}

TEST_CASE("a double method without the next minimum uses its own and says that the value is provisional") {
  const DegreeDayRule rule{Method::double_sine, c(10), {}, Cutoff::none, true};
  const auto alone = degree_days_of_day(rule, c(4), c(20));
  REQUIRE(alone.has_value());
  CHECK(alone->provisional);
  CHECK(alone->value ==
        degree_days_of_day({Method::sine, c(10), {}, Cutoff::none, true}, c(4), c(20))->value);
  CHECK_FALSE(degree_days_of_day(rule, c(4), c(20), c(11))->provisional);
}

TEST_CASE("a next minimum above the maximum makes the second half day run between the two") {
  const DegreeDayRule rule{Method::double_triangle, c(10), {}, Cutoff::none, true};
  // First half 5..12 C gives 4/14, second half 12..16 C gives 4.
  CHECK(degree_days_of_day(rule, c(5), c(12), c(16))->value.celsius_days() ==
        Approx(0.5 * (4.0 / 14.0) + 0.5 * 4.0));
}

TEST_CASE("uneven readings are joined by straight lines and cut where they cross the thresholds") {
  const DegreeDayRule rule{Method::hourly, c(10), {}, Cutoff::none, true};
  // 0 to 20 C over 600 minutes lies above 10 C for half the time, 5 C on average there: mean 2.5; then 20 C
  // stays.
  const std::vector<Reading> readings{{0, c(0)}, {600, c(20)}, {1200, c(20)}};
  CHECK(degree_days_of_readings(rule, readings)->celsius_days() == Approx(0.5 * 2.5 + 0.5 * 10.0));
}

TEST_CASE("readings that cannot be a day are data problems") {
  const DegreeDayRule rule{Method::hourly, c(10), {}, Cutoff::none, true};
  const auto family_of = [&](const std::vector<Reading>& readings) {
    const auto result = degree_days_of_readings(rule, readings);
    REQUIRE_FALSE(result.has_value());
    return result.error().family;
  };
  CHECK(family_of({}) == Family::data);
  CHECK(family_of({{0, c(5)}}) == Family::data);
  CHECK(family_of({{0, c(5)}, {60, c(5)}, {120, c(5)}}) == Family::data);
  CHECK(family_of({{0, c(5)}, {60, c(5)}, {60, c(5)}, {1380, c(5)}}) == Family::data);
  CHECK(family_of({{0, c(5)}, {600, Temperature::unknown()}, {1380, c(5)}}) == Family::data);
  CHECK(degree_days_of_readings({Method::sine, c(10), {}, Cutoff::none, true},
                                std::vector<Reading>{{0, c(5)}, {720, c(5)}})
            .error()
            .family == Family::request);
}
