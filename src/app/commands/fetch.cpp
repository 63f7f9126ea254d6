// SPDX-License-Identifier: MIT
#include "app/commands/fetch.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "app/day_option.hpp"
#include "app/fetcher.hpp"
#include "app/local_files.hpp"
#include "app/records_file.hpp"
#include "app/service_settings.hpp"
#include "core/text.hpp"
#include "site/site_areas.hpp"

namespace soilclock::app {

namespace {

constexpr int most_years = 80;

/// When a saved answer was given: as the user says, else when the file was last written. An answer of a whole
/// day is taken as of its noon.
Result<Instant> given_at(const std::string& path, const std::string& saved_on, const Streams& streams) {
  if (!saved_on.empty()) {
    const auto day = read_day("--saved-on", saved_on);
    if (!day) return fail(day.error());
    if (*day > streams.today) {
      return fail({Family::request,
                   "--saved-on is a day to come",
                   {},
                   saved_on,
                   "a day up to " + iso(streams.today),
                   {}});
    }
    return std::min(Instant{*day} + std::chrono::hours{12}, streams.now());
  }
  std::error_code error;
  const auto written = std::filesystem::last_write_time(path, error);
  if (error)
    return fail({Family::environment,
                 "the age of the file is not known",
                 {path, {}, {}, {}},
                 error.message(),
                 {},
                 "say it with --saved-on"});
  return std::min(date::floor<std::chrono::seconds>(std::chrono::file_clock::to_sys(written)), streams.now());
}

}  // namespace

std::string FetchCommand::examples() const {
  return "  soilclock fetch --sites courses.json\n"
         "  soilclock fetch --latitude 36.0 --longitude -85.1 --elevation 310 --time-zone America/Chicago "
         "--name "
         "course --service open-meteo\n"
         "  soilclock fetch --sites courses.json --only copper-heron --saved answer.json --saved-on "
         "2026-10-14\n";
}

void FetchCommand::declare(Options& options) {
  sites_.declare_sites(options);
  options.under(Heading::site);
  options.text("--time-zone ZONE", time_zone_, time_zone_help);
  options.flag("--shift-morning", shift_morning_, shift_morning_help);
  options.under(Heading::weather_file);
  options.text("--saved FILE", saved_, "a saved answer of the site's service instead of asking for one");
  options.text("--saved-on DAY", saved_on_,
               "day the saved answer was given, YYYY-MM-DD (default: when the file was last written)");
  options.text("--units-in UNITS", units_in_,
               "units of the saved answer where it does not say: \"C,mm\", \"F,in\"");
  declare_format(options, format_, {"text", "json"});
  options.under(Heading::advanced);
  options.whole("--years COUNT", years_, "years of history before this one (default 12)");
  options.flag("--no-members", no_members_, "leave out the members of ensemble forecasts");
}

/// Options that would have no effect.
std::optional<Problem> FetchCommand::misuse() const {
  if (years_ && (*years_ < 0 || *years_ > most_years))
    return Problem{Family::request, "--years is out of range", {}, std::to_string(*years_), "0 to 80", {}};
  if (saved_.empty() && !(saved_on_.empty() && units_in_.empty())) {
    return Problem{
        Family::request,
        (saved_on_.empty() ? "--units-in" : "--saved-on") + std::string{" is about a saved answer"},
        {},
        {},
        "--saved FILE beside it",
        {}};
  }
  if (!saved_.empty() && (years_ || no_members_)) {
    return Problem{Family::request,
                   (years_ ? "--years" : "--no-members") +
                       std::string{" is about what is asked for, and with --saved nothing is"},
                   {},
                   {},
                   {},
                   "leave one of them out"};
  }
  return std::nullopt;
}

int FetchCommand::run(Streams& streams) {
  if (const auto problem = misuse()) return app::report(*problem, streams);
  sites_.words.time_zone = time_zone_;
  sites_.words.shift_morning = shift_morning_;
  if (sites_.sites.empty() && sites_.services.empty()) sites_.services = {"open-meteo"};
  const auto sites = sites_.read_sites_named();
  if (!sites) return app::report(sites.error(), streams);
  const std::vector<Site> courses = courses_of(*sites);
  const auto fetched = saved_.empty() ? fetch(courses, streams) : take_saved(courses, streams);
  if (!fetched) return app::report(fetched.error(), streams);
  streams.out << (format_ == "json" ? report::fetch_json(*fetched) : report::fetch_text(*fetched));
  for (const report::SiteFetch& site : fetched->sites) {
    for (const Problem& problem : site.problems) report_of_site(site.site, problem, format_, streams);
  }
  return fetch_exit_code(*fetched);
}

Result<report::FetchReport> FetchCommand::fetch(const std::vector<Site>& sites, Streams& streams) const {
  std::vector<Site> served;
  for (const Site& site : sites) {
    if (!site.services.empty())
      served.push_back(site);
    else
      streams.err << "soilclock: " << printable(site.id, 80)
                  << " names no service; nothing is fetched for it\n";
  }
  if (served.empty()) {
    return fail({Family::request,
                 "no site names a service",
                 {},
                 {},
                 "{\"service\": \"open-meteo\"} among the weather of a site",
                 {}});
  }
  const auto services = load_services(sites_.service_settings);
  if (!services) return fail(services.error());
  if (const auto warning = key_seen_by_others(*services, sites_.service_settings))
    streams.err << "soilclock: " << *warning << "\n";
  auto store = open_records(sites_.records, records::Access::create);
  if (!store) return fail(store.error());
  return fetch_weather(served, *services, *store, streams,
                       {years_.value_or(FetchOptions{}.years), !no_members_});
}

Result<report::FetchReport> FetchCommand::take_saved(const std::vector<Site>& sites,
                                                     const Streams& streams) const {
  if (sites.size() != 1)
    return fail({Family::request, "a saved answer is for one site", {}, {}, "--only ID", {}});
  const auto services = load_services(sites_.service_settings);
  if (!services) return fail(services.error());
  auto body = read_file(saved_);
  if (!body) return fail(body.error());
  const auto given = given_at(saved_, saved_on_, streams);
  if (!given) return fail(given.error());
  auto store = open_records(sites_.records, records::Access::create);
  if (!store) return fail(store.error());
  return store_saved(sites.front(), *services, *store,
                     {std::move(*body),
                      *given,
                      std::filesystem::path{saved_}.filename().string(),
                      {},
                      units_in_,
                      saved_on_.empty()});
}

}  // namespace soilclock::app
