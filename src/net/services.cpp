// SPDX-License-Identifier: MIT
#include "net/services.hpp"

#include <algorithm>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "net/http_client.hpp"

namespace soilclock::net {

namespace {

constexpr const char* usable_address =
    "https://..., or http:// on this machine itself (127.0.0.1, localhost)";

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

constexpr int most_provisional_days = 365;

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

/// A base address without slash at its end.
std::string read_host(const JsonObject& hosts, const std::string& name) {
  std::string url{trimmed(hosts.text(name))};
  while (url.ends_with('/')) url.pop_back();
  // The network library would also take "https:/host", which is a slip.
  const bool whole = lowered(url).starts_with("https://") || lowered(url).starts_with("http://");
  if (!whole || !allowed_url(url) || url.find_first_of("?#") != std::string::npos)
    hosts.refuse(name, "this address cannot be used", usable_address);
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
  service.licence = object.text("licence");
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

/// Headers hold no other characters for sure, and only such a key is known again wherever it is repeated.
bool plain(std::string_view text) {
  return one_line(text) &&
         std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

/// Each request of a service carries its key, so none of them may go to a host the key was not given for.
void demand_all_hosts(const JsonObject& users, const Service& service) {
  const auto named = users.optional_object("hosts");
  std::vector<std::string> missing;
  std::string example;
  for (const auto& [name, url] : service.hosts) {
    if (!named || !named->has(name)) missing.push_back(name);
    example += (example.empty() ? "\"" : ", \"") + name + "\": \"https://...\"";
  }
  if (missing.empty()) return;
  users.refuse(
      "key",
      "a key needs all hosts of its service, the ones that are open to it; not named: " + listed(missing), {},
      "write \"hosts\": {" + example + "} beside it");
}

std::string read_key(const JsonObject& users, const Service& service) {
  std::string key{trimmed(users.text("key"))};
  if (key.empty() || !plain(key)) users.refuse("key", "a key must be one line of plain ASCII text");
  if (!service.takes_key) users.refuse("key", "this service takes no key", {}, "remove \"key\"");
  demand_all_hosts(users, service);
  return key;
}

void lay_over(const JsonObject& users, Service& service) {
  if (users.has("key")) {
    service.key = read_key(users, service);
    // What the free service allows is not what a user with a key has agreed with it.
    service.terms.clear();
    service.limits = {{}, {}, {}, service.limits.least_pause};
  }
  if (const auto hosts = users.optional_object("hosts")) {
    for (const std::string& name : hosts->keys()) {
      if (!service.hosts.contains(name)) {
        std::vector<std::string> known;
        for (const auto& [host, url] : service.hosts) known.push_back(host);
        hosts->refuse(name, "this service has no such host", "one of " + listed(known));
      }
      service.hosts[name] = read_host(*hosts, name);
    }
  }
  if (users.has("provisional_days"))
    service.provisional_days = users.integer("provisional_days", 0, most_provisional_days);
  users.finish();
}

Services laid_over(const JsonObject& users, Services services) {
  services.contact = trimmed(users.optional_text("contact").value_or(""));
  if (!one_line(services.contact)) users.refuse("contact", "this text holds a control character", "one line");
  services.ca_file = users.optional_text("ca_file").value_or("");
  if (const auto all = users.optional_object("services")) {
    for (const std::string& id : all->keys()) {
      const auto found = services.all.find(id);
      if (found == services.all.end()) {
        std::vector<std::string> known;
        for (const auto& [name, service] : services.all) known.push_back(name);
        const auto near = nearest(id, known);
        all->refuse(id, "this service is not known", "one of " + listed(known),
                    near ? "did you mean '" + *near + "'?" : "");
      }
      lay_over(all->object(id), found->second);
    }
  }
  users.finish();
  return services;
}

}  // namespace

Result<Services> read_services(std::string_view built_in, std::string_view users,
                               const std::string& users_file) {
  auto services = read_json(built_in, "config/services.json", Family::fault, read_built_in);
  if (!services || users.empty()) return services;
  auto merged = read_json(users, users_file, Family::request,
                          [&](const JsonObject& top) { return laid_over(top, *services); });
  // Whatever was found may hold a key or be one; the place says enough.
  if (!merged) merged.error().found.clear();
  return merged;
}

}  // namespace soilclock::net
