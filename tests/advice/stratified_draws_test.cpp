// SPDX-License-Identifier: MIT
#include "advice/futures/stratified_draws.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <thread>
#include <vector>

using soilclock::advice::StratifiedDraws;

TEST_CASE("every part of a distribution is drawn exactly once") {
  const StratifiedDraws draws{1, 400};
  for (const std::string name : {"future", "POAAN_release/half_up", ""}) {
    std::set<int> parts;
    for (const double draw : draws.of(name)) {
      CHECK(draw > 0.0);
      CHECK(draw < 1.0);
      parts.insert(static_cast<int>(draw * 400.0));
    }
    CHECK(parts.size() == 400);
  }
}

TEST_CASE("a quantity keeps its draws whatever else is drawn") {
  // Another thread has none of the numbers drawn here.
  std::vector<double> alone;
  std::thread{[&] { alone = StratifiedDraws{7, 50}.of("crossing"); }}.join();
  const StratifiedDraws among_others{7, 50};
  const auto other = among_others.of("lag");
  CHECK(among_others.of("crossing") == alone);
  CHECK(&StratifiedDraws(7, 50).of("crossing") == &among_others.of("crossing"));
  CHECK(other != alone);
  CHECK(StratifiedDraws(8, 50).of("crossing") != alone);
  CHECK(StratifiedDraws(7, 60).of("crossing").size() == 60);
}

TEST_CASE("draws of two quantities go their own ways") {
  // The rank correlation of independent draws of 400 members lies within 3/sqrt(400) of 0.
  const StratifiedDraws draws{1, 400};
  const auto& a = draws.of("a");
  const auto& b = draws.of("b");
  double products = 0.0;
  for (std::size_t i = 0; i < 400; ++i) products += (a[i] - 0.5) * (b[i] - 0.5);
  CHECK(products / 400.0 * 12.0 == Approx(0.0).margin(0.15));
}
