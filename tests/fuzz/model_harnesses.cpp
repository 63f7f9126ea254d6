// SPDX-License-Identifier: MIT
// Files of sites, models, practice numbers and services.
#include <algorithm>

#include "advice/data/catalogue.hpp"
#include "advice/data/embedded_files.hpp"
#include "app/site_table.hpp"
#include "fuzz/harnesses.hpp"
#include "net/services.hpp"
#include "site/site_file.hpp"

namespace soilclock::fuzz {

namespace {

std::string_view embedded_text(std::string_view name) {
  const auto files = advice::embedded_files();
  return std::find_if(files.begin(), files.end(), [&](const auto& file) { return file.name == name; })->text;
}

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
  }
}

/// A file whose name says nothing the catalogue knows is refused before anything is read: no time is spent on
/// it.
bool belongs(std::string_view name) {
  const auto files = advice::built_in_files();
  return std::any_of(files.begin(), files.end(), [&](const auto& file) { return file.name == name; });
}

}  // namespace

void site_file(std::string_view bytes) {
  demand_good_sites(read_sites(bytes, "sites.json", "courses"));
  demand_good_sites(app::read_site_table(bytes, "sites.csv", "courses"));
}

void model_file(std::string_view bytes) {
  const auto line_end = bytes.find('\n');
  if (line_end == std::string_view::npos || !belongs(bytes.substr(0, line_end))) return;
  // Ahead of the others, so that one that is refused costs little time.
  std::vector<advice::NamedText> files{
      {std::string{bytes.substr(0, line_end)}, std::string{bytes.substr(line_end + 1)}}};
  for (const advice::NamedText& file : advice::built_in_files()) {
    if (file.name != files.front().name) files.push_back(file);
  }
  const auto catalogue = advice::load_catalogue(files);
  if (!catalogue) {
    demand_good(catalogue.error());
    demand(catalogue.error().family == Family::request, "a model file is the user's");
    return;
  }
  for (const auto& [code, target] : catalogue->targets) (void)catalogue->control_of(code);
}

void settings(std::string_view bytes) {
  const auto services = net::read_services(embedded_text("config/services.json"), bytes, "services.json");
  if (!services) {
    demand_good(services.error());
    demand(services.error().found.empty(), "a problem quotes nothing of a file that may hold a key");
    return;
  }
  for (const auto& [id, service] : services->all) {
    for (const auto& [part, host] : service.hosts)
      demand(host.starts_with("https://") || host.starts_with("http://"), "hosts are addresses");
  }
}

}  // namespace soilclock::fuzz
