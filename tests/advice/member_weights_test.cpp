// SPDX-License-Identifier: MIT
#include "advice/ensemble/member_weights.hpp"

#include <catch2/catch.hpp>
#include <map>

#include "made_up_site.hpp"
#include "rapidcheck/catch.h"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Season season = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
const Place maryland{39.0, -77.0, {}};  // within all boxes
constexpr int october_3 = 104;

/// A place where every member has its say.
SiteClimate transition_zone() { return {celsius(24.0), october_3, 230.0, celsius(25.0), 1.0, 10}; }

std::map<std::string, double> weights(const SiteClimate& climate, const Place& place = maryland) {
  std::map<std::string, double> by_id;
  std::vector<UnusedModel> unused;
  for (const WeightedModel& member : member_weights(shipped_catalogue().targets.at("POAAN"),
                                                    shipped_catalogue(), place, season, &climate, unused)) {
    by_id[member.model->id] = member.weight;
  }
  // Every component model either has a weight or a reason why it has none.
  CHECK(by_id.size() + unused.size() == shipped_catalogue().targets.at("POAAN").members.size());
  for (const UnusedModel& model : unused) {
    CHECK(!by_id.contains(model.model->id));
    CHECK(!model.why.empty());
  }
  return by_id;
}

/// Why a model has no weight.
std::string why_none(const std::string& id, const SiteClimate& climate, const Place& place = maryland) {
  std::vector<UnusedModel> unused;
  (void)member_weights(shipped_catalogue().targets.at("POAAN"), shipped_catalogue(), place, season, &climate,
                       unused);
  for (const UnusedModel& model : unused) {
    if (model.model->id == id) return model.why;
  }
  return "it has one";
}

}  // namespace

TEST_CASE("in the transition zone the fitted rules take a fifth each and the soil members share the rest") {
  const auto w = weights(transition_zone());
  CHECK(w.at("POAAN_calendar_maryland") == Approx(0.2));
  CHECK(w.at("POAAN_cooling_degree_days") == Approx(0.2));
  CHECK(w.at("POAAN_release") == Approx(0.3));
  CHECK(w.at("POAAN_soil_crossing") == Approx(0.3));
}

TEST_CASE("the calendar fades with the distance of the site's crossing from 3 October") {
  SiteClimate climate = transition_zone();
  climate.usual_crossing_day = october_3 - 6;
  CHECK(weights(climate).at("POAAN_calendar_maryland") == Approx(0.1));
  CHECK(weights(climate).at("POAAN_release") == Approx(0.35));
  climate.usual_crossing_day = october_3 + 12;
  CHECK(!weights(climate).contains("POAAN_calendar_maryland"));
  climate.usual_crossing_day = std::nullopt;
  CHECK(!weights(climate).contains("POAAN_calendar_maryland"));
}

TEST_CASE("cooling degree-days need a warm July and units that come late, and gain weight evenly with both") {
  SiteClimate cool = transition_zone();
  cool.july_air = celsius(23.0);
  CHECK(!weights(cool).contains("POAAN_cooling_degree_days"));
  cool.july_air = celsius(24.0);
  CHECK(weights(cool).at("POAAN_cooling_degree_days") == Approx(0.1));
  SiteClimate early = transition_zone();
  early.late_cooling = 0.0;
  CHECK(!weights(early).contains("POAAN_cooling_degree_days"));
  early.late_cooling = 0.25;
  CHECK(weights(early).at("POAAN_cooling_degree_days") == Approx(0.05));
}

TEST_CASE("a model's weight falls evenly to nothing over the degrees beyond its box") {
  // The calendar's box ends at 72 W and fades over three degrees.
  const auto calendar_at = [](double longitude) {
    const auto w = weights(transition_zone(), {39.0, longitude, {}});
    return w.contains("POAAN_calendar_maryland") ? w.at("POAAN_calendar_maryland") : 0.0;
  };
  CHECK(calendar_at(-72.0) == Approx(0.2));
  CHECK(calendar_at(-71.0) == Approx(0.2 * 2.0 / 3.0));
  CHECK(calendar_at(-69.0) == Approx(0.0).margin(1e-9));
}

TEST_CASE("barely warm summers take weight from the fitted rules") {
  SiteClimate climate = transition_zone();
  climate.warmest_month_soil = celsius(21.25);
  const auto w = weights(climate);
  CHECK(w.at("POAAN_calendar_maryland") == Approx(0.1));
  CHECK(w.at("POAAN_cooling_degree_days") == Approx(0.1));
  CHECK(w.at("POAAN_release") == Approx(0.4));
}

