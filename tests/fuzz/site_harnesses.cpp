// SPDX-License-Identifier: MIT
// Site files and tables of sites.
#include "advice/data/catalogue.hpp"
#include "app/site_table.hpp"
#include "fuzz/harnesses.hpp"
#include "site/site_areas.hpp"
#include "site/site_file.hpp"

namespace soilclock::fuzz {

namespace {

const advice::Catalogue& shipped() {
  static const advice::Catalogue catalogue = advice::load_catalogue(advice::built_in_files()).value();
  return catalogue;
}

void demand_good_sites(const Result<std::vector<Site>>& sites) {
  if (!sites) {
    demand_good(sites.error());
    return;
  }
  for (const Site& site : *sites) {
    demand(!site.id.empty(), "a site has an id");
    demand(site.place.latitude_deg >= -90.0 && site.place.latitude_deg <= 90.0, "a site lies on Earth");
    demand(site.place.longitude_deg >= -180.0 && site.place.longitude_deg <= 180.0, "a site lies on Earth");
    if (const auto plan = tank_plan(site.plan, shipped()); !plan) demand_good(plan.error());
    (void)site.cutting_zone();
    if (!site.area) continue;
    demand(site.id == site.area->course + "/" + site.area->name, "an area is known by its course and name");
    demand(course_of(site).id == site.area->course, "an area belongs to its course");
    demand(counted_notes(site, site.log).entries.size() <= site.log.size(), "no note counts twice");
  }
}

}  // namespace

void site_file(std::string_view bytes) {
  demand_good_sites(read_sites(bytes, "sites.json", "courses"));
  demand_good_sites(app::read_site_table(bytes, "sites.csv", "courses"));
}

}  // namespace soilclock::fuzz
