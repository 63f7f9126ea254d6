// SPDX-License-Identifier: MIT
#include "report/advice_text.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::State;
using advice::TargetAnswer;

std::string span_words(const DateBand& band) {
  if (!band.middle) return "not this season";
  std::string text = short_date(*band.middle);
  if (band.low)
    text += fmt::format("  ({} - {})", short_date(*band.low), band.high ? short_date(*band.high) : "later");
  return text;
}

const DateBand* reached(const std::vector<advice::Milestone>& milestones, int percent) {
  for (const advice::Milestone& milestone : milestones) {
    if (milestone.percent == percent) return &milestone.date;
  }
  return nullptr;
}

std::string by_date(const TargetAnswer& target, int percent, const std::string& what) {
  const DateBand* date = reached(target.milestones, percent);
  if (date == nullptr || !date->middle) return "";
  return fmt::format("; {} about {}", what, short_date(*date->middle));
}

std::string reach_words(const Band<double>& points) {
  return fmt::format("about {:.0f} of 100 seedlings of the season (careful figure {:.0f})", points.middle,
                     points.low);
}

std::string up_words(const TargetAnswer& target) {
  return fmt::format("{:.0f} % are up, {:.0f} % of those juvenile", target.emerged_percent.middle,
                     target.juvenile_percent.middle);
}

/// What this week calls for, in few words.
std::string state_words(const TargetAnswer& target) {
  switch (target.state) {
    case State::hold:
      return "hold";
    case State::pre:
      return "a residual alone (pre)";
    case State::pre_and_post:
      return "pre+post";
    case State::post:
      return "post";
    case State::second_pre:
      return "a second pre";
    case State::dormant_season:
      return "a clean-up in dormancy, where the turf was seen to be fully dormant";
    case State::stop:
      return "a stop: the turf is greening up";
    case State::no_single_window:
      break;
  }
  return "no single week";
}

/// Which week and which kind; the sentence a superintendent acts on.
std::string week_sentence(const TargetAnswer& target) {
  if (target.state == State::no_single_window)
    return "no single week can be named here; scout and treat by what you find";
  if (!target.reach && target.state == State::hold && target.emerged_percent.low >= 99.0) {
    return "hold, nothing is left to time this season";
  }
  if (!target.reach || !target.reach->best) {
    return "this week calls for " + state_words(target) + by_date(target, 50, "half are expected up");
  }
  const treatment::BestWeek& best = *target.reach->best;
  const Day this_week = target.reach->reach.weeks.front().week_of;
  if (best.week_of == this_week && target.state != State::stop && target.state != State::hold) {
    std::string text = fmt::format("treat this week, {}: it reaches {}; {}", state_words(target),
                                   reach_words(best.points), up_words(target));
    if (best.cost_of_waiting[0])
      text += fmt::format("; a week's delay costs {:.0f}", *best.cost_of_waiting[0]);
    return text;
  }
  return fmt::format("best week is that of {} with {}, reaching {}; this week calls for {}; {}",
                     short_date(best.week_of), treatment::name(best.kind), reach_words(best.points),
                     state_words(target), up_words(target));
}

std::string dates_block(const TargetAnswer& target) {
  std::string text;
  for (const int percent : {5, 50, 80}) {
    if (const DateBand* date = reached(target.milestones, percent))
      text += fmt::format("    {:>3} % up         {}\n", percent, span_words(*date));
  }
  if (target.before_scouting) {
    if (const DateBand* date = reached(target.before_scouting->milestones, 50))
      text += fmt::format("    50 % by weather  {}\n", span_words(*date));
  }
  text += fmt::format("    main wave over   {}\n", span_words(target.main_wave_over));
  for (const advice::Window& window : target.windows) {
    if (!window.opens.middle) continue;
    text += fmt::format("    {:<8} window  from {}", treatment::name(window.kind), span_words(window.opens));
    if (window.closes.middle) text += fmt::format(" to {}", span_words(window.closes));
    text += "\n";
  }
  return text;
}

