// SPDX-License-Identifier: MIT
#include "report/advice_text.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "report/weather_credit.hpp"
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
  std::string text = fmt::format("{:.0f} % are up", target.emerged_percent.middle);
  if (target.emerged_percent.middle >= 1.0)
    text += fmt::format(", {:.0f} % of those juvenile", target.juvenile_percent.middle);
  return text;
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

/// The kind of treatment a state calls for in the week at hand; empty for hold, stop and the like.
std::optional<treatment::Kind> called_kind(State state) {
  switch (state) {
    case State::pre:
    case State::second_pre:
      return treatment::Kind::pre;
    case State::pre_and_post:
      return treatment::Kind::pre_post;
    case State::post:
    case State::dormant_season:
      return treatment::Kind::post;
    case State::hold:
    case State::stop:
    case State::no_single_window:
      break;
  }
  return std::nullopt;
}

std::string best_words(const treatment::BestWeek& best) {
  return fmt::format("the best week is that of {} with {}, reaching {}", short_date(best.week_of),
                     treatment::name(best.kind), reach_words(best.points));
}

/// Treat now or later, both with what they reach.
std::string now_or_later(const TargetAnswer& target, treatment::Kind called) {
  const advice::ReachAnswer& reach = *target.reach;
  const treatment::WeekReach& now = reach.reach.weeks.front();
  const treatment::BestWeek& best = *reach.best;
  if (best.week_of == now.week_of) {
    std::string text = fmt::format("treat this week, {}: it reaches {}; {}", state_words(target),
                                   reach_words(now.of(called)), up_words(target));
    if (best.cost_of_waiting[0])
      text += fmt::format("; a week's delay costs {:.0f}", *best.cost_of_waiting[0]);
    return text;
  }
  if (best.window_first <= now.week_of) {
    return fmt::format("this week is as good as any until the week of {}, with {}, reaching {}; {}",
                       short_date(best.window_last), state_words(target), reach_words(now.of(called)),
                       up_words(target));
  }
  return fmt::format("{}; this week would call for {} and reach {:.0f} ({:.0f}); {}", best_words(best),
                     state_words(target), now.of(called).middle, now.of(called).low, up_words(target));
}

/// Which week and which kind; the sentence a superintendent acts on.
std::string week_sentence(const TargetAnswer& target) {
  if (target.state == State::no_single_window)
    return "no single week can be named here; scout and treat by what you find";
  if (target.treated_on) {
    return fmt::format("hold: treated on {}, the effect shows within two to four weeks; {}",
                       short_date(*target.treated_on), up_words(target));
  }
  if (!target.reach && target.state == State::hold && target.emerged_percent.low >= 99.0) {
    return "hold, nothing is left to time this season";
  }
  const bool best_known = target.reach && target.reach->best;
  const auto called = called_kind(target.state);
  if (called && best_known) return now_or_later(target, *called);
  std::string text = called ? "this week calls for " + state_words(target) : state_words(target);
  if (best_known)
    text += "; " + best_words(*target.reach->best);
  else
    text += by_date(target, 50, "half are expected up");
  return text + "; " + up_words(target);
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

std::string habit_words(const advice::SoilRuleReading& rule, bool us) {
  const std::optional<Day> since = rule.habit_of_last_run ? rule.last_run : rule.first_run;
  std::string text = fmt::format("'{}' ", rule.title);
  if (!since)
    text += rule.first_run ? "not now" : "not yet";
  else
    text += fmt::format("{} {}", rule.last_run ? "since" : "first on", short_date(*since));
  if (since && !rule.last_run) text += ", not now";
  if (rule.reversals > 0)
    text += fmt::format(" ({} reversal{})", rule.reversals, rule.reversals == 1 ? "" : "s");
  if (rule.rain_asked) {
    const auto amount = [us](Rain rain) {
      return us ? fmt::format("{:.2f}", rain.inches()) : fmt::format("{:.1f}", rain.mm());
    };
    text += fmt::format(" by temperature, rain of seven days {} of {} {}",
                        rule.rain_now ? amount(*rule.rain_now) : "not known, asked", amount(*rule.rain_asked),
                        us ? "in" : "mm");
  }
  return text;
}

std::string habits_words(const TargetAnswer& target, bool us) {
  std::vector<std::string> parts;
  for (const advice::SoilRuleReading& rule : target.soil_rules) parts.push_back(habit_words(rule, us));
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return text;
}

std::string models_words(const TargetAnswer& target) {
  std::vector<std::string> parts;
  for (const advice::ModelShare& model : target.models) {
    parts.push_back(fmt::format("{} {:.0f} % (weight {:.2f})", model.id, model.percent, model.weight));
  }
  return listed(parts);
}

std::string target_text(const SiteAnswer& site, const TargetAnswer& target, bool us_units) {
  std::string text = wrapped(headline(site, target), 0);
  if (target.refusal) return text;
  text += "  why\n";
  for (const std::string& reason : target.reasons) text += wrapped("- " + reason, 4);
  if (!target.soil_rules.empty())
    text += wrapped("- Soil habits of the trade: " + habits_words(target, us_units) + ".", 4);
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
  if (site.first_of_all)
    text += wrapped(fmt::format("{}: {}", printable(site.name, 80), *site.first_of_all), 0) + "\n";
  for (const TargetAnswer& target : site.targets) text += target_text(site, target, us_units) + "\n";
  if (site.spray && !site.targets.empty())
    text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), spray_words(*site.spray)), 0);
  if (site.turf)
    text += wrapped(fmt::format("{}: turf {}. {}", printable(site.name, 80),
                                treatment::name(site.turf->state), site.turf->ask),
                    0);
  const std::string weather = weather_words(site, us_units);
  if (!weather.empty()) text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), weather), 0);
  text += weather_sources_text(site.weather.origins, site.on);
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
