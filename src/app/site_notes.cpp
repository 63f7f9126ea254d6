// SPDX-License-Identifier: MIT
#include "app/site_notes.hpp"

#include <algorithm>
#include <filesystem>

#include "app/records_file.hpp"
#include "records/questions.hpp"

namespace soilclock::app {

namespace {

using treatment::FoliarPartner;
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
Kind kind_of(const records::Application& application, const std::vector<PlanEntry>& entries) {
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
    residual = residual || entry.active == nullptr || entry.active->to_come;
    foliar = foliar || (entry.active != nullptr && entry.active->emerged_to);
  }
  if (residual && foliar) return Kind::pre_post;
  return foliar ? Kind::post : Kind::pre;
}

/// The longest of the actives' middle residuals; nothing when no active says one.
std::optional<double> residual_weeks(const std::vector<PlanEntry>& entries) {
  std::optional<double> longest;
  for (const PlanEntry& entry : entries) {
    if (entry.active == nullptr || !entry.active->to_come) continue;
    const double middle = 0.5 * (entry.active->residual_weeks.least + entry.active->residual_weeks.most);
    longest = std::max(longest.value_or(0.0), middle);
  }
  return longest;
}

std::optional<FoliarPartner> partner(const std::vector<PlanEntry>& entries) {
  std::optional<FoliarPartner> best;
  for (const PlanEntry& entry : entries) {
    if (entry.active == nullptr || !entry.active->emerged_to) continue;
    if (entry.active->moves == treatment::Movement::translocated) return FoliarPartner::translocated;
    if (entry.active->moves == treatment::Movement::contact) best = FoliarPartner::contact;
  }
  return best;
}

advice::SiteApplication site_application(const records::Application& noted,
                                         const advice::Catalogue& catalogue) {
  advice::SiteApplication result;
  result.entries = plan_entries(noted, catalogue);
  treatment::LoggedApplication& application = result.application;
  application.day = noted.date;
  for (const PlanEntry& entry : result.entries) application.groups.push_back(entry.group);
  application.kind = kind_of(noted, result.entries);
  application.residual_weeks = residual_weeks(result.entries);
  application.partner = partner(result.entries);
  if (noted.split_part) application.share_of_dose = 0.5;
  if (noted.watering_in) {
    result.watered_in = true;
    const Day watered = noted.watering_date.value_or(noted.date);
    application.activation_delay_days = static_cast<int>(std::max(Days{0}, watered - noted.date).count());
  }
  return result;
}

std::string known_code(const std::string& noted, const advice::Catalogue& catalogue) {
  const emergence::Target* target = catalogue.find_target(noted);
  return target != nullptr ? target->code : noted;
}

advice::LoggedCount logged_count(const records::ScoutingCount& noted, const advice::Catalogue& catalogue) {
  return {noted.date,         known_code(noted.target, catalogue),
          noted.area,         noted.counted == records::Counted::fresh,
          noted.counts,       noted.plot_area_m2,
          noted.visual_share, advice::read_seen_stage(noted.stage)};
}

advice::LoggedReading logged_reading(const records::ProbeReading& noted, const TimeZone* clock) {
  advice::LoggedReading reading{noted.date, {}, 0, noted.depth, noted.temperature};
  if (!noted.time) return reading;
  reading.minute_of_day = noted.time->minute_of_day;
  if (clock == nullptr) return reading;
  const Instant midnight{noted.date};
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
    if (on && check.date > *on) continue;
    if (!log.seen || log.seen->day <= check.date) {
      log.seen = treatment::EyeCheck{check.date, check.state == records::TurfSeen::dormant};
    }
  }
  for (const records::ProbeReading& reading : records::only<records::ProbeReading>(entries)) {
    log.readings.push_back(logged_reading(reading, clock));
  }
  for (const records::ScoutingCount& count : records::only<records::ScoutingCount>(entries)) {
    log.counts.push_back(logged_count(count, catalogue));
  }
  for (const records::FirstSeen& seen : records::only<records::FirstSeen>(entries)) {
    log.first_seen.push_back({seen.date, known_code(seen.target, catalogue)});
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
