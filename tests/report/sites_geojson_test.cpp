// SPDX-License-Identifier: MIT
#include "report/sites_geojson.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "made_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

advice::SiteAnswer at(const std::string& name, double latitude, double longitude,
                      std::vector<advice::TargetAnswer> targets) {
  advice::SiteAnswer site = course(name, std::move(targets));
  site.place = {latitude, longitude, {}};
  return site;
}

nlohmann::json map_of(const std::vector<advice::SiteAnswer>& sites) {
  return nlohmann::json::parse(report::sites_geojson(sites));
}

}  // namespace

TEST_CASE("a map has a point for each site, longitude first, with the answer of its most urgent grass") {
  std::vector<advice::SiteAnswer> sites{at("Flat", 35.6, -83.1, {flat()}),
                                        at(strange_name, 38.8, -77.4, {finished(), falling()})};
  sites[1].targets[0].target = "DIGIS";
  sites[1].facts.group = "north";
  const nlohmann::json map = map_of(sites);
  CHECK(map.at("type") == "FeatureCollection");
  REQUIRE(map.at("features").size() == 2);
  const nlohmann::json& feature = map.at("features")[1];
  CHECK(feature.at("type") == "Feature");
  CHECK(feature.at("geometry") == nlohmann::json{{"type", "Point"}, {"coordinates", {-77.4, 38.8}}});
  const nlohmann::json& shown = feature.at("properties");
  CHECK(shown.at("name") == strange_name);
  CHECK(shown.at("group") == "north");
  CHECK(shown.at("on") == "2026-10-15");
  // The falling one loses most by waiting: rank 1; nothing is left of the finished one.
  CHECK(shown.at("rank") == 1);
  CHECK(shown.at("headline") == sites[1].targets[1].headline);
  CHECK(shown.at("action") == "treat");
  CHECK(shown.at("kind") == "pre+post");
  CHECK(shown.at("good_through") == iso(*sites[1].targets[1].decision.good_through));
  CHECK(shown.at("urgency").get<double>() == Approx(sites[1].targets[1].decision.urgency).margin(0.051));
  REQUIRE(shown.at("targets").size() == 2);
  CHECK(shown.at("targets")[0].at("target") == "DIGIS");
  CHECK(shown.at("targets")[0].at("action") == "nothing-left");
  CHECK(shown.at("targets")[0].at("rank").is_null());
  CHECK(map.at("features")[0].at("properties").at("rank") == 2);
  CHECK(map.at("features")[0].at("properties").at("group").is_null());
}

TEST_CASE("a site without a place or an answer stays on the list") {
  advice::SiteAnswer lost = at("Lost", std::nan(""), std::nan(""), {});
  lost.problems.push_back({Family::data, "the file is empty", {}, {}, {}, {}});
  const nlohmann::json feature = map_of({lost}).at("features")[0];
  CHECK(feature.at("geometry").is_null());
  CHECK(feature.at("properties").at("headline") == "No answer. the file is empty.");
  CHECK(feature.at("properties").at("action").is_null());
  CHECK(feature.at("properties").at("targets").empty());
  CHECK(map_of({}).at("features").empty());
}
