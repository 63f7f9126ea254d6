// SPDX-License-Identifier: MIT
// Renderings written into the folder $SOILCLOCK_KEEP_RENDERINGS, where one is named, with what they must say,
// for readers that are not ours: tests/tools/renderings_are_read.py.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "made_answers.hpp"
#include "report/calendar_file.hpp"
#include "report/file_names.hpp"
#include "report/message.hpp"
#include "report/sites_geojson.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::vector<advice::SiteAnswer> sites() {
  std::vector<advice::SiteAnswer> sites{course("Copper Heron", {falling(), early()}),
                                        course(strange_name, {flat()}), course(unbroken_name, {torn()}),
                                        course("Done; and dusted, all", {finished()}),
                                        course("Coast", {spread_out()})};
  sites[0].targets[1].target = "DIGIS";
  sites[0].targets[0].second_pre =
      advice::DatedReason{make_day(2026, 12, 14), "the residual, it is spent; a second is due"};
  sites[3].targets[0].withdrawn = {
      {advice::EventKind::second_pre, {make_day(2026, 11, 9), make_day(2026, 11, 10)}}};
  double longitude = -83.1;
  for (advice::SiteAnswer& site : sites) site.place = {35.6, longitude += 7.25, {}};
  sites[4].place = {-37.9, 179.5, 12.0};
  return sites;
}

/// What the events of a target are, straight from the answer: first day and first day after.
nlohmann::json events_of(const advice::SiteAnswer& site, const advice::TargetAnswer& target) {
  nlohmann::json events = nlohmann::json::array();
  const auto add = [&](Day first, Day end, bool canceled = false) {
    events.push_back({{"site", site.name},
                      {"target", target.target},
                      {"first", iso(first)},
                      {"end", iso(end)},
                      {"canceled", canceled}});
  };
  const advice::Decision& decision = target.decision;
  if (decision.best_range) add(decision.best_range->first, decision.best_range->last + Days{7});
  if (decision.good_through) add(*decision.good_through, *decision.good_through + Days{7});
  if (decision.then) add(decision.then->week_of, decision.then->week_of + Days{7});
  if (target.second_pre) add(target.second_pre->date, target.second_pre->date + Days{1});
  if (target.next_look) add(target.next_look->date, target.next_look->date + Days{1});
  for (const advice::DatedEvent& event : target.withdrawn) add(event.days.begin(), event.days.end(), true);
  return events;
}

void write(const std::filesystem::path& path, const std::string& text) {
  std::ofstream{path, std::ios::binary} << text;
}

}  // namespace

TEST_CASE("renderings of many sites are written for other readers") {
  const report::AnswerFrame frame = frame_with({"The label is the law; scout, then decide."});
  const auto all = sites();
  const std::string calendar = report::calendar_file(all, frame);
  const std::string map = report::sites_geojson(all);
  CHECK(!calendar.empty());
  nlohmann::json expected = {
      {"on", iso(today)}, {"events", nlohmann::json::array()}, {"sites", nlohmann::json::array()}};
  for (const advice::SiteAnswer& site : all) {
    expected["sites"].push_back({{"site", site.site},
                                 {"name", site.name},
                                 {"latitude", site.place.latitude_deg},
                                 {"longitude", site.place.longitude_deg},
                                 {"message", report::safe_file_name(site.site) + ".txt"}});
    for (const advice::TargetAnswer& target : site.targets)
      for (const nlohmann::json& event : events_of(site, target)) expected["events"].push_back(event);
  }
  CHECK(expected["events"].size() >= 10);
  const char* folder = std::getenv("SOILCLOCK_KEEP_RENDERINGS");
  if (folder == nullptr) return;
  std::filesystem::create_directories(folder);
  const std::filesystem::path place{folder};
  write(place / "calendar.ics", calendar);
  write(place / "sites.geojson", map);
  write(place / "expected.json", expected.dump(1));
  for (const advice::SiteAnswer& site : all)
    write(place / (report::safe_file_name(site.site) + ".txt"), report::message(site, frame));
}