std::string habits_words(const TargetAnswer& target) {
  std::vector<std::string> parts;
  for (const advice::SoilRuleReading& rule : target.soil_rules) {
    const std::string when = rule.last_run    ? "since " + short_date(*rule.last_run)
                             : rule.first_run ? "first on " + short_date(*rule.first_run) + ", not now"
                                              : "not yet";
    parts.push_back(fmt::format(
        "'{}' {}{}", rule.title, when,
        rule.reversals > 0 ? fmt::format(" ({} reversal{})", rule.reversals, rule.reversals == 1 ? "" : "s")
                           : ""));
  }
  return listed(parts);
}

std::string models_words(const TargetAnswer& target) {
  std::vector<std::string> parts;
  for (const advice::ModelShare& model : target.models) {
    parts.push_back(fmt::format("{} {:.0f} % (weight {:.2f})", model.id, model.percent, model.weight));
  }
  return listed(parts);
}

std::string target_text(const SiteAnswer& site, const TargetAnswer& target) {
  std::string text = wrapped(headline(site, target), 0);
  if (target.refusal) return text;
  text += "  why\n";
  for (const std::string& reason : target.reasons) text += wrapped("- " + reason, 4);
  if (!target.soil_rules.empty())
    text += wrapped("- Soil habits of the trade: " + habits_words(target) + ".", 4);
  if (!target.milestones.empty()) text += "  dates, early - late in brackets\n" + dates_block(target);
  if (!target.models.empty() || !target.remarks.empty()) text += "  doubts\n";
  if (target.models.size() > 1) text += wrapped("- models: " + models_words(target) + ".", 4);
  for (const Remark& remark : target.remarks) text += wrapped("- " + remark.text, 4);
  return text;
}

std::string spray_words(const advice::SprayWeek& week) {
  if (!week.fit_days) return "days fit for spraying are not known without a forecast";
  if (week.days.empty()) return "no day of the next seven looks fit for spraying";
  std::vector<std::string> days;
  for (const Day day : week.days) days.push_back(short_date(day));
  return fmt::format("of the next seven days {} look{} fit for spraying: {}", week.days.size(),
                     week.days.size() == 1 ? "s" : "", listed(days));
}

std::string weather_words(const SiteAnswer& site, bool us) {
  if (!site.weather.last_measured) return "";
  std::string text = fmt::format("weather to {}", short_date(*site.weather.last_measured, true));
  if (site.weather.last_forecast)
    text += fmt::format(", forecast to {}", short_date(*site.weather.last_forecast));
  text += fmt::format("; {} days filled, {} missing", site.weather.filled_days, site.weather.missing_days);
  if (site.soil.mean_7d) {
    const double value = us ? site.soil.mean_7d->fahrenheit() : site.soil.mean_7d->celsius();
    const double error = us ? site.soil.error_c * 1.8 : site.soil.error_c;
    text += fmt::format("; soil at {:.3g} cm {}: {:.1f} {} over seven days, give or take {:.1f}",
                        site.soil.depth.cm(), site.soil.origin, value, us ? "F" : "C", error);
  }
  return text;
}

}  // namespace

std::string headline(const SiteAnswer& site, const TargetAnswer& target) {
  const std::string start = fmt::format("{}, {}: ", printable(site.name, 80), lowered(target.title));
  if (target.refusal) return start + "no answer. " + describe(*target.refusal) + ".";
  return start + week_sentence(target) + ".";
}

std::string advice_text(const SiteAnswer& site, bool us_units) {
  std::string text;
  for (const TargetAnswer& target : site.targets) text += target_text(site, target) + "\n";
  if (site.spray && !site.targets.empty())
    text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), spray_words(*site.spray)), 0);
  if (site.turf)
    text += wrapped(fmt::format("{}: turf {}. {}", printable(site.name, 80),
                                treatment::name(site.turf->state), site.turf->ask),
                    0);
  const std::string weather = weather_words(site, us_units);
  if (!weather.empty()) text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), weather), 0);
  for (const Remark& remark : site.remarks) text += wrapped("- " + remark.text, 2);
  if (site.spray && site.spray->fit_days) {
    for (const Remark& remark : site.spray->remarks) text += wrapped("- " + remark.text, 2);
  }
  for (const Problem& problem : site.problems) {
    text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), describe(problem)), 0);
  }
  return text;
}

std::string closing_text(const AnswerFrame& frame) {
  std::string text = "Care:";
  for (const std::string& caution : frame.brief_cautions) text += " " + caution;
  return wrapped(text, 0);
}

}  // namespace soilclock::report
