// SPDX-License-Identifier: MIT
#include "site/site_areas.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/text.hpp"
#include "records/entries/field.hpp"

namespace soilclock {

namespace {

Problem unknown_site(const std::string& id, const std::vector<Site>& sites) {
  std::vector<std::string> known;
  for (const Site& site : sites) {
    known.push_back(site.id);
    if (site.area) known.push_back(site.area->course);
  }
  auto near = nearest(id, known);
  for (const Site& site : sites) {
    if (site.area && records::bare_name(site.area->name) == records::bare_name(id)) near = site.id;
  }
  return {Family::request,
          "no site of the file has this id",
          {},
          id,
          {},
          near ? "did you mean '" + *near + "'?" : ""};
}

/// How far the words a note has for its place are about an area.
enum class About { this_one, another, all, unknown };

About about_area(const std::string& words, const advice::AreaFacts& area) {
  if (records::bare_name(words).empty()) return About::all;
  const auto same = [](std::string_view a, std::string_view b) {
    return records::bare_name(a) == records::bare_name(b);
  };
  std::vector<std::string> parts{words};
  const auto known = [&](const std::string& part) {
    return std::any_of(area.among.begin(), area.among.end(),
                       [&](const std::string& name) { return same(name, part); });
  };
  if (!known(words)) parts = records::split_list(words, true);
  if (!std::all_of(parts.begin(), parts.end(), known)) return About::unknown;
  const bool here =
      std::any_of(parts.begin(), parts.end(), [&](const std::string& part) { return same(part, area.name); });
  return here ? About::this_one : About::another;
}

Remark of_no_area(const std::string& words, const advice::AreaFacts& area) {
  const auto near = nearest(words, area.among);
  return {"note-of-no-area",
          fmt::format("A note is of '{}', which is none of the areas of {}: it counts for all of them. {}",
                      printable(words, 60), area.course_name,
                      near ? "Did you mean '" + *near + "'?" : "Its areas are " + listed(area.among) + ".")};
}

Remark readings_elsewhere(const advice::AreaFacts& area) {
  return {
      "reading-of-no-area",
      fmt::format("Soil readings noted without an area are not used for '{}', whose soil has an offset or "
                  "a probe of its own: say the area with a reading taken there.",
                  area.name)};
}

void add_once(std::vector<Remark>& remarks, Remark remark) {
  if (std::find(remarks.begin(), remarks.end(), remark) == remarks.end())
    remarks.push_back(std::move(remark));
}

}  // namespace

const std::string& course_id(const Site& site) { return site.area ? site.area->course : site.id; }

Result<std::vector<Site>> chosen_sites(std::vector<Site> sites, const std::vector<std::string>& ids) {
  if (ids.empty()) return sites;
  std::vector<Site> chosen;
  std::set<std::string> taken;
  for (const std::string& id : ids) {
    bool found = false;
    for (const Site& site : sites) {
      if (site.id != id && course_id(site) != id) continue;
      found = true;
      if (taken.insert(site.id).second) chosen.push_back(site);
    }
    if (!found) return fail(unknown_site(id, sites));
  }
  return chosen;
}

Site course_of(Site site) {
  if (!site.area) return site;
  site.id = site.area->course;
  site.name = site.area->course_name;
  site.area.reset();
  return site;
}

std::vector<Site> courses_of(const std::vector<Site>& sites) {
  std::vector<Site> courses;
  std::set<std::string> taken;
  for (const Site& site : sites) {
    if (taken.insert(course_id(site)).second) courses.push_back(course_of(site));
  }
  return courses;
}

CountedNotes counted_notes(const Site& site, const std::vector<records::Record>& entries) {
  if (!site.area) return {entries, {}};
  CountedNotes counted;
  for (const records::Record& entry : entries) {
    // Noted under the area's own id, as an answer names it.
    const bool by_id = records::site_of(entry) == site.id;
    const About about = by_id ? About::this_one : about_area(records::area_of(entry), *site.area);
    if (about == About::another) continue;
    if (about == About::unknown) add_once(counted.remarks, of_no_area(records::area_of(entry), *site.area));
    const bool reading = records::kind_of(entry) == records::RecordKind::reading;
    if (reading && site.own_soil && about != About::this_one)
      add_once(counted.remarks, readings_elsewhere(*site.area));
    else
      counted.entries.push_back(entry);
  }
  return counted;
}

}  // namespace soilclock
