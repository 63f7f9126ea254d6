// SPDX-License-Identifier: MIT
#include "soil/probe_rules.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

constexpr const char* file = "models/soil/probe_reading.json";

const ProbeRules& rules() {
  static const ProbeRules shipped = [] {
    const auto read = read_probe_rules(tests::source_text(file), file);
    if (!read) FAIL(describe(read.error()));
    return *read;
  }();
  return shipped;
}

DailyWave wave_at(double cm) { return daily_wave(rules(), Depth::from_cm(cm)); }

double added(double cm, double hour, double range_k) {
  return mean_minus_reading(wave_at(cm), hour, TemperatureDelta::from_kelvin(range_k)).kelvin();
}

void check_refused(const std::string& part, const std::string& by, const std::string& place) {
  const auto read = read_probe_rules(tests::exchanged(tests::source_text(file), part, by), file);
  REQUIRE_FALSE(read);
  INFO(describe(read.error()));
  CHECK(read.error().family == Family::request);
  CHECK(read.error().where.json_pointer == place);
}

}  // namespace

TEST_CASE("the wave passes through both depths at 6 a.m. and through nothing at their best hours") {
  // Hourly soil at Lincoln, Nebraska: 0.19 and 0.09 of the range of air at 6; the mean met at 11 and 14.
  const double two_inches = Depth::from_inches(2.0).cm();
  const double four_inches = Depth::from_inches(4.0).cm();
  CHECK(added(two_inches, 6.0, 10.0) == Approx(1.9));
  CHECK(added(four_inches, 6.0, 10.0) == Approx(0.9));
  CHECK(added(two_inches, 11.0, 10.0) == Approx(0.0).margin(1e-9));
  CHECK(added(four_inches, 14.0, 10.0) == Approx(0.0).margin(1e-9));
  // Soil in the afternoon is warmer than its day, and the day repeats.
  CHECK(added(two_inches, 16.0, 10.0) < -1.5);
  CHECK(added(two_inches, -3.0, 10.0) == Approx(added(two_inches, 21.0, 10.0)));
}

TEST_CASE("62 F at dawn, 2 inches deep, on a day of 17 F between low and high is a day of 65 F") {
  const auto range = TemperatureDelta::from_kelvin(17.0 / 1.8);
  const auto mean = Temperature::from_fahrenheit(62.0) +
                    mean_minus_reading(wave_at(Depth::from_inches(2.0).cm()), 6.0, range);
  CHECK(mean.fahrenheit() == Approx(65.2).margin(0.05));
}

TEST_CASE("the whole range of the wave is what was seen at the two depths") {
  // 0.39 to 0.53 of the range of air at 5 cm at Lincoln; at 10 cm 0.15 to 0.20 there and 0.36 in Florida.
  CHECK(2.0 * wave_at(5.0).share > 0.38);
  CHECK(2.0 * wave_at(5.0).share < 0.53);
  CHECK(2.0 * wave_at(10.0).share > 0.15);
  CHECK(2.0 * wave_at(10.0).share < 0.36);
}

TEST_CASE("with depth the wave shrinks and comes later, without a step") {
  for (double cm = 2.5; cm < 15.0; cm += 0.05) {
    CAPTURE(cm);
    const DailyWave here = wave_at(cm);
    const DailyWave below = wave_at(cm + 0.05);
    CHECK(below.share < here.share);
    CHECK(below.share > 0.99 * here.share);
    CHECK(below.mean_hour > here.mean_hour);
    CHECK(below.mean_hour < here.mean_hour + 0.05);
  }
}

