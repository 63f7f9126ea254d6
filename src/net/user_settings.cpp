// SPDX-License-Identifier: MIT
#include "net/user_settings.hpp"

#include <algorithm>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "net/http_client.hpp"

namespace soilclock::net {

namespace {

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

/// What is asked is checked as the network library reads it.
std::string own_host(const JsonObject& hosts, const std::string& name) {
  std::string url = base_address(hosts.text(name));
  // The network library would also take "https:/host", which is a slip.
  const bool whole = lowered(url).starts_with("https://") || lowered(url).starts_with("http://");
  if (!whole || !allowed_url(url) || url.find_first_of("?#") != std::string::npos)
    hosts.refuse(name, "this address cannot be used",
                 "https://..., or http:// on this machine itself (127.0.0.1, localhost)");
  return url;
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
      service.hosts[name] = own_host(*hosts, name);
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
  auto services = read_built_in_services(built_in);
  if (!services || users.empty()) return services;
  auto merged = read_json(users, users_file, Family::request,
                          [&](const JsonObject& top) { return laid_over(top, *services); });
  // Whatever was found may hold a key or be one; the place says enough.
  if (!merged) merged.error().found.clear();
  return merged;
}

}  // namespace soilclock::net
