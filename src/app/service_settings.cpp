// SPDX-License-Identifier: MIT
#include "app/service_settings.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "advice/data/embedded_files.hpp"
#include "app/local_files.hpp"
#include "core/text.hpp"
#include "net/user_settings.hpp"

namespace soilclock::app {

namespace {

/// Empty when no home is known: then there is no file of the user's.
std::string usual_path() {
  const char* config = std::getenv("XDG_CONFIG_HOME");
  if (config != nullptr && config[0] == '/') return std::string{config} + "/soilclock/services.json";
  const char* home = std::getenv("HOME");
  if (home != nullptr && home[0] != '\0') return std::string{home} + "/.config/soilclock/services.json";
  return {};
}

}  // namespace

Result<net::Services> load_services(const std::string& named) {
  const std::string_view built_in = advice::embedded_text("config/services.json");
  const std::string path = named.empty() ? usual_path() : named;
  std::error_code error;
  const bool absent = path.empty() || (named.empty() && !std::filesystem::exists(path, error));
  if (absent) return net::read_services(built_in, "", "");
  const auto text = read_file(path);
  if (!text) return fail(text.error());
  return net::read_services(built_in, *text, path);
}

std::optional<std::string> key_seen_by_others(const net::Services& services, const std::string& named) {
  using std::filesystem::perms;
  const bool has_key = std::any_of(services.all.begin(), services.all.end(),
                                   [](const auto& entry) { return !entry.second.key.empty(); });
  const std::string path = named.empty() ? usual_path() : named;
  std::error_code error;
  const perms rights = std::filesystem::status(path, error).permissions();
  if (!has_key || error || (rights & (perms::group_read | perms::others_read)) == perms::none)
    return std::nullopt;
  return path + ": other users of this machine can read the key in it; chmod 600 keeps it to yourself";
}

Problem of_site(const Site& site, Problem problem) {
  problem.what = printable(site.id, 80) + ": " + problem.what;
  return problem;
}

Result<const net::Service*> find_service(const net::Services& services, const SiteService& wanted) {
  const auto found = services.all.find(wanted.id);
  if (found == services.all.end()) {
    std::vector<std::string> known;
    for (const auto& [id, service] : services.all) known.push_back(id);
    const auto near = nearest(wanted.id, known);
    return fail({Family::request,
                 "this service is not known",
                 {},
                 wanted.id,
                 "one of " + listed(known),
                 near ? "did you mean '" + *near + "'?" : ""});
  }
  const net::Service& service = found->second;
  if (service.keeps_stations == wanted.station.empty()) {
    return fail({Family::request,
                 service.keeps_stations ? "this service needs a station" : "this service has no stations",
                 {},
                 wanted.id + (wanted.station.empty() ? "" : ":" + wanted.station),
                 service.keeps_stations ? wanted.id + ":STATION, or \"station\" in the site file" : wanted.id,
                 {}});
  }
  if (wanted.shift_morning_observations && !service.keeps_stations) {
    return fail({Family::request,
                 "this service has no observers who read in the morning",
                 {},
                 wanted.id,
                 {},
                 "leave out the shift of morning observations"});
  }
  return &service;
}

}  // namespace soilclock::app