TEST_CASE("below 4 inches the wave solves the heat equation of its damping depth") {
  // Second route: an explicit scheme driven by the wave at 4 inches for twelve days, compared over one day.
  const Depth top = Depth::from_inches(4.0);
  const double damping_m = rules().damping_depth.m();
  const double diffusivity = damping_m * damping_m * 3.14159265358979 / 86400.0;
  const double dz = 0.005;
  const double dt = 20.0;
  const auto range = TemperatureDelta::from_kelvin(12.0);
  const auto departure = [&](double cm, double hour) {
    return -mean_minus_reading(wave_at(cm), hour, range).kelvin();
  };
  std::vector<double> ground(161, 0.0);
  double worst = 0.0;
  for (int step = 0; step * dt < 13.0 * 86400.0; ++step) {
    const double hour = std::fmod(step * dt / 3600.0, 24.0);
    ground[0] = departure(top.cm(), hour);
    if (step * dt > 12.0 * 86400.0)
      worst = std::max(worst, std::abs(ground[8] - departure(top.cm() + 4.0, hour)));
    std::vector<double> next = ground;
    for (std::size_t i = 1; i + 1 < ground.size(); ++i) {
      next[i] += diffusivity * dt / (dz * dz) * (ground[i - 1] - 2.0 * ground[i] + ground[i + 1]);
    }
    ground = next;
  }
  CHECK(worst < 0.01);
  CHECK(std::abs(departure(top.cm() + 4.0, 8.0)) > 0.1);
}

TEST_CASE("over a day the corrections cancel, and their mean square is that of an unknown hour") {
  rc::prop("a full turn", [] {
    const double cm = *rc::gen::inRange(25, 150) / 10.0;
    const auto range = TemperatureDelta::from_kelvin(*rc::gen::inRange(0, 250) / 10.0);
    double sum = 0.0;
    double squares = 0.0;
    for (int hour = 0; hour < 24; ++hour) {
      const double k = mean_minus_reading(wave_at(cm), hour, range).kelvin();
      sum += k;
      squares += k * k / 24.0;
    }
    RC_ASSERT(std::abs(sum) < 1e-9);
    RC_ASSERT(std::abs(squares - unknown_hour_variance_k2(wave_at(cm), range)) < 1e-9);
  });
}

TEST_CASE("one spot and four spots have the errors of the file, and more spots are worth a little more") {
  CHECK(std::sqrt(spot_variance_k2(rules(), 1)) == Approx(1.2));
  CHECK(std::sqrt(spot_variance_k2(rules(), 4)) == Approx(0.8));
  for (int spots = 1; spots < 30; ++spots)
    CHECK(spot_variance_k2(rules(), spots + 1) < spot_variance_k2(rules(), spots));
  CHECK(spot_variance_k2(rules(), 1000) > 0.2);
  CHECK(std::sqrt(variance_left_k2(rules(), Depth::from_inches(2.0))) == Approx(0.8));
  CHECK(std::sqrt(variance_left_k2(rules(), Depth::from_inches(4.0))) == Approx(0.6));
  CHECK(std::sqrt(variance_left_k2(rules(), Depth::from_cm(2.5))) == Approx(0.8));
}

TEST_CASE("a file with a slip is refused at its place") {
  check_refused("\"value\": 0.19", "\"value\": 19", "/at_2_inches/below_mean_at_6/value");
  check_refused("\"mean_met_at\": {\"value\": 14", "\"mean_met_at\": {\"value\": 6",
                "/at_4_inches/mean_met_at/value");
  check_refused("\"sd_left\": {\"value\": 0.8, \"unit\": \"K\"",
                "\"sd_left\": {\"value\": 0.8, \"unit\": \"F\"", "/at_2_inches/sd_left/unit");
  check_refused("\"depth\": {\"value\": 10.16", "\"depth\": {\"value\": 4", "/at_4_inches");
  check_refused("\"damping_depth\"", "\"dampening_depth\"", "/damping_depth");
  check_refused("\"worth_explaining\"", "\"more\": 1, \"worth_explaining\"", "/more");
  check_refused("\"basis\": \"derived\", \"note\": \"judgment: what the",
                "\"basis\": \"published\", \"note\": \"judgment: what the", "/at_2_inches/sd_left/source");
  check_refused("\"four_spots_sd\": {\"value\": 0.8", "\"four_spots_sd\": {\"value\": 0.2", "/four_spots_sd");
}
