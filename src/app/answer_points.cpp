// SPDX-License-Identifier: MIT
#include "app/answer_points.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/number_text.hpp"
#include "core/text.hpp"

namespace soilclock::app {

namespace {

/// Half a cell of the widest of the fine grids (a quarter of a degree), with room for how a service picks a
/// cell on a coast. Judgment.
constexpr double farthest_fine_cell_deg = 0.3;
/// A cell of the coarsest grid is 0.6 degrees wide. Judgment.
constexpr double farthest_coarse_cell_deg = 1.0;
/// Sites this close may lie in one cell of the fine grids.
constexpr double cell_width_deg = 0.25;

struct AnswerPlace {
  int point;
  Place place;
  bool taken = false;
};

double distance_deg(const Place& a, const Place& b) {
  const double east =
      degrees_apart(a.longitude_deg, b.longitude_deg) * std::cos(a.latitude_deg * std::numbers::pi / 180.0);
  return std::hypot(a.latitude_deg - b.latitude_deg, east);
}

std::string place_words(const Place& place) {
  return fmt::format("{} {}", number_text(place.latitude_deg, 2), number_text(place.longitude_deg, 2));
}

Result<int> point_of_station(const net::Service& service, const weather::ServiceAnswer& answer,
                             const std::string& station) {
  std::vector<std::string> others;
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.location.empty() || lowered(series.location) == lowered(station)) return series.point;
    others.push_back(series.location);
  }
  return fail(useless_answer(service, "is of another station", listed(others), station));
}

/// The points of an answer with their places, in its order.
Result<std::vector<AnswerPlace>> places_of(const net::Service& service, const weather::ServiceAnswer& answer,
                                           std::size_t sites) {
  std::vector<AnswerPlace> places;
  for (const weather::AnswerSeries& series : answer.series) {
    const bool known = std::any_of(places.begin(), places.end(),
                                   [&](const AnswerPlace& one) { return one.point == series.point; });
    if (known) continue;
    if (!series.reading.place) return fail(useless_answer(service, "does not say which place it is for"));
    places.push_back({series.point, *series.reading.place});
  }
  if (places.size() == sites) return places;
  return fail(useless_answer(service,
                             places.size() < sites ? "holds fewer places than were asked for"
                                                   : "holds more places than were asked for",
                             fmt::format("{}", places.size()), fmt::format("{}", sites)));
}

/// The nearest point that no other site has; points of one cell stand for each other.
AnswerPlace* nearest_free(std::vector<AnswerPlace>& places, const Place& site) {
  AnswerPlace* best = nullptr;
  for (AnswerPlace& one : places) {
    if (one.taken) continue;
    if (best == nullptr || distance_deg(one.place, site) < distance_deg(best->place, site)) best = &one;
  }
  return best;
}

/// The nearest point at all lies clearly nearer than the one left for the site: two sites want one point.
bool wants_another(const std::vector<AnswerPlace>& places, const AnswerPlace& given, const Place& site) {
  constexpr double same_place_deg = 1e-6;
  return std::any_of(places.begin(), places.end(), [&](const AnswerPlace& one) {
    return distance_deg(one.place, site) + same_place_deg < distance_deg(given.place, site);
  });
}

/// One place twice is right only for sites that share a cell.
std::optional<Problem> same_place_twice(const net::Service& service, const FetchJob& job,
                                        const std::vector<AnswerPlace>& given) {
  for (std::size_t a = 0; a < given.size(); ++a) {
    for (std::size_t b = a + 1; b < given.size(); ++b) {
      const bool same = given[a].place.latitude_deg == given[b].place.latitude_deg &&
                        given[a].place.longitude_deg == given[b].place.longitude_deg;
      const Place& site = job.sites[a].site->place;
      if (!same || lie_within(site, job.sites[b].site->place, cell_width_deg)) continue;
      return useless_answer(
          service, "holds one place twice", place_words(given[a].place),
          fmt::format("one for {} and one for {}", place_words(site), place_words(job.sites[b].site->place)));
    }
  }
  return std::nullopt;
}

}  // namespace

Problem useless_answer(const net::Service& service, const std::string& what, const std::string& found,
                       const std::string& expected) {
  return {Family::data, fmt::format("the answer of {} {}", service.title, what),
          {},           found,
          expected,     "nothing of it was stored"};
}

double farthest_answer_deg(const net::Service& service) {
  if (service.keeps_stations) return farthest_station_deg;
  return service.cells ? farthest_coarse_cell_deg : farthest_fine_cell_deg;
}

Result<std::vector<int>> points_of_sites(const net::Service& service, const weather::ServiceAnswer& answer,
                                         const FetchJob& job) {
  std::vector<int> points;
  points.reserve(job.sites.size());
  if (service.keeps_stations) {
    for (const ServedSite& site : job.sites) {
      const auto point = point_of_station(service, answer, site.wanted.station);
      if (!point) return fail(point.error());
      points.push_back(*point);
    }
    return points;
  }
  auto places = places_of(service, answer, job.sites.size());
  if (!places) return fail(places.error());
  std::vector<AnswerPlace> given;
  given.reserve(job.sites.size());
  for (const ServedSite& site : job.sites) {
    AnswerPlace* found = nearest_free(*places, site.site->place);
    if (wants_another(*places, *found, site.site->place)) {
      return fail(useless_answer(service, "holds no place of its own for one of the sites",
                                 place_words(found->place), place_words(site.site->place)));
    }
    found->taken = true;
    given.push_back(*found);
    points.push_back(found->point);
  }
  if (const auto problem = same_place_twice(service, job, given)) return fail(*problem);
  return points;
}

}  // namespace soilclock::app
