// SPDX-License-Identifier: MIT
// Everything behind a short answer, as text.
#include <fmt/format.h>

#include <algorithm>

#include "advice/answer/words.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/advice_text.hpp"
#include "report/answer_words.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// `middle`: the day or days to name, empty where it never comes.
std::string span_words(const DateBand& band, std::string middle) {
  if (middle.empty()) return "not this season";
  if (band.low)
    middle += fmt::format("  ({} - {})", short_date(*band.low), band.high ? short_date(*band.high) : "later");
  return middle;
}

std::string span_words(const DateBand& band) {
  return span_words(band, band.middle ? short_date(*band.middle) : "");
}

std::string milestones_block(const std::vector<advice::Milestone>& milestones, std::string_view what) {
  std::string text;
  for (const advice::Milestone& milestone : milestones)
    text += fmt::format("    {:>3}% {:<14} {}\n", milestone.percent, what,
                        span_words(milestone.date, advice::day_words(milestone.date, milestone.either)));
  return text;
}

std::string dates_block(const TargetAnswer& target) {
  if (target.milestones.empty()) return "";
  std::string text = "  Dates, early - late in brackets\n" + milestones_block(target.milestones, "up");
  const bool two = std::any_of(target.milestones.begin(), target.milestones.end(),
                               [](const advice::Milestone& milestone) { return !milestone.either.empty(); });
  if (two) text += "    Two dates: the models are weeks apart, and nothing points to a day between.\n";
  if (target.before_scouting) text += milestones_block(target.before_scouting->milestones, "up by weather");
  text += fmt::format("    main wave over      {}\n", span_words(target.main_wave_over));
  text += "  Windows by percent emerged (common practice)\n";
  for (const advice::Window& window : target.windows) {
    if (!window.opens.middle) continue;
    text += fmt::format("    {:<9} from {}", treatment::name(window.kind),
                        span_words(window.opens, advice::day_words(window.opens, window.opens_either)));
    if (window.closes.middle)
      text += fmt::format(" to {}",
                          span_words(window.closes, advice::day_words(window.closes, window.closes_either)));
    text += "\n";
  }
  return text;
}

std::string cell_words(const advice::KindInWeek& cell) {
  if (!cell.allowed) return "-";
  return fmt::format("{} ({}-{})", number_text(cell.control.middle, 0), number_text(cell.control.low, 0),
                     number_text(cell.control.high, 0));
}

std::string weeks_block(const TargetAnswer& target) {
  if (target.weeks.empty()) return "";
  std::string text = fmt::format(
      "  Expected control, percent of the season's seedlings (8 of 10 cases)\n"
      "    {:<9} {:<13} {:<13} {:<13}\n",
      "week of", "pre", "pre+post", "post");
  for (const advice::WeekRow& row : target.weeks) {
    std::string line = fmt::format("    {:<9}", short_date(row.week.week_of));
    for (const treatment::Kind kind : treatment::all_kinds)
      line += fmt::format(" {:<13}", cell_words(row.week.of(kind)));
    std::string gates;
    for (const treatment::Gate& gate : row.gates) {
      if (gate.stops) gates += (gates.empty() ? "" : ", ") + std::string{treatment::name(gate.reason)};
    }
    line += gates;
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

std::string models_words(const TargetAnswer& target) {
  std::string text;
  for (const advice::ModelShare& model : target.models) {
    const std::string say = model.weight > 0.0
                                ? fmt::format("{}% up, weight {}%", number_text(model.percent, 0),
                                              number_text(100.0 * model.weight, 0))
                                : "no weight, " + model.why_no_weight;
    text += wrapped(fmt::format("- {}: {}", model.title, say), 4);
  }
  return text;
}

std::string target_block(const SiteAnswer& site, const TargetAnswer& target) {
  std::string text = wrapped(headline(site, target), 0);
  if (target.refusal) return text;
  text += "  Why\n";
  for (const std::string& reason : target.reasons) text += wrapped("- " + reason, 4);
  for (const advice::SoilRuleStatus& rule : target.soil_rules)
    text += wrapped("- Rule of thumb: " + rule_words(rule, site.facts.us_units) + ".", 4);
  text += weeks_block(target);
  text += dates_block(target);
  if (!target.models.empty()) text += "  Component models\n" + models_words(target);
  if (!target.notes.empty()) text += "  Noted this season\n";
  for (const advice::NoteShown& note : target.notes)
    text += wrapped("- " + short_date(note.day) + ": " + note.text, 4);
  if (!target.remarks.empty()) text += "  Notes and doubts\n";
  for (const Remark& remark : target.remarks) text += wrapped("- " + remark.text, 4);
  return text;
}

std::string spray_block(const SiteAnswer& site) {
  if (!site.spray || site.targets.empty()) return "";
  std::string text = "  Days ahead\n";
  for (const advice::DayAhead& day : site.spray->days) {
    const char* fit = !day.fit ? "not known" : *day.fit ? "fit" : "not fit";
    text += wrapped(
        fmt::format("{:<7} {}{}", short_date(day.day), fit, day.why.empty() ? "" : ": " + day.why), 4);
  }
  for (const Remark& remark : site.spray->remarks) text += wrapped("- " + remark.text, 4);
  return text;
}

}  // namespace

std::string advice_details(const SiteAnswer& site) {
  std::string text;
  for (const TargetAnswer& target : site.targets) text += target_block(site, target) + "\n";
  text += spray_block(site);
  text += "  Site\n";
  if (site.turf) {
    text += wrapped(fmt::format("- Turf is {} ({}). {}", treatment::name(site.turf->state),
                                site.turf->noted ? "noted" : "estimated", site.turf->ask),
                    4);
  }
  const std::string soil = soil_words(site);
  if (!soil.empty()) text += wrapped("- " + soil + ".", 4);
  text += wrapped(fmt::format("- Weather: {} days filled, {} missing.", site.weather.filled_days,
                              site.weather.missing_days),
                  4);
  text += weather_sources_text(site.weather.origins, site.on);
  for (const Remark& remark : site.remarks) text += wrapped("- " + remark.text, 4);
  return text;
}

}  // namespace soilclock::report
