// SPDX-License-Identifier: MIT
#include "report/sites_geojson.hpp"

#include <cmath>
#include <vector>

#include "advice/answer/urgency.hpp"
#include "report/advice_text.hpp"
#include "report/json_values.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// Ranks of the targets of one site; 0 where nothing is open.
using Ranks = std::vector<int>;

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

std::size_t most_urgent(const Ranks& ranks) {
  std::size_t first = 0;
  for (std::size_t i = 1; i < ranks.size(); ++i) {
    if (ranks[i] > 0 && (ranks[first] == 0 || ranks[i] < ranks[first])) first = i;
  }
  return first;
}

Json properties(const SiteAnswer& site, const Ranks& ranks) {
  Json json = {{"site", site.site},
               {"name", site.name},
               {"group", site.facts.group.empty() ? Json(nullptr) : Json(site.facts.group)},
               {"on", iso(site.on)}};
  if (site.targets.empty()) {
    const std::string why = site.problems.empty() ? "" : " " + describe(site.problems.front()) + ".";
    json.update(summary({}, 0));
    json["headline"] = "No answer." + why;
    json["action"] = json["urgency"] = nullptr;
  } else {
    const std::size_t first = most_urgent(ranks);
    json.update(summary(site.targets[first], ranks[first]));
  }
  json["targets"] = Json::array();
  for (std::size_t i = 0; i < site.targets.size(); ++i) {
    Json entry = {{"target", site.targets[i].target}, {"title", site.targets[i].title}};
    entry.update(summary(site.targets[i], ranks[i]));
    json["targets"].push_back(entry);
  }
  return json;
}

Json geometry(const Place& place) {
  if (!std::isfinite(place.latitude_deg) || !std::isfinite(place.longitude_deg)) return nullptr;
  return {{"type", "Point"}, {"coordinates", {place.longitude_deg, place.latitude_deg}}};
}

}  // namespace

std::string sites_geojson(std::span<const SiteAnswer> sites) {
  std::vector<Ranks> ranks;
  for (const SiteAnswer& site : sites) ranks.emplace_back(site.targets.size(), 0);
  int rank = 0;
  for (const advice::RankedTarget& entry : advice::by_urgency(sites))
    ranks[entry.site][entry.target] = ++rank;
  Json json = {{"type", "FeatureCollection"}, {"features", Json::array()}};
  for (std::size_t i = 0; i < sites.size(); ++i) {
    json["features"].push_back({{"type", "Feature"},
                                {"id", sites[i].site},
                                {"geometry", geometry(sites[i].place)},
                                {"properties", properties(sites[i], ranks[i])}});
  }
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report
