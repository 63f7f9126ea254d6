// SPDX-License-Identifier: MIT
#include "treatment/mixture.hpp"

#include <rapidcheck/catch.h>

#include "model_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// An action that kills the same share at every stage.
FoliarAction action(int group, double percent, double resistant_percent = 0.0) {
  FoliarAction made;
  made.group = group;
  made.kill.fill(Fraction::from_percent(percent));
  made.resistant = Fraction::from_percent(resistant_percent);
  return made;
}

double together(const std::vector<FoliarAction>& actions) {
  static const MixtureRule rule = shipped_mixture();
  const KillByStage kill = combined_kill(actions, rule);
  for (const Fraction& share : kill) CHECK(share == kill.front());
  return kill.front().percent();
}

}  // namespace

TEST_CASE("two actions reach 95 percent of Colby's expectation") {
  // E = X + Y - XY/100 = 80 + 70 - 56 = 94; times 0.95.
  CHECK(together({action(9, 80), action(14, 70)}) == Approx(94.0 * 0.95));
  CHECK(together({action(14, 70), action(9, 80)}) == Approx(94.0 * 0.95));
}

TEST_CASE("no mixture does more than the cap, and one action alone is left as it is") {
  CHECK(together({action(5, 90), action(27, 80)}) == Approx(95.0));  // 98 by Colby
  CHECK(together({action(9, 97)}) == Approx(97.0));
  CHECK(together({}) == 0.0);
}

TEST_CASE("a mixture never does less than the better of its actions") {
  // 90 + 10 - 9 = 91; times 0.95 would be 86.45.
  CHECK(together({action(9, 90), action(14, 10)}) == Approx(90.0));
  CHECK(together({action(9, 90), action(14, 0)}) == Approx(90.0));
}

TEST_CASE("groups 5 and 27 reach all of the expectation, in either order and in a larger mixture") {
  CHECK(together({action(5, 60), action(27, 60)}) == Approx(84.0));
  CHECK(together({action(27, 60), action(5, 60)}) == Approx(84.0));
  CHECK(together({action(5, 60), action(14, 60)}) == Approx(84.0 * 0.95));
  // A third action that does nearly nothing takes nothing from the two.
  CHECK(together({action(5, 60), action(27, 60), action(14, 1)}) == Approx(84.0));
}

TEST_CASE("three effective groups stand above two, and two above one") {
  const double one = together({action(9, 70)});
  const double two = together({action(9, 70), action(14, 60)});
  const double three = together({action(9, 70), action(14, 60), action(2, 50)});
  CHECK(one == Approx(70.0));
  CHECK(two == Approx(88.0 * 0.95));
  CHECK(three == Approx(94.0 * 0.95));
}

TEST_CASE("resistant plants are the same plants: those that withstand one group withstand the weaker ones") {
  // A: 80, 40 percent resistant; B: 70, 10 percent resistant. A tenth of the plants withstands both; three
  // tenths meet B alone; six tenths meet both: 0.3 x 70 + 0.6 x 89.3.
  CHECK(together({action(9, 80, 40), action(14, 70, 10)}) == Approx(0.3 * 70.0 + 0.6 * 89.3));
  CHECK(together({action(9, 80, 25)}) == Approx(60.0));
  CHECK(together({action(9, 80, 100), action(14, 70)}) == Approx(70.0));
  CHECK(together({action(9, 80, 100), action(14, 70, 100)}) == Approx(0.0));
}

TEST_CASE("stages are combined one by one") {
  FoliarAction young = action(14, 0);
  young.kill[0] = Fraction::from_percent(90);
  const KillByStage kill = combined_kill(std::vector{young, action(9, 50)}, shipped_mixture());
  CHECK(kill[0].percent() == Approx(95.0 * 0.95));
  CHECK(kill[4].percent() == Approx(50.0));
}

TEST_CASE("laws of mixtures") {
  static const MixtureRule rule = shipped_mixture();
  const auto any_action = [] {
    return action(*rc::gen::element(2, 5, 9, 14, 27), *rc::gen::inRange(0, 101), *rc::gen::inRange(0, 101));
  };
  rc::prop("a further action never takes away, whatever is resistant to it", [&] {
    std::vector<FoliarAction> actions;
    double before = 0.0;
    const int count = *rc::gen::inRange(1, 5);
    for (int i = 0; i < count; ++i) {
      actions.push_back(any_action());
      const double after = combined_kill(actions, rule).front().value();
      RC_ASSERT(after >= before - 1e-12);
      before = after;
    }
  });
  rc::prop("the order of the actions does not matter", [&] {
    std::vector<FoliarAction> actions{any_action(), any_action(), any_action()};
    const double one_way = combined_kill(actions, rule).front().value();
    std::swap(actions[0], actions[*rc::gen::inRange(1, 3)]);
    RC_ASSERT(std::abs(combined_kill(actions, rule).front().value() - one_way) < 1e-12);
  });
}

TEST_CASE("a mixtures file with a mistake does not load and the message says where") {
  const auto place = [](const std::string& part, const std::string& by) {
    const auto result =
        read_mixture_rule(tests::exchanged(model_text("mixtures.json"), part, by), "mixtures.json");
    REQUIRE(!result);
    INFO(describe(result.error()));
    CHECK(result.error().family == Family::request);
    return result.error().where.json_pointer;
  };
  CHECK(place("\"value\": 0.95", "\"value\": 1.95") == "/share_of_expectation/value");
  CHECK(place("[5, 27]", "[5]") == "/full_expectation/0/groups");
  CHECK(place("\"unit\": \"1\"", "\"unit\": \"%\"") == "/share_of_expectation/unit");
  CHECK(place("\"cap\"", "\"kap\"") == "/cap");
  CHECK(place("[0, 10, 25, 30]", "[0, 10, 30]") == "/points_on_plants_up/points");
  CHECK(place("[0, 10, 25, 30]", "[0, 30, 25, 30]") == "/points_on_plants_up/points");
  CHECK(place("[0, 10, 25, 30]", "[0, 10, 25, 40]") == "/");  // 110 points in all
}
