// SPDX-License-Identifier: MIT
#include "treatment/logged.hpp"

#include <numeric>

#include "model_files.hpp"
#include "support/textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// A contact part and a residual of ten weeks that do all they can.
const DrawnTreatment& sure_draw() {
  static const DrawnTreatment drawn{shipped_control().row("contact")->kill, {{3, 10.0, 65400.0, 0.96}}};
  return drawn;
}

LoggedApplication pre_on(int day, int group = 3) {
  LoggedApplication application;
  application.day = TextbookSeason::day(day);
  application.drawn = sure_draw();
  application.drawn.residuals.front().group = group;
  return application;
}

double left_after(const std::vector<LoggedApplication>& logged) {
  static const TextbookSeason season{bluegrass_growth()};
  static const GrassControl grass = shipped_control();
  static const ResidualRule rule = shipped_residual();
  const std::vector<double> left = surviving_shares(season.cohorts(), logged, grass, rule);
  return std::accumulate(left.begin(), left.end(), 0.0);
}

}  // namespace

TEST_CASE("what one logged application leaves is what it did not control") {
  const TextbookSeason season{bluegrass_growth()};
  const SeasonCohorts cohorts = season.cohorts();
  const GrassControl grass = shipped_control();
  const ResidualRule rule = shipped_residual();
  const ExpectedControl control{cohorts, sure_draw(), grass, rule};
  int compared = 0;
  for (const Kind kind : all_kinds) {
    for (const int day : {-20, 14, 45, 90, 160}) {
      LoggedApplication application = pre_on(day);
      application.kind = kind;
      const double share = control.on(application.day)[index_of(kind)];
      if (share >= grass.cap.value()) continue;
      ++compared;
      INFO(treatment::name(kind) << " on day " << day);
      CHECK(left_after({application}) == Approx(left_after({}) - share).margin(1e-9));
    }
  }
  CHECK(compared >= 12);
}

TEST_CASE("a second application leaves less than the first alone, and halves leave more than wholes") {
  LoggedApplication half = pre_on(0);
  half.share_of_dose = 0.5;
  LoggedApplication second_half = pre_on(49);
  second_half.share_of_dose = 0.5;
  CHECK(left_after({half, second_half}) < left_after({half}));
  CHECK(left_after({pre_on(0), pre_on(49)}) < left_after({half, second_half}));
  CHECK(left_after({half, second_half}) < left_after({pre_on(0)}));
}

TEST_CASE("a residual never watered in takes nothing and leaves no dose, a late one takes less") {
  LoggedApplication dry = pre_on(10);
  dry.activation_delay_days.reset();
  LoggedApplication late = pre_on(10);
  late.activation_delay_days = 14;
  CHECK(left_after({dry}) == Approx(left_after({})));
  CHECK(left_after({late}) > left_after({pre_on(10)}));
  const TextbookSeason season{bluegrass_growth()};
  const std::vector logged{dry};
  const ResidualRule rule = shipped_residual();
  CHECK(LoggedDoses{season.cohorts(), logged, rule}.left_on(dry.day) == 0.0);
}

TEST_CASE("doses of one group add up, and two groups stop what either would stop") {
  const TextbookSeason season{bluegrass_growth()};
  const ResidualRule rule = shipped_residual();
  const auto stopped = [&](const std::vector<LoggedApplication>& logged) {
    return LoggedDoses{season.cohorts(), logged, rule}.stopped_on(200);
  };
  const auto left = [&](const std::vector<LoggedApplication>& logged, int day) {
    return *LoggedDoses{season.cohorts(), logged, rule}.left_on(TextbookSeason::day(day));
  };
  const double alone = stopped({pre_on(0)});
  CHECK(alone > 0.0);
  CHECK(stopped({pre_on(0, 3), pre_on(0, 14)}) == Approx(1.0 - (1.0 - alone) * (1.0 - alone)));
  CHECK(left({pre_on(0, 3), pre_on(0, 3)}, 30) == Approx(2.0 * left({pre_on(0)}, 30)));
  CHECK(left({pre_on(0, 3), pre_on(0, 14)}, 30) == Approx(left({pre_on(0)}, 30)));
}

TEST_CASE("an application outside the season changes nothing") {
  CHECK(left_after({pre_on(45 - 365)}) == left_after({}));
  CHECK(left_after({pre_on(45 + 365)}) == left_after({}));
}

TEST_CASE("a logged treatment lowers what any later one can still do") {
  const TextbookSeason season{bluegrass_growth()};
  const GrassControl grass = shipped_control();
  const ResidualRule rule = shipped_residual();
  const SeasonCohorts cohorts = season.cohorts();
  LoggedApplication october = pre_on(45);
  october.kind = Kind::pre_post;
  const std::vector<double> left = surviving_shares(cohorts, std::vector{october}, grass, rule);
  SeasonCohorts net = cohorts;
  net.emerging_share = left;
  const ExpectedControl before{cohorts, sure_draw(), grass, rule};
  const ExpectedControl after{net, sure_draw(), grass, rule};
  for (int day = 45; day < 250; day += 7) {
    const auto full = before.on(TextbookSeason::day(day));
    const auto rest = after.on(TextbookSeason::day(day));
    for (std::size_t kind = 0; kind < kind_count; ++kind) CHECK(rest[kind] <= full[kind] + 1e-12);
  }
  CHECK(after.on(TextbookSeason::day(52))[index_of(Kind::pre_post)] < 0.15);
}

TEST_CASE("dose left starts at one, halves in a half-life of 20 C and is not known without a residual") {
  const TextbookSeason season{bluegrass_growth()};
  const ResidualRule rule = shipped_residual();
  const std::vector logged{pre_on(20)};
  const LoggedDoses doses{season.cohorts(), logged, rule};
  CHECK(!doses.left_on(TextbookSeason::day(19)));
  CHECK(doses.left_on(TextbookSeason::day(20)) == 1.0);
  // Half-life 28 d at 20 C; the soil is 18 to 21 C then, so 28 to 33 days bring it to a half.
  CHECK(*doses.left_on(TextbookSeason::day(48)) > 0.5);
  CHECK(*doses.left_on(TextbookSeason::day(55)) < 0.5);
  CHECK(!doses.left_on(TextbookSeason::day(5000)));
  LoggedApplication post = pre_on(20);
  post.kind = Kind::post;
  const std::vector without_residual{post};
  CHECK(!LoggedDoses{season.cohorts(), without_residual, rule}.left_on(TextbookSeason::day(60)));
}
