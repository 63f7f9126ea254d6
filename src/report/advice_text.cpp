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
  if (band.low) text += fmt::format("  ({} - {})", short_date(*band.low), band.high ? short_date(*band.high) : "later");
  return text;
}

const DateBand* reached(const TargetAnswer& target, int percent) {
  for (const advice::Milestone& milestone : target.milestones) {
    if (milestone.percent == percent) return &milestone.date;
  }
  return nullptr;
}

std::string by_date(const TargetAnswer& target, int percent, const std::string& what) {
  const DateBand* date = reached(target, percent);
  if (date == nullptr || !date->middle) return "";
  return fmt::format("; {} about {}", what, short_date(*date->middle));
}

std::string up_words(const TargetAnswer& target) {
  return fmt::format("about {:.0f} % of the season's seedlings are up", target.emerged_percent.middle);
}

std::string state_sentence(const TargetAnswer& target) {
  switch (target.state) {
    case State::hold: return "hold, it is too early" + by_date(target, 5, "the first 5 % are expected");
    case State::pre:
      return "the window for a residual alone (pre) is open" + by_date(target, 5, "it closes");
    case State::pre_and_post:
      return fmt::format("pre+post: {}, {:.0f} % of them juvenile, and the rest is still to come", up_words(target),
                         target.juvenile_percent.middle);
    case State::post:
      return fmt::format("post: {} and a residual would only reach the rest", up_words(target));
    case State::second_pre: return "second pre: the first residual is spent and seedlings are still to come";
    case State::dormant_season: return "dormant season: clean up only where the turf was seen to be fully dormant";
    case State::stop: return "stop: the turf is greening up, wait until it is fully green";
    case State::no_single_window: break;
  }
  return "no single week can be named here; scout and treat by what you find";
}

std::string dates_block(const TargetAnswer& target) {
  std::string text;
  for (const advice::Milestone& milestone : target.milestones) {
    text += fmt::format("    {:>3} % up         {}\n", milestone.percent, span_words(milestone.date));
  }
  text += fmt::format("    main wave over   {}\n", span_words(target.main_wave_over));
  for (const advice::Window& window : target.windows) {
    if (!window.opens.middle) continue;
    text += fmt::format("    {:<8} window  opens {}", treatment::name(window.kind), span_words(window.opens));
    if (window.closes.middle) text += fmt::format(", closes {}", span_words(window.closes));
    text += "\n";
  }
  return text;
}

std::string models_words(const TargetAnswer& target) {
  std::vector<std::string> parts;
  for (const advice::ModelShare& model : target.models) {
    parts.push_back(fmt::format("{} {:.0f} % (weight {:.2f})", model.id, model.percent, model.weight));
  }
  return listed(parts);
}

std::string target_text(const SiteAnswer& site, const TargetAnswer& target) {
  std::string text = wrapped(headline(site, target), 0) + "\n";
  if (target.refusal) return text;
  text += "  why\n";
  for (const std::string& reason : target.reasons) text += wrapped("- " + reason, 4);
  for (const advice::SoilRuleReading& rule : target.soil_rules) {
    const std::string when = rule.last_run ? "holds since " + short_date(*rule.last_run)
                             : rule.first_run ? "held first on " + short_date(*rule.first_run) + ", not now"
                                              : "not yet";
    text += wrapped(fmt::format("- habit of the trade, '{}' ({}): {}{}.", rule.title, rule.meaning, when,
                                rule.reversals > 0 ? fmt::format(", turned back {} times", rule.reversals) : ""),
                    4);
  }
  if (!target.milestones.empty()) text += "  dates (early - late)\n" + dates_block(target);
  if (!target.models.empty() || !target.remarks.empty()) text += "  doubts\n";
  if (target.models.size() > 1) text += wrapped("- models: " + models_words(target) + ".", 4);
  for (const Remark& remark : target.remarks) text += wrapped("- " + remark.text, 4);
  return text;
}

std::string weather_words(const SiteAnswer& site, bool us) {
  if (!site.weather.last_measured) return "";
  std::string text = fmt::format("weather to {}", short_date(*site.weather.last_measured, true));
  if (site.weather.last_forecast) text += fmt::format(", forecast to {}", short_date(*site.weather.last_forecast));
  text += fmt::format("; {} days filled, {} missing", site.weather.filled_days, site.weather.missing_days);
  if (site.soil.mean_7d) {
    const double value = us ? site.soil.mean_7d->fahrenheit() : site.soil.mean_7d->celsius();
    const double error = us ? site.soil.error_c * 1.8 : site.soil.error_c;
    text += fmt::format("; soil at {:.3g} cm {}: {:.1f} {} over seven days, give or take {:.1f}", site.soil.depth.cm(),
                        site.soil.origin, value, us ? "F" : "C", error);
  }
  return text;
}

}  // namespace

std::string headline(const SiteAnswer& site, const TargetAnswer& target) {
  const std::string start = fmt::format("{}, {}: ", printable(site.name, 80), lowered(target.title));
  if (target.refusal) return start + "no answer. " + describe(*target.refusal) + ".";
  return start + state_sentence(target) + ".";
}

std::string advice_text(const SiteAnswer& site, bool us_units) {
  std::string text;
  for (const TargetAnswer& target : site.targets) text += target_text(site, target) + "\n";
  const std::string weather = weather_words(site, us_units);
  if (!weather.empty()) text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), weather), 0);
  for (const Remark& remark : site.remarks) text += wrapped("- " + remark.text, 2);
  for (const Problem& problem : site.problems) {
    text += wrapped(fmt::format("{}: {}.", printable(site.name, 80), describe(problem)), 0);
  }
  return text;
}

std::string closing_text(const AnswerFrame& frame) {
  std::string text = "Care\n";
  for (const std::string& caution : frame.cautions) text += wrapped("- " + caution, 2);
  return text;
}

}  // namespace soilclock::report
