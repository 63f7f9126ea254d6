// SPDX-License-Identifier: MIT
#include "site/site_log_entries.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "records/entries/field.hpp"
#include "records/entries/typed_record.hpp"
#include "site/strip_checks.hpp"

namespace soilclock {

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

/// The records of one kind among all.
template <class Kind>
std::vector<Kind> only(const std::vector<records::Record>& entries) {
  std::vector<Kind> result;
  for (const records::Record& entry : entries) {
    if (const auto* record = std::get_if<Kind>(&entry)) result.push_back(*record);
  }
  return result;
}

/// The values of a field as somebody would type them.
std::vector<std::string> typed_values(const JsonObject& entry, const std::string& key) {
  const std::string kind = entry.kind(key);
  const auto number = [](double value) { return fmt::format("{}", value); };
  if (kind == "string") return {entry.text(key)};
  if (kind == "number") return {number(entry.number(key))};
  if (kind != "array")
    entry.refuse(key, "this value has the wrong type", "a text, a number or a list of them");
  if (entry.kind_of_items(key) == "string") return entry.texts(key);
  std::vector<std::string> values;
  for (const double value : entry.numbers(key)) values.push_back(number(value));
  return values;
}

records::Record read_log_entry(const JsonObject& entry, const std::string& site_id) {
  const auto kind = records::parse_kind(entry.text("kind"));
  if (!kind) entry.refuse("kind", kind.error().what, kind.error().expected, kind.error().remedy);
  std::vector<records::Given> fields{{"site", {site_id}}};
  for (const std::string& key : entry.keys()) {
    if (key == "kind") continue;
    if (key == "site") entry.refuse(key, "the entry belongs to the site it stands in", {}, "leave it out");
    fields.push_back({key, typed_values(entry, key)});
  }
  auto record = records::make_record(*kind, fields);
  if (!record) {
    const Problem& problem = record.error();
    const std::string found = problem.found.empty() ? "" : " ('" + problem.found + "')";
    entry.refuse({}, problem.what + found, problem.expected, problem.remedy);
  }
  return std::move(*record);
}

}  // namespace

std::vector<records::Record> read_log_entries(const JsonObject& site, const std::string& site_id) {
  std::vector<records::Record> entries;
  for (const JsonObject& entry : site.optional_objects("log"))
    entries.push_back(read_log_entry(entry, site_id));
  return without_repeats({}, entries);
}

std::vector<records::Record> without_repeats(std::vector<records::Record> entries,
                                             const std::vector<records::Record>& more) {
  std::multiset<std::string> held;
  for (const records::Record& entry : entries) held.insert(records::key_of(entry));
  for (const records::Record& entry : more) {
    const auto same = held.find(records::key_of(entry));
    if (same == held.end())
      entries.push_back(entry);
    else
      held.erase(same);  // two equal counts on one day are two counts
  }
  std::stable_sort(entries.begin(), entries.end(),
                   [](const auto& a, const auto& b) { return records::date_of(a) < records::date_of(b); });
  return entries;
}

advice::SiteLog site_log(const std::vector<records::Record>& entries, const advice::Catalogue& catalogue,
                         std::optional<Day> on, const TimeZone* clock) {
  advice::SiteLog log;
  for (const records::Application& application : only<records::Application>(entries)) {
    log.applications.push_back(site_application(application, catalogue));
  }
  for (const records::EyeCheck& check : only<records::EyeCheck>(entries)) {
    if (on && *check.date > *on) continue;
    if (!log.seen || log.seen->day <= *check.date) {
      log.seen = treatment::EyeCheck{*check.date, turf_state(*check.state)};
    }
  }
  for (const records::ProbeReading& reading : only<records::ProbeReading>(entries)) {
    log.readings.push_back(logged_reading(reading, clock));
  }
  for (const records::ScoutingCount& count : only<records::ScoutingCount>(entries)) {
    log.counts.push_back(logged_count(count, catalogue));
  }
  for (const records::FirstSeen& seen : only<records::FirstSeen>(entries)) {
    log.first_seen.push_back({*seen.date, known_code(seen.target, catalogue)});
  }
  for (const records::StripCheck& strip : only<records::StripCheck>(entries)) {
    // What cannot be judged was refused when it was noted, and 'log list' says why it shows no control.
    if (const auto seen = control_seen(strip, catalogue.scouting.counts))
      log.strips.push_back({*strip.date, known_code(strip.target, catalogue), strip.area, *seen});
  }
  return log;
}

}  // namespace soilclock
