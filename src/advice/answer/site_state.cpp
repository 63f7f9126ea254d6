// SPDX-License-Identifier: MIT
#include "advice/answer/site_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/windows.hpp"
#include "treatment/site_cautions.hpp"
#include "treatment/spray_day.hpp"

namespace soilclock::advice {

namespace {

constexpr int coming_days = 7;

treatment::SprayJob job_of(treatment::Kind kind) {
  return kind == treatment::Kind::pre ? treatment::SprayJob::residual : treatment::SprayJob::foliar;
}

}  // namespace

std::optional<treatment::TurfAssessment> turf_today(const SiteWeather& site, const SiteSoil& soil,
                                                    const TurfFacts& facts, const SiteLog& log,
                                                    const Catalogue& catalogue) {
  if (!facts.species) return std::nullopt;
  // A later probe reading must not take back what was said of the turf before it.
  return treatment::read_turf({soil.known_then_5cm, site.daily.air_min, site.daily.air_max, site.us_units},
                              site.on, *facts.species, site.place.hemisphere(), log.seen, catalogue.turf);
}

SprayWeek spray_week(const SiteWeather& site, std::span<const weather::HourlyObservation> hours,
                     treatment::Kind kind, const TurfFacts& facts, const Catalogue& catalogue) {
  const double offset = facts.utc_offset_hours.value_or(std::round(site.place.longitude_deg / 15.0));
  const treatment::SpraySite place{site.place, offset, site.irrigation.irrigated, facts.slope_to_green,
                                   site.us_units};
  const treatment::WeekFitness week =
      treatment::judge_days(site.on, coming_days, job_of(kind), hours, site.daily, place, catalogue.spray);
  SprayWeek result{week.fit_days, {}, week.remarks};
  for (const treatment::DayFitness& day : week.days) {
    DayAhead ahead{day.day, {}, {}, site.daily.rain.at(day.day), day.wind_m_s, {}};
    if (day.from_hours) ahead.usable_hours = day.usable_hours;
    if (day.known) ahead.fit = day.fit;
    for (const treatment::SprayFinding& finding : day.findings) {
      if (finding.stops == day.fit) continue;  // a fit day has cautions, an unfit one its stops
      ahead.why += (ahead.why.empty() ? "" : "; ") + finding.text;
    }
    result.days.push_back(std::move(ahead));
  }
  return result;
}

std::vector<Remark> site_cautions(const SiteWeather& site, const TurfFacts& facts, const SiteLog& log,
                                  const Catalogue& catalogue) {
  std::vector<Remark> remarks;
  if (facts.overseed_on) {
    for (const SiteApplication& noted : log.applications) {
      for (const treatment::SeedingWarning& warning :
           treatment::seeding_warnings(noted.entries, noted.day, *facts.overseed_on, catalogue.actives,
                                       catalogue.gates.residual_after_seeding_weeks)) {
        remarks.push_back({warning.risk == treatment::SeedingRisk::hard ? "seeding-interval" : "seeding-ask",
                           warning.text});
      }
    }
  }
  if (const auto slope = treatment::slope_caution(facts.slope_to_green, site.daily.rain, site.on, false,
                                                  catalogue.gates.slope, site.us_units)) {
    remarks.push_back(*slope);
  }
  return remarks;
}

std::optional<std::string> seed_first(const SiteWeather& site, const TurfFacts& facts,
                                      const treatment::GateRules& gates) {
  if (!facts.overseed_on) return std::nullopt;
  const Day seeded = *facts.overseed_on;
  const Days near{7 * gates.seeding_near_weeks};
  if (seeded >= site.on && seeded - site.on < near) {
    return fmt::format(
        "overseeding is planned for {}: a residual applied before it can kill the seed. Check the seeding "
        "interval on the label before anything below.",
        short_date(seeded, true));
  }
  if (seeded < site.on && site.on - seeded < near) {
    return fmt::format(
        "overseeded on {}: most residuals and many foliar treatments injure a young stand. Check the label "
        "before anything below.",
        short_date(seeded, true));
  }
  return std::nullopt;
}

}  // namespace soilclock::advice
