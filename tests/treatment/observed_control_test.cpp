// SPDX-License-Identifier: MIT
// Both formulas and their bands, worked by hand. 80 percent of a normal lie within 1.28155 standard
// deviations.
#include "treatment/observed_control.hpp"

#include <catch2/catch.hpp>
#include <numeric>

#include "patchy_strips.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const CountDoubt doubt{1.2, 0.7, Fraction::from_percent(1.0)};

template <class Compared>
ObservedControl seen(const Compared& compared) {
  const auto control = observed_control(compared, doubt);
  if (!control) FAIL(describe(control.error()));
  return *control;
}

template <class Compared>
std::string refused(const Compared& compared) {
  const auto control = observed_control(compared, doubt);
  REQUIRE_FALSE(control);
  CHECK(control.error().family == Family::request);
  CHECK(!control.error().expected.empty());
  return control.error().what;
}

Fraction percent(double value) { return Fraction::from_percent(value); }

}  // namespace

TEST_CASE("Abbott's control of three plots on each side, by hand") {
  // Means 10 and 1: 90 percent. Totals 30 and 3: ln(3.5 / 30.5) = -2.1650; variance 1/3.5 + 1/30.5 +
  // 2 / (3 x 1.2) = 0.87406; 1.28155 x 0.93491 = 1.1981; 1 - exp(-2.1650 +- 1.1981).
  const ObservedControl control = seen(PlotsCompared{{2, 1, 0}, {12, 8, 10}, {}, {}});
  CHECK(control.formula == ControlFormula::abbott);
  CHECK(control.percent.middle == Approx(90.0));
  CHECK(control.percent.low == Approx(61.97).margin(0.02));
  CHECK(control.percent.high == Approx(96.54).margin(0.02));
}

TEST_CASE("Abbott's control goes by the mean of a plot where sides have unequal plots") {
  CHECK(seen(PlotsCompared{{1, 1}, {4, 4, 4, 4}, {}, {}}).percent.middle == Approx(75.0));
}

TEST_CASE("Henderson and Tilton's control, by hand") {
  // 1 - (15 / 60) (40 / 50) = 80 percent. (15.5 x 40.5) / (60.5 x 50.5) = 0.205466; variance 1/15.5 + 1/60.5
  // + 1/50.5 + 1/40.5 = 0.125538; 1.28155 x 0.354313 = 0.454072; 1 - 0.205466 exp(+-0.454072).
  const ObservedControl control = seen(PlotsCompared{{15}, {50}, {60}, {40}});
  CHECK(control.formula == ControlFormula::henderson_tilton);
  CHECK(control.percent.middle == Approx(80.0));
  CHECK(control.percent.low == Approx(67.64).margin(0.02));
  CHECK(control.percent.high == Approx(86.95).margin(0.02));
}

TEST_CASE(
    "an untreated strip that stayed as it was leaves Henderson and Tilton with the fall of the treated "
    "side") {
  CHECK(seen(PlotsCompared{{10}, {70}, {100}, {70}}).percent.middle == Approx(90.0));
}

TEST_CASE("cover judged by eye, by hand") {
  // 40 and 4 percent: 90. ln 0.1 = -2.30259; 1.28155 x 0.7 x sqrt 2 = 1.26867; 1 - exp(-2.30259 +- 1.26867).
  const ObservedControl control = seen(CoverCompared{percent(4.0), percent(40.0), {}, {}});
  CHECK(control.percent.middle == Approx(90.0));
  CHECK(control.percent.low == Approx(64.44).margin(0.02));
  CHECK(control.percent.high == Approx(97.19).margin(0.02));
  // (4 / 20) (20 / 40) leaves a tenth as well; twice the looks, twice the variance.
  const ObservedControl with_before =
      seen(CoverCompared{percent(4.0), percent(40.0), percent(20.0), percent(20.0)});
  CHECK(with_before.formula == ControlFormula::henderson_tilton);
  CHECK(with_before.percent.middle == Approx(90.0));
  CHECK(with_before.percent.low < control.percent.low);
}

TEST_CASE("no plants left is full control with a doubt, more plants than untreated is less than none") {
  const ObservedControl full = seen(PlotsCompared{{0, 0, 0}, {12, 8, 10}, {}, {}});
  CHECK(full.percent.middle == 100.0);
  CHECK(full.percent.high == 100.0);
  CHECK(full.percent.low < 97.0);
  const ObservedControl bare = seen(CoverCompared{percent(0.0), percent(50.0), {}, {}});
  CHECK(bare.percent.middle == 100.0);
  CHECK(bare.percent.low < 95.0);
  CHECK(seen(PlotsCompared{{20}, {10}, {}, {}}).percent.middle == Approx(-100.0));
}

TEST_CASE("what cannot be judged is refused") {
  CHECK(refused(PlotsCompared{{1, 0}, {}, {}, {}}) == "counts of one side are missing");
  CHECK(refused(PlotsCompared{{}, {3}, {}, {}}) == "counts of one side are missing");
  CHECK(refused(PlotsCompared{{0}, {0, 0}, {}, {}}).starts_with("nothing grew in the untreated strip"));
  CHECK(refused(PlotsCompared{{1}, {5}, {4}, {}}).starts_with("the plots counted before"));
  CHECK(refused(PlotsCompared{{1}, {5}, {4, 4}, {5}}).starts_with("the plots counted before"));
  CHECK(refused(PlotsCompared{{1}, {5}, {0}, {5}}).starts_with("nothing grew before"));
  CHECK(refused(CoverCompared{percent(0.0), percent(0.5), {}, {}})
            .starts_with("nothing grew in the untreated"));
  CHECK(refused(CoverCompared{percent(1.0), percent(20.0), percent(10.0), {}}).starts_with("cover before"));
  CHECK(refused(CoverCompared{percent(1.0), percent(20.0), percent(10.0), percent(0.0)})
            .starts_with("nothing grew before"));
}

TEST_CASE("the band holds the true control of patchy turf about four times in five", "[statistics]") {
  for (const double left : {0.1, 0.4}) {
    for (const std::size_t plots : {3U, 10U}) {
      const HeldControls held = controls_held(left, plots, doubt);
      CAPTURE(left, plots);
      REQUIRE(held.judged > 0.97 * held.strips);
      CHECK(held.share() > 0.74);
      CHECK(held.share() < 0.88);
    }
  }
}
