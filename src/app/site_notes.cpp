// SPDX-License-Identifier: MIT
#include "app/site_notes.hpp"

#include <algorithm>
#include <filesystem>

#include "app/records_file.hpp"
#include "app/strip_checks.hpp"
#include "records/questions.hpp"

namespace soilclock::app {

namespace {

using treatment::Kind;
using treatment::PlanEntry;

std::vector<PlanEntry> plan_entries(const records::Application& application,
                                    const advice::Catalogue& catalogue) {
  std::vector<PlanEntry> entries;
  for (const std::string& active : application.actives) {
    if (const auto entry = treatment::read_plan_entry(active, catalogue.actives)) entries.push_back(*entry);
  }
  for (const int group : application.groups) {
    const bool named =
        std::any_of(entries.begin(), entries.end(), [&](const PlanEntry& e) { return e.group == group; });
    if (named) continue;
    if (const auto entry = treatment::read_plan_entry(std::to_string(group), catalogue.actives))
      entries.push_back(*entry);
  }
  return entries;
}

/// What the treatment was: as noted, else by what its actives do.
Kind kind_of(const records::Application& application, const std::vector<PlanEntry>& entries,
             const advice::Catalogue& catalogue) {
  if (application.purpose) {
    switch (*application.purpose) {
      case records::Purpose::pre:
        return Kind::pre;
      case records::Purpose::pre_and_post:
        return Kind::pre_post;
      case records::Purpose::post:
      case records::Purpose::dormant:
        return Kind::post;
    }
  }
  bool residual = false;
  bool foliar = false;
  for (const PlanEntry& entry : entries) {
    const std::vector<const treatment::Active*> actives =
        entry.active != nullptr ? std::vector{entry.active} : catalogue.actives.of_group(entry.group);
    // A bare group counts as what most of its actives are.
    const auto to_come =
        std::count_if(actives.begin(), actives.end(), [](const auto* a) { return a->to_come; });
    const auto on_plants = std::count_if(actives.begin(), actives.end(),
                                         [](const auto* a) { return a->emerged_to.has_value(); });
    const auto all = static_cast<std::ptrdiff_t>(actives.size());
    residual = residual || (to_come > 0 && to_come * 2 >= all);
    foliar = foliar || on_plants * 2 > all;
  }
  if (residual && foliar) return Kind::pre_post;
  return foliar ? Kind::post : Kind::pre;
}

advice::SiteApplication site_application(const records::Application& noted,
                                         const advice::Catalogue& catalogue) {
  advice::SiteApplication application;
  application.day = *noted.date;
  application.entries = plan_entries(noted, catalogue);
  application.kind = kind_of(noted, application.entries, catalogue);
  if (noted.split_part) application.share_of_dose = 0.5;
  if (noted.watering_in) {
    const Day watered = noted.watering_date.value_or(*noted.date);
    application.watered_in_after_days = static_cast<int>(std::max(Days{0}, watered - *noted.date).count());
  }
  return application;
}

std::string known_code(const std::string& noted, const advice::Catalogue& catalogue) {
  const emergence::Target* target = catalogue.find_target(noted);
  return target != nullptr ? target->code : noted;
}

advice::LoggedCount logged_count(const records::ScoutingCount& noted, const advice::Catalogue& catalogue) {
  return {*noted.date,        known_code(noted.target, catalogue),
          noted.area,         noted.counted == records::Counted::fresh,
          noted.counts,       noted.plot_area_m2,
          noted.visual_share, advice::read_seen_stage(noted.stage)};
}

treatment::TurfState turf_state(records::TurfSeen seen) {
  switch (seen) {
    case records::TurfSeen::green:
      return treatment::TurfState::green;
    case records::TurfSeen::slowing:
      return treatment::TurfState::slowing;
    case records::TurfSeen::semi_dormant:
      return treatment::TurfState::semi_dormant;
    case records::TurfSeen::dormant:
      return treatment::TurfState::dormant;
    case records::TurfSeen::breaking:
      return treatment::TurfState::breaking;
    case records::TurfSeen::greening:
      break;
  }
  return treatment::TurfState::greening;
}

advice::LoggedReading logged_reading(const records::ProbeReading& noted, const TimeZone* clock) {
  advice::LoggedReading reading{*noted.date, {}, 0, *noted.depth, *noted.temperature};
  if (!noted.time) return reading;
  reading.minute_of_day = noted.time->minute_of_day;
  if (clock == nullptr) return reading;
  const Instant midnight{*noted.date};
  const Instant read_at =
      midnight + std::chrono::minutes{noted.time->minute_of_day} - clock->standard_offset(midnight);
  reading.minutes_ahead = static_cast<int>(std::chrono::duration_cast<std::chrono::minutes>(
                                               clock->wall_offset(read_at) - clock->standard_offset(read_at))
                                               .count());
  return reading;
}

}  // namespace

advice::SiteLog site_log(const std::vector<records::Entry>& entries, const advice::Catalogue& catalogue,
                         std::optional<Day> on, const TimeZone* clock) {
  advice::SiteLog log;
  for (const records::Application& application : records::only<records::Application>(entries)) {
    log.applications.push_back(site_application(application, catalogue));
  }
  for (const records::EyeCheck& check : records::only<records::EyeCheck>(entries)) {
    if (on && *check.date > *on) continue;
    if (!log.seen || log.seen->day <= *check.date) {
      log.seen = treatment::EyeCheck{*check.date, turf_state(*check.state)};
    }
  }
  for (const records::ProbeReading& reading : records::only<records::ProbeReading>(entries)) {
    log.readings.push_back(logged_reading(reading, clock));
  }
  for (const records::ScoutingCount& count : records::only<records::ScoutingCount>(entries)) {
    log.counts.push_back(logged_count(count, catalogue));
  }
  for (const records::FirstSeen& seen : records::only<records::FirstSeen>(entries)) {
    log.first_seen.push_back({*seen.date, known_code(seen.target, catalogue)});
  }
  for (const records::StripCheck& strip : records::only<records::StripCheck>(entries)) {
    // What cannot be judged was refused when it was noted, and 'log list' says why it shows no control.
    if (const auto seen = control_seen(strip, catalogue.scouting.counts))
      log.strips.push_back({*strip.date, known_code(strip.target, catalogue), strip.area, *seen});
  }
  return log;
}

Result<SiteNotes> read_site_notes(const std::string& records_file, const std::string& site,
                                  const advice::Catalogue& catalogue, std::optional<Day> on,
                                  const TimeZone* clock) {
  const auto path = records_path(records_file);
  std::error_code error;
  if (records_file.empty() && (!path || !std::filesystem::exists(*path, error))) return SiteNotes{};
  auto store = open_records(records_file, records::Access::existing);
  if (!store) return fail(store.error());
  const auto entries = store->list({site, {}, {}});
  if (!entries) return fail(entries.error());
  SiteNotes notes{site_log(*entries, catalogue, on, clock), {}};
  if (!entries->empty()) return notes;
  const auto ids = store->sites();
  if (!ids) return fail(ids.error());
  if (const auto other = records::same_site_written_otherwise(site, *ids)) {
    notes.remarks.push_back(
        {"notes-of-a-similar-site", "The log holds notes of '" + *other + "' and none of '" + site +
                                        "': give the site that id if it is the same one."});
  }
  return notes;
}

}  // namespace soilclock::app
