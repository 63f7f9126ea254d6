// SPDX-License-Identifier: MIT
#include "report/sites_geojson.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "advice/answer/portfolio.hpp"
#include "advice/answer/urgency.hpp"
#include "report/advice_text.hpp"
#include "report/json_values.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// A grass of a course or of one of its areas.
struct Entry {
  const SiteAnswer* site;
  const TargetAnswer* target;
  int rank;  // 0 where nothing is open
};

/// What a map shows of one grass.
Json summary(const TargetAnswer& target, int rank) {
  const advice::Decision& decision = target.decision;
  const bool answered = !target.refusal;
  return {{"headline", answered ? target.headline : "No answer. " + describe(*target.refusal) + "."},
          {"action", answered ? Json(advice::name(decision.action)) : Json(nullptr)},
          {"kind", decision.kind ? Json(treatment::name(*decision.kind)) : Json(nullptr)},
          {"urgency", answered ? rounded(decision.urgency, 1) : Json(nullptr)},
          {"rank", rank > 0 ? Json(rank) : Json(nullptr)},
          {"good_through", date(decision.good_through)}};
}

const Entry& most_urgent(const std::vector<Entry>& entries) {
  return *std::min_element(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return a.rank > 0 && (b.rank == 0 || a.rank < b.rank);
  });
}

/// The summary of the grass, where one was made.
const advice::GrassOnAreas* summary_of(std::span<const advice::CourseSummary> courses, const Entry& entry) {
  for (const advice::CourseSummary& course : courses) {
    if (!entry.site->facts.area || course.course != entry.site->facts.area->course) continue;
    for (const advice::GrassOnAreas& grass : course.grasses) {
      if (grass.target == entry.target->target) return &grass;
    }
  }
  return nullptr;
}

Json properties(const SiteAnswer& site, const std::vector<Entry>& entries,
                std::span<const advice::CourseSummary> courses) {
  const auto& area = site.facts.area;
  Json json = {{"site", advice::course_of(site)},
               {"name", area ? area->course_name : site.name},
               {"group", site.facts.group.empty() ? Json(nullptr) : Json(site.facts.group)},
               {"on", iso(site.on)}};
  if (entries.empty()) {
    const std::string why = site.problems.empty() ? "" : " " + describe(site.problems.front()) + ".";
    json.update(summary({}, 0));
    json["headline"] = "No answer." + why;
    json["action"] = json["urgency"] = nullptr;
  } else {
    const Entry& first = most_urgent(entries);
    json.update(summary(*first.target, first.rank));
    if (const advice::GrassOnAreas* grass = summary_of(courses, first)) json["headline"] = grass->sentence;
  }
  json["targets"] = Json::array();
  for (const Entry& entry : entries) {
    const auto& of = entry.site->facts.area;
    Json one = {{"area", of ? Json(of->name) : Json(nullptr)},
                {"target", entry.target->target},
                {"title", entry.target->title}};
    one.update(summary(*entry.target, entry.rank));
    json["targets"].push_back(one);
  }
  return json;
}

Json geometry(const Place& place) {
  if (!std::isfinite(place.latitude_deg) || !std::isfinite(place.longitude_deg)) return nullptr;
  return {{"type", "Point"}, {"coordinates", {place.longitude_deg, place.latitude_deg}}};
}

}  // namespace

std::string sites_geojson(std::span<const SiteAnswer> sites, std::span<const advice::CourseSummary> courses) {
  std::vector<std::vector<int>> ranks;
  for (const SiteAnswer& site : sites) ranks.emplace_back(site.targets.size(), 0);
  int rank = 0;
  for (const advice::RankedTarget& entry : advice::by_urgency(sites))
    ranks[entry.site][entry.target] = ++rank;
  std::vector<const SiteAnswer*> firsts;  // of each course
  std::map<std::string, std::vector<Entry>> entries;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    const auto [course, fresh] = entries.try_emplace(advice::course_of(sites[i]));
    if (fresh) firsts.push_back(&sites[i]);
    for (std::size_t t = 0; t < sites[i].targets.size(); ++t)
      course->second.push_back({&sites[i], &sites[i].targets[t], ranks[i][t]});
  }
  Json json = {{"type", "FeatureCollection"}, {"features", Json::array()}};
  for (const SiteAnswer* site : firsts) {
    const std::string& id = advice::course_of(*site);
    json["features"].push_back({{"type", "Feature"},
                                {"id", id},
                                {"geometry", geometry(site->place)},
                                {"properties", properties(*site, entries.at(id), courses)}});
  }
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report
