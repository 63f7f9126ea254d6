// SPDX-License-Identifier: MIT
#include "report/answer_words.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"

namespace soilclock::report {

std::string rule_words(const advice::SoilRuleStatus& rule, bool us_units) {
  const std::optional<Day>& since = rule.habit_day();
  std::string text = fmt::format("'{}' ", rule.title);
  if (!since)
    text += rule.first_run ? "not now" : "not yet";
  else
    text += fmt::format("{} {}", rule.last_run ? "since" : "first on", short_date(*since));
  if (since && !rule.last_run) text += ", not now";
  if (rule.reversals > 0)
    text += fmt::format(" ({} reversal{})", rule.reversals, rule.reversals == 1 ? "" : "s");
  if (rule.rain_asked) {
    const auto amount = [us_units](Rain rain) {
      return us_units ? fmt::format("{} in", number_text(rain.inches(), 2))
                      : fmt::format("{} mm", number_text(rain.mm(), 1));
    };
    text +=
        fmt::format(" by temperature, rain of seven days {} of {}",
                    rule.rain_now ? amount(*rule.rain_now) : "not known, asked", amount(*rule.rain_asked));
  }
  return text;
}

std::string soil_words(const advice::SiteAnswer& site) {
  if (!site.soil.mean_7d) return "";
  const bool us = site.facts.us_units;
  const double value = us ? site.soil.mean_7d->fahrenheit() : site.soil.mean_7d->celsius();
  const double error =
      us ? TemperatureDelta::from_kelvin(site.soil.error_c).fahrenheit_degrees() : site.soil.error_c;
  return fmt::format("Soil at {} ({}): {} {} over seven days, give or take {}",
                     depth_words(site.soil.depth, us), site.soil.origin, number_text(value, 1),
                     us ? "F" : "C", number_text(error, 1));
}

std::string data_age_words(const advice::SiteAnswer& site) {
  const advice::WeatherSummary& weather = site.weather;
  if (!weather.last_measured) return "no measured weather";
  std::string text = fmt::format("measured through {}", short_date(*weather.last_measured));
  if (weather.age_days > 1) text += fmt::format(" ({} days old)", weather.age_days);
  if (weather.last_forecast && *weather.last_forecast >= site.on)
    text += fmt::format(", forecast through {}", short_date(*weather.last_forecast));
  if (weather.missing_days > 0) text += fmt::format(", {} days missing", weather.missing_days);
  return text;
}

}  // namespace soilclock::report
