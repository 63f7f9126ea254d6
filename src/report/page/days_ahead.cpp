// SPDX-License-Identifier: MIT
// The coming seven days: fit for spraying or not, why, rain, wind, hours.
#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"
#include "report/page/page_parts.hpp"

namespace soilclock::report {

namespace {

using advice::DayAhead;

const char* fit_word(const DayAhead& day) { return !day.fit ? "not known" : *day.fit ? "fit" : "not fit"; }

std::string rain_word(const DayAhead& day, bool us_units) {
  if (!day.rain || !day.rain->known()) return "rain not known";
  return day.rain->mm() > 0.0 ? "rain " + water_words(*day.rain, us_units) : "dry";
}

void write_day(Markup& page, const DayAhead& day, bool us_units) {
  const bool fit = day.fit.value_or(false);
  page.open("li", {{"class", fit ? "fit" : "unfit"}});
  page.element("span", fmt::format("{} {}", weekday_name(day.day).substr(0, 3), civil(day.day).day),
               {{"class", "day"}});
  page.element("span", fit_word(day), {{"class", "word"}});
  page.open("span", {{"class", "sky"}});
  page.element("span", rain_word(day, us_units));
  if (day.wind_m_s) page.element("span", "wind " + wind_words(*day.wind_m_s, us_units));
  if (day.usable_hours)
    page.element("span", fmt::format("{} usable hours", number_text(*day.usable_hours, 0)));
  page.close();
  if (!day.why.empty()) page.element("span", day.why, {{"class", "why"}});
  page.close();
}

}  // namespace

void write_days(Markup& page, const advice::SiteAnswer& site) {
  if (!site.spray || site.spray->days.empty()) return;
  page.open("div", {{"class", "ahead"}});
  page.element("h3", "Days fit for spraying");
  if (site.spray->fit_days) {
    page.open("ol", {{"class", "days"}});
    for (const DayAhead& day : site.spray->days) write_day(page, day, site.facts.us_units);
    page.close();
  } else {
    page.element("p", "Not known without a forecast.");
  }
  page.close();
}

}  // namespace soilclock::report
