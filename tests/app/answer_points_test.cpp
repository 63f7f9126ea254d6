// SPDX-License-Identifier: MIT
// Answers for several sites go to the sites they are for, by place and number, never by their order.
#include <catch2/catch.hpp>

#include "app/answer_points.hpp"

using namespace soilclock;
using namespace soilclock::app;

namespace {

weather::ServiceAnswer answer_for(const std::vector<Place>& places) {
  weather::ServiceAnswer answer;
  answer.service = "open-meteo";
  for (std::size_t i = 0; i < places.size(); ++i) {
    weather::AnswerSeries series;
    series.point = static_cast<int>(i);
    series.reading.place = places[i];
    answer.series.push_back(series);
    answer.series.push_back(series);  // two members of one point
  }
  return answer;
}

/// The points for sites at these places, or what is wrong.
std::string points_for(const std::vector<Place>& sites, const std::vector<Place>& answered) {
  std::vector<Site> all(sites.size());
  FetchJob job;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    all[i].place = sites[i];
    job.sites.push_back({i, &all[i], {}});
  }
  net::Service service;
  service.title = "The service";
  const auto points = points_of_sites(service, answer_for(answered), job);
  if (!points) return points.error().what;
  std::string text;
  for (const int point : *points) text += std::to_string(point);
  return text;
}

const Place a{35.6, -83.1, {}};
const Place b{38.8, -77.4, {}};
const Place c{33.2, -79.6, {}};
const Place near_a{35.62, -83.05, {}};
const Place beside_a{35.7, -83.0, {}};

}  // namespace

TEST_CASE("points of an answer are found by place, whatever their order") {
  CHECK(points_for({a, b, c}, {a, b, c}) == "012");
  CHECK(points_for({a, b, c}, {c, near_a, b}) == "120");
  CHECK(points_for({a, beside_a}, {beside_a, near_a}) == "10");
}

TEST_CASE("more or fewer places than sites, or one place twice, are refused") {
  CHECK(points_for({a, b}, {a, b, c}).find("more places") != std::string::npos);
  CHECK(points_for({a}, {a, b}).find("more places") != std::string::npos);
  CHECK(points_for({a, b, c}, {a, b}).find("fewer places") != std::string::npos);
  CHECK(points_for({a, b}, {a, a}).find("twice") != std::string::npos);
  CHECK(points_for({a, beside_a}, {a, a}) == "01");  // they share a cell
}

TEST_CASE("an answer that does not say its place is for nobody") {
  weather::ServiceAnswer answer = answer_for({a});
  for (weather::AnswerSeries& series : answer.series) series.reading.place.reset();
  Site site;
  site.place = a;
  FetchJob job;
  job.sites.push_back({0, &site, {}});
  const auto points = points_of_sites(net::Service{}, answer, job);
  REQUIRE_FALSE(points);
  CHECK(points.error().what.find("which place") != std::string::npos);
}

TEST_CASE("fine grids answer from near by, coarse ones and stations from farther") {
  net::Service fine;
  net::Service coarse;
  coarse.cells.emplace();
  net::Service stations;
  stations.keeps_stations = true;
  CHECK(farthest_answer_deg(fine) < farthest_answer_deg(coarse));
  CHECK(farthest_answer_deg(coarse) < farthest_answer_deg(stations));
}