TEST_CASE("models barred outside their boxes have no weight there, the others keep theirs") {
  const auto gulf = weights(transition_zone(), {29.5, -91.9, {}});
  CHECK(gulf.size() == 2);
  CHECK(gulf.at("POAAN_release") == Approx(0.5));
  CHECK(gulf.at("POAAN_soil_crossing") == Approx(0.5));
  // Outside its box the release member only earns a remark.
  CHECK(weights(transition_zone(), {-36.0, 150.0, {}}).contains("POAAN_release"));
}

TEST_CASE("a model without weight says why") {
  CHECK(why_none("POAAN_calendar_maryland", transition_zone()) == "it has one");
  const Place gulf{29.5, -91.9, {}};
  CHECK(why_none("POAAN_calendar_maryland", transition_zone(), gulf) ==
        "the site lies outside the area it was made for");
  SiteClimate cool = transition_zone();
  cool.july_air = celsius(22.9);
  CHECK(why_none("POAAN_cooling_degree_days", cool) == "midsummer is cooler here than where it was made");
  SiteClimate early = transition_zone();
  early.late_cooling = 0.0;
  CHECK(why_none("POAAN_cooling_degree_days", early) ==
        "the cooling it counts comes too early here, or never");
  SiteClimate late = transition_zone();
  late.usual_crossing_day = october_3 + 12;
  CHECK(why_none("POAAN_calendar_maryland", late) ==
        "the soil cools at another time here than where it was made");
}

TEST_CASE("targets without a window rule take fixed weights") {
  std::vector<UnusedModel> unused;
  const auto members =
      member_weights(shipped_catalogue().targets.at("DIGIS"), shipped_catalogue(), maryland,
                     season_of(make_day(2021, 5, 1), SeasonKind::summer, Hemisphere::north), nullptr, unused);
  double sum = 0.0;
  for (const WeightedModel& member : members) sum += member.weight;
  CHECK(members.size() >= 2);
  CHECK(sum == Approx(1.0));
}

TEST_CASE("members that need older weather than there is are left out and the rest scaled again") {
  const SiteClimate climate = transition_zone();
  std::vector<UnusedModel> unused;
  const auto all = member_weights(shipped_catalogue().targets.at("POAAN"), shipped_catalogue(), maryland,
                                  season, &climate, unused);
  const auto kept_since = [&](Day since) {
    std::vector<WeightedModel> left_out;
    std::map<std::string, double> kept;
    for (const WeightedModel& member : with_weather_since(all, season, since, left_out))
      kept[member.model->id] = member.weight;
    if (!kept.empty()) CHECK(kept.size() + left_out.size() == all.size());
    return kept;
  };
  CHECK(kept_since(make_day(2021, 1, 1)).size() == 4);
  // From 15 July: the cooling sum (from 21 June) and the clock (from 11 July, a week before) lack their
  // beginning.
  const auto july = kept_since(make_day(2021, 7, 15));
  CHECK(july.size() == 2);
  CHECK(july.at("POAAN_release") == Approx(0.6));
  CHECK(july.at("POAAN_calendar_maryland") == Approx(0.4));
  // From August on no model has its weather, and a calendar alone is no answer.
  CHECK(kept_since(make_day(2021, 8, 15)).empty());
}

TEST_CASE("laws of weights") {
  rc::prop("weights are positive and make one, wherever there is a climate", [] {
    SiteClimate climate;
    climate.warmest_month_soil = celsius(*rc::gen::inRange(100, 350) / 10.0);
    if (*rc::gen::arbitrary<bool>()) climate.usual_crossing_day = *rc::gen::inRange(41, 300);
    climate.july_air = celsius(*rc::gen::inRange(100, 350) / 10.0);
    climate.late_cooling = *rc::gen::inRange(0, 101) / 100.0;
    const Place place{*rc::gen::inRange(-60, 60) * 1.0, *rc::gen::inRange(-179, 179) * 1.0, {}};
    double sum = 0.0;
    for (const auto& [id, weight] : weights(climate, place)) {
      RC_ASSERT(weight > 0.0);
      sum += weight;
    }
    RC_ASSERT(std::abs(sum - 1.0) < 1e-12);
  });
}
