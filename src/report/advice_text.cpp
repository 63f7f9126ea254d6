// SPDX-License-Identifier: MIT
#include "report/advice_text.hpp"

#include <fmt/format.h>

#include "advice/answer/answer_changes.hpp"
#include "core/text.hpp"
#include "report/answer_words.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

constexpr std::size_t name_width = 80;

std::string labeled(std::string_view label, std::string_view text) {
  return wrapped(fmt::format("{:<11} {}", fmt::format("{}:", label), text), 2);
}

std::string fit_days_words(const SiteAnswer& site) {
  if (!site.spray || !site.spray->fit_days) return "not known without a forecast";
  std::vector<std::string> days;
  for (const advice::DayAhead& day : site.spray->days) {
    if (day.fit.value_or(false)) days.push_back(short_date(day.day));
  }
  return days.empty() ? "none of the next seven days" : fmt::format("{}", fmt::join(days, ", "));
}

bool any_open(const SiteAnswer& site) {
  for (const TargetAnswer& target : site.targets) {
    if (target.decision.kind && !target.decision.best_range) continue;
    if (!target.brief.empty()) return true;
  }
  return false;
}

}  // namespace

std::string headline(const SiteAnswer& site, const TargetAnswer& target) {
  const std::string start = fmt::format("{}, {}: ", printable(site.name, name_width), lowered(target.title));
  if (target.refusal) return start + "No answer. " + describe(*target.refusal) + ".";
  return start + target.headline;
}

std::string advice_brief(const SiteAnswer& site) {
  std::string text;
  if (site.priority_warning)
    text += wrapped(fmt::format("{}: {}", printable(site.name, name_width), *site.priority_warning), 0);
  for (const TargetAnswer& target : site.targets) {
    text += wrapped(headline(site, target), 0);
    for (const advice::BriefLine& line : target.brief) text += labeled(line.label, line.text);
    if (target.changed && !target.changed->changes.empty())
      text += labeled("changed", "since " + short_date(target.changed->since) + ": " +
                                     advice::changes_words(*target.changed));
  }
  if (any_open(site)) text += labeled("fit days", fit_days_words(site));
  if (!site.targets.empty()) text += labeled("weather", data_age_words(site));
  if (!site.weather.origins.empty()) text += labeled("source", weather_sources_cell(site.weather.origins));
  for (const Problem& problem : site.problems)
    text += wrapped(fmt::format("{}: {}.", printable(site.name, name_width), describe(problem)), 0);
  return text;
}

std::string courses_text(std::span<const advice::CourseSummary> courses) {
  std::string text;
  for (const advice::CourseSummary& course : courses) {
    for (const advice::GrassOnAreas& grass : course.grasses) {
      const std::string title = grass.title.empty() ? "" : ", " + lowered(grass.title);
      text += wrapped(fmt::format("{}{}: {}", printable(course.name, name_width), title, grass.sentence), 0);
    }
  }
  return text;
}

std::string closing_text(const AnswerFrame& frame) {
  std::string text = "Care:";
  for (const std::string& caution : frame.brief_cautions) text += " " + caution;
  return wrapped(text, 0);
}

}  // namespace soilclock::report
