// SPDX-License-Identifier: MIT
#include "advice/site_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/windows.hpp"
#include "treatment/site_cautions.hpp"
#include "treatment/spray_day.hpp"

namespace soilclock::advice {

namespace {

constexpr int coming_days = 7;

treatment::SprayJob job_of(treatment::Kind kind) {
  return kind == treatment::Kind::pre ? treatment::SprayJob::residual : treatment::SprayJob::foliar;
}

State state_of(treatment::WeekKind kind) {
  switch (kind) {
    case treatment::WeekKind::pre:
      return State::pre;
    case treatment::WeekKind::pre_post:
      return State::pre_and_post;
    case treatment::WeekKind::post:
      return State::post;
    case treatment::WeekKind::second_pre:
      return State::second_pre;
    case treatment::WeekKind::hold:
      break;
  }
  return State::hold;
}

/// Two to four weeks after a treatment survivors can be told from dying plants. Source: common practice.
constexpr Days effect_shows_after{28};

/// Overseeding within half a year ahead meets almost every residual interval there is.
constexpr Days overseeding_horizon{26 * 7};

}  // namespace

std::optional<treatment::TurfReading> turf_today(const SiteWeather& site, const SiteSoil& soil,
                                                 const TurfFacts& facts, const SiteLog& log,
                                                 const Catalogue& catalogue) {
  if (!facts.species) return std::nullopt;
  // A later probe reading must not take back what was said of the turf before it.
  const Hemisphere hemisphere = site.place.hemisphere();
  return treatment::read_turf(
      {soil::as_known_then(soil.at_5cm, hemisphere), site.daily.air_min, site.daily.air_max}, site.on,
      *facts.species, hemisphere, log.seen, catalogue.turf);
}

SprayWeek spray_week(const SiteWeather& site, std::span<const weather::HourReading> hours,
                     treatment::Kind kind, const TurfFacts& facts, const Catalogue& catalogue) {
  const double offset = facts.utc_offset_hours.value_or(std::round(site.place.longitude_deg / 15.0));
  const treatment::SpraySite place{site.place, offset, site.irrigation.irrigated, facts.slope_to_green};
  const treatment::WeekFitness week =
      treatment::judge_days(site.on, coming_days, job_of(kind), hours, site.daily, place, catalogue.spray);
  SprayWeek result{week.fit_days, {}, week.remarks};
  for (const treatment::DayFitness& day : week.days) {
    if (day.fit) result.days.push_back(day.day);
  }
  return result;
}

std::vector<Remark> site_cautions(const SiteWeather& site, const TurfFacts& facts, const SiteLog& log,
                                  const Catalogue& catalogue) {
  std::vector<Remark> remarks;
  if (facts.overseed_on) {
    for (const SiteApplication& noted : log.applications) {
      for (const treatment::SeedingWarning& warning : treatment::seeding_warnings(
               noted.entries, noted.application.day, *facts.overseed_on, catalogue.actives)) {
        remarks.push_back({warning.risk == treatment::SeedingRisk::hard ? "seeding-interval" : "seeding-ask",
                           warning.text});
      }
    }
  }
  if (const auto slope = treatment::slope_caution(facts.slope_to_green, site.daily.rain, site.on, false)) {
    remarks.push_back(*slope);
  }
  return remarks;
}

std::vector<treatment::LoggedApplication> acting_applications(const SiteLog& log, const SiteWeather& site) {
  std::vector<treatment::LoggedApplication> acting;
  for (const SiteApplication& noted : log.applications) {
    if (noted.application.day >= site.on) continue;
    treatment::LoggedApplication application = noted.application;
    if (!noted.watered_in) {
      application.activation_delay_days =
          treatment::days_until_activated(site.daily.rain, application.day, site.irrigation.irrigated);
    }
    acting.push_back(std::move(application));
  }
  return acting;
}

std::optional<Day> treated_lately(const SiteLog& log, Day on) {
  std::optional<Day> last;
  for (const SiteApplication& noted : log.applications) {
    const Day day = noted.application.day;
    if (day < on && on - day < effect_shows_after && (!last || day > *last)) last = day;
  }
  return last;
}

std::optional<std::string> seed_first(const SiteWeather& site, const TurfFacts& facts) {
  if (!facts.overseed_on) return std::nullopt;
  const Day seeded = *facts.overseed_on;
  if (seeded >= site.on && seeded - site.on < overseeding_horizon) {
    return fmt::format(
        "seed is to go in on {}: a residual laid before can kill it. Ask the label for its seeding interval "
        "before "
        "anything below.",
        short_date(seeded, true));
  }
  if (seeded < site.on && site.on - seeded < overseeding_horizon) {
    return fmt::format(
        "overseeded on {}: most residuals and many foliar treatments hurt the young stand. Ask the label "
        "before "
        "anything below.",
        short_date(seeded, true));
  }
  return std::nullopt;
}

State state_with(State by_emergence, const TargetAnswer& answer,
                 const std::optional<treatment::TurfReading>& turf) {
  if (by_emergence == State::no_single_window) return by_emergence;
  if (season_over(answer) || answer.treated_on) return State::hold;
  if (answer.reach && !answer.reach->starts_this_week) return State::hold;
  const State state = answer.reach ? state_of(answer.reach->this_week.kind) : by_emergence;
  if (!turf) return state;
  const bool foliar = state == State::post || state == State::pre_and_post;
  if (foliar && turf->post == treatment::PostGate::stopped) return State::stop;
  if (state == State::post && turf->seen_dormant) return State::dormant_season;
  return state;
}

}  // namespace soilclock::advice
