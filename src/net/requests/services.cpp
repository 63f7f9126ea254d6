// SPDX-License-Identifier: MIT
#include "net/requests/services.hpp"

#include "core/json_reader.hpp"
#include "core/text.hpp"

namespace soilclock::net {

namespace {

/// No number stands in the file without a word on where it is from.
void demand_basis(const JsonObject& object) {
  if (trimmed(object.text("basis")).empty()) object.refuse("basis", "this text is empty");
}

int number_with_basis(const JsonObject& service, std::string_view key, int least, int most) {
  const JsonObject object = service.object(key);
  const int value = object.integer("value", least, most);
  demand_basis(object);
  object.finish();
  return value;
}

/// Decimals of a degree sent to each host: no more than the service needs to find its grid cell.
std::map<std::string, int> read_coordinate_decimals(const JsonObject& service,
                                                    const std::map<std::string, std::string>& hosts) {
  const JsonObject object = service.object("coordinate_decimals");
  std::map<std::string, int> decimals;
  for (const auto& [part, url] : hosts) decimals[part] = number_with_basis(object, part, 1, 4);
  object.finish();
  return decimals;
}

CallLimits read_limits(const JsonObject& object) {
  constexpr double most = 1e9;
  CallLimits limits{object.optional_number("a_minute", 1.0, most),
                    object.optional_number("an_hour", 1.0, most), object.optional_number("a_day", 1.0, most)};
  if (object.has("least_pause_s"))
    limits.least_pause = std::chrono::seconds{object.integer("least_pause_s", 1, 3600)};
  demand_basis(object);
  object.finish();
  return limits;
}

Day read_first_day(const JsonObject& object) {
  const auto day = parse_iso_day(object.text("value"));
  if (!day) object.refuse("value", "this is not a date", "YYYY-MM-DD");
  demand_basis(object);
  object.finish();
  return *day;
}

std::string read_host(const JsonObject& hosts, const std::string& name) {
  std::string url = base_address(hosts.text(name));
  if (!url.starts_with("https://") || url.find_first_of("?#") != std::string::npos)
    hosts.refuse(name, "this address cannot be used", "https://...");
  return url;
}

/// The one table of the ways to ask that this program knows.
ServiceApi read_api(const JsonObject& object) {
  static const std::map<std::string, ServiceApi> known{{"open-meteo", ServiceApi::open_meteo},
                                                       {"nws", ServiceApi::nws},
                                                       {"ncei", ServiceApi::ncei},
                                                       {"power", ServiceApi::power}};
  std::vector<std::string> names;
  names.reserve(known.size());
  for (const auto& [name, api] : known) names.push_back(name);
  return known.at(object.choice("api", names));
}

Service read_service(const std::string& id, const JsonObject& object) {
  Service service;
  service.id = id;
  service.api = read_api(object);
  service.title = object.text("title");
  const JsonObject hosts = object.object("hosts");
  for (const std::string& name : hosts.keys()) service.hosts[name] = read_host(hosts, name);
  service.keeps_stations = object.boolean("keeps_stations");
  service.cuts_days = object.boolean("cuts_days");
  service.takes_height = object.boolean("takes_height");
  service.takes_key = object.boolean("takes_key");
  service.needs_contact = object.boolean("needs_contact");
  service.attribution = object.text("attribution");
  service.license = object.text("license");
  service.terms = object.text("terms");
  service.limits = read_limits(object.object("limits"));
  service.points_a_call = number_with_basis(object, "points_a_call", 1, 1000);
  service.provisional_days = number_with_basis(object, "provisional_days", 0, most_provisional_days);
  if (!service.keeps_stations) service.coordinate_decimals = read_coordinate_decimals(object, service.hosts);
  if (const auto cells = object.optional_object("cells")) {
    service.cells = {cells->number("latitude_deg", 0.01, 10.0), cells->number("longitude_deg", 0.01, 10.0)};
    demand_basis(*cells);
    cells->finish();
  }
  if (service.hosts.contains("history")) service.history_from = read_first_day(object.object("history_from"));
  object.finish();
  return service;
}

Services read_built_in(const JsonObject& top) {
  Services services;
  (void)top.choice("format", {"soilclock-services/1"});
  (void)top.text("title");
  const JsonObject all = top.object("services");
  for (const std::string& id : all.keys()) services.all[id] = read_service(id, all.object(id));
  top.finish();
  return services;
}

}  // namespace

std::string base_address(std::string_view text) {
  std::string url{trimmed(text)};
  while (url.ends_with('/')) url.pop_back();
  return url;
}

Result<Services> read_built_in_services(std::string_view text) {
  return read_json(text, "config/services.json", Family::fault, read_built_in);
}

}  // namespace soilclock::net
