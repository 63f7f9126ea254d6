// SPDX-License-Identifier: MIT
#include "app/commands/mix.hpp"

#include <algorithm>
#include <ostream>
#include <set>

#include "app/records_file.hpp"
#include "app/site_notes.hpp"
#include "app/site_options.hpp"
#include "app/site_requests.hpp"
#include "core/season.hpp"
#include "core/text.hpp"
#include "records/entries/measure.hpp"
#include "site/site_log_entries.hpp"

namespace soilclock::app {

namespace {

using emergence::StageClass;
using treatment::GroupStatus;
using treatment::PlanEntry;
using treatment::PlanTiming;

constexpr int most_practices = 5;
constexpr int most_seasons = 50;  // longer than anybody keeps notes; a slip of the keyboard otherwise

std::vector<std::string> stage_words() {
  std::vector<std::string> words;
  words.reserve(emergence::stage_count);
  for (const StageClass stage : emergence::all_stages) {
    words.emplace_back(name(stage));
  }
  return words;
}

Result<Day> given_day(const std::string& option, const std::string& text) {
  if (const auto day = parse_iso_day(text)) return *day;
  return fail({Family::request, option + " is not a date", {}, text, "YYYY-MM-DD", {}});
}

/// Seasons between the season of a day and a later one.
int seasons_between(const Season& season, Day earlier) {
  const Season then = season_of(earlier, season.kind, season.hemisphere);
  return civil(season.first).year - civil(then.first).year;
}

/// A number typed for a group that has another one since the revision of the numbers.
std::optional<Remark> renumbered(const std::string& typed, const PlanEntry& entry) {
  if (entry.active != nullptr) return std::nullopt;
  const auto digits = typed.find_first_of("0123456789");
  const auto number = digits == std::string::npos
                          ? std::nullopt
                          : parse_number(trimmed(std::string_view{typed}.substr(digits)));
  if (!number || static_cast<int>(*number) == entry.group) return std::nullopt;
  return Remark{"legacy-group", "group " + std::to_string(static_cast<int>(*number)) +
                                    " is an old number; it is read as " + entry.text};
}

/// Seasons back from the last one that each hold a treatment whose groups are all that is noted of it.
int seasons_with_notes(const std::vector<report::NotedSpray>& sprays) {
  std::set<int> noted;
  for (const report::NotedSpray& spray : sprays) noted.insert(spray.seasons_ago);
  for (const report::NotedSpray& spray : sprays) {
    if (spray.groups.empty()) noted.erase(spray.seasons_ago);
  }
  int known = 0;
  while (noted.contains(known + 1)) ++known;
  return known;
}

/// The site of the records file whose id is like the one typed.
std::optional<std::string> similar_site(const std::string& records_file, const std::string& site) {
  auto store = open_records(records_file, records::Access::reading);
  if (!store) return std::nullopt;
  const auto entries = store->list({});
  if (!entries) return std::nullopt;
  std::set<std::string> sites;
  for (const records::Entry& entry : *entries) sites.insert(records::site_of(entry.record));
  return nearest(site, {sites.begin(), sites.end()});
}

}  // namespace

std::string MixCommand::examples() const {
  return "  soilclock mix prodiamine foramsulfuron --date 2026-10-14\n"
         "  soilclock mix 3 14 --site copper-heron --stage to_one_tiller --day-maximum 60F --timing inside\n"
         "  soilclock mix simazine 9 --failed 9 --works 5 --seed-on 2027-03-15 --format json\n";
}

void MixCommand::declare(Options& options) {
  options.positional("ENTRY", entries_, "active ingredients by common name, or numbers of their groups");
  options.under(Heading::site);
  options.text("--site ID", site_, "site whose noted treatments count; without it its history is not known");
  options.number("--latitude DEGREES", latitude_,
                 "south of the equator (negative) seasons begin on December 21, else on June 21");
  options.texts("--failed GROUP", failed_, "a group confirmed to fail at this site");
  options.texts("--works GROUP", works_, "a group known to work at this site");
  options.texts("--region-resistant GROUP", region_resistant_,
                "a group resisted in the region but not tested here");
  options.text("--seed-on DAY", seed_on_, "day of seeding, overseeding or sprigging, YYYY-MM-DD");
  options.whole("--practices COUNT", practices_,
                "how many practices other than chemical ones are followed, 0 to 5");
  options.choice("--escapes-planned CHOICE", escapes_, {"yes", "no"},
                 "whether survivors are dealt with before seedheads");
  options.under(Heading::answer);
  options.text("--date DAY", date_, "day of the treatment, YYYY-MM-DD (default today)");
  options.choice("--stage NAME", stage_, stage_words(), "oldest plants that matter on that day");
  options.text("--day-maximum TEMPERATURE", day_maximum_,
               "mean maximum expected on the days after, with its unit (60F, 15C)");
  options.choice("--timing WORD", timing_, {"inside", "near", "outside"},
                 "where the day lies to the window of the treatment");
  declare_format(options, format_, {"text", "json"});
  declare_models(options, models_, practice_);
  options.text("--records FILE", records_, records_help);
  options.whole("--history-complete SEASONS", history_complete_,
                "seasons back for which every treatment is noted (default: seasons in a row with a note)");
}

std::optional<Problem> MixCommand::wrong_words() const {
  const auto wrong = [](std::string what, std::string found, std::string expected, std::string remedy = {}) {
    return Problem{Family::request,  std::move(what),     {},
                   std::move(found), std::move(expected), std::move(remedy)};
  };
  if (entries_.empty())
    return wrong("the plan is empty", "", "at least one active or group", "see soilclock mix --help");
  if (practices_ && (*practices_ < 0 || *practices_ > most_practices)) {
    return wrong("--practices is out of range", std::to_string(*practices_), "0 to 5");
  }
  if (history_complete_ && (*history_complete_ < 0 || *history_complete_ > most_seasons)) {
    return wrong("--history-complete is out of range", std::to_string(*history_complete_), "0 to 50");
  }
  if (latitude_ && (*latitude_ < -90.0 || *latitude_ > 90.0)) {
    return wrong("--latitude is out of range", std::to_string(*latitude_), "-90 to 90");
  }
  if (site_.empty() && !records_.empty())
    return wrong("--records means nothing without a site", "", "--site ID");
  if (site_.empty() && history_complete_)
    return wrong("--history-complete means nothing without a site", "", "--site ID");
  return std::nullopt;
}

Result<treatment::MixPlan> MixCommand::plan(const advice::Catalogue& catalogue,
                                            std::vector<Remark>& remarks) const {
  treatment::MixPlan plan;
  for (const std::string& typed : entries_) {
    const auto entry = treatment::read_plan_entry(typed, catalogue.actives);
    if (!entry) return fail(entry.error());
    if (const auto remark = renumbered(typed, *entry)) remarks.push_back(*remark);
    const bool twice = std::any_of(plan.entries.begin(), plan.entries.end(),
                                   [&](const PlanEntry& other) { return other.text == entry->text; });
    if (twice) {
      remarks.push_back({"named-twice", entry->text + " is named twice and taken once"});
      continue;
    }
    if (catalogue.actives.of_group(entry->group).empty()) {
      remarks.push_back({"group-without-actives",
                         "no active of " + entry->text + " is known here: whether it counts is open"});
    }
    plan.entries.push_back(*entry);
  }
  const std::vector<std::string> stages = stage_words();
  if (const auto at = std::find(stages.begin(), stages.end(), stage_); at != stages.end()) {
    plan.oldest_cohort = static_cast<StageClass>(at - stages.begin());
  }
  if (!day_maximum_.empty()) {
    const auto celsius = records::parse_measure(day_maximum_, records::Quantity::temperature, "");
    if (!celsius) {
      Problem problem = celsius.error();
      problem.what = "--day-maximum: " + problem.what;
      return fail(problem);
    }
    plan.day_maximum = Temperature::from_celsius(*celsius);
  }
  if (!timing_.empty()) {
    plan.timing = timing_ == "inside" ? PlanTiming::inside_window
                  : timing_ == "near" ? PlanTiming::within_a_week
                                      : PlanTiming::outside_window;
  }
  if (!escapes_.empty()) plan.escapes_planned = escapes_ == "yes";
  plan.other_practices = practices_;
  return plan;
}

Result<std::map<int, GroupStatus>> MixCommand::group_status(const advice::Catalogue& catalogue) const {
  std::map<int, GroupStatus> status;
  const auto take = [&](const std::vector<std::string>& words, GroupStatus value) -> std::optional<Problem> {
    for (const std::string& word : words) {
      const auto entry = treatment::read_plan_entry(word, catalogue.actives);
      if (!entry) return entry.error();
      const auto [place, fresh] = status.emplace(entry->group, value);
      if (!fresh && place->second != value) {
        return Problem{Family::request,
                       "two different things are said of group " + std::to_string(entry->group),
                       {},
                       word,
                       "one of --failed, --works and --region-resistant",
                       {}};
      }
    }
    return std::nullopt;
  };
  if (const auto problem = take(failed_, GroupStatus::failed_here)) return fail(*problem);
  if (const auto problem = take(works_, GroupStatus::effective)) return fail(*problem);
  if (const auto problem = take(region_resistant_, GroupStatus::resistant_in_region)) return fail(*problem);
  return status;
}

Result<treatment::SiteHistory> MixCommand::history(const advice::Catalogue& catalogue,
                                                   report::MixReport& result) const {
  const Hemisphere hemisphere = latitude_.value_or(0.0) < 0.0 ? Hemisphere::south : Hemisphere::north;
  const Season season = season_of(result.date, SeasonKind::fall, hemisphere);
  result.season_first = season.first;
  treatment::SiteHistory history;
  if (site_.empty()) return history;
  result.site = site_;
  const auto notes = read_site_notes(records_, site_);
  if (!notes) return fail(notes.error());
  const std::vector<advice::SiteApplication> applications = site_log(notes->entries, catalogue).applications;
  for (const advice::SiteApplication& noted : applications) {
    if (noted.day >= result.date) continue;  // the plan itself may be noted already
    std::vector<int> groups;
    for (const treatment::PlanEntry& entry : noted.entries) groups.push_back(entry.group);
    result.sprays.push_back({noted.day, seasons_between(season, noted.day), groups});
    if (groups.empty()) {
      result.remarks.push_back(
          {"groups-not-known",
           "the groups used on " + iso(noted.day) + " are not known; note them to have that season count"});
    }
    if (result.sprays.back().seasons_ago >= 1) {
      history.sprays.push_back({result.sprays.back().seasons_ago, groups});
    }
  }
  std::reverse(result.sprays.begin(), result.sprays.end());  // the log is in order of dates
  if (applications.empty()) {
    const auto near = similar_site(records_, site_);
    result.remarks.push_back(
        {"nothing-noted", "no treatment is noted for site '" + site_ + "'" +
                              (near && *near != site_ ? "; did you mean '" + *near + "'?" : "")});
  }
  history.seasons_known = history_complete_.value_or(seasons_with_notes(result.sprays));
  for (const report::NotedSpray& spray : result.sprays) {
    // A treatment of unknown groups leaves its season unknown, whatever is said of the record.
    if (spray.groups.empty() && spray.seasons_ago >= 1) {
      history.seasons_known = std::min(history.seasons_known, spray.seasons_ago - 1);
    }
  }
  result.seasons_known = history.seasons_known;
  return history;
}

Result<report::MixReport> MixCommand::judged(const advice::Catalogue& catalogue, Day today) const {
  if (const auto problem = wrong_words()) return fail(*problem);
  report::MixReport result;
  const auto date = date_.empty() ? Result<Day>{today} : given_day("--date", date_);
  if (!date) return fail(date.error());
  result.date = *date;
  const auto planned = plan(catalogue, result.remarks);
  if (!planned) return fail(planned.error());
  result.entries = planned->entries;
  const auto groups = group_status(catalogue);
  if (!groups) return fail(groups.error());
  auto past = history(catalogue, result);
  if (!past) return fail(past.error());
  past->status = *groups;
  result.score = treatment::score_mix(*planned, *past, catalogue.actives, catalogue.mixture);
  if (!seed_on_.empty()) {
    const auto seeded = given_day("--seed-on", seed_on_);
    if (!seeded) return fail(seeded.error());
    result.seeding = treatment::seeding_warnings(planned->entries, result.date, *seeded, catalogue.actives,
                                                 catalogue.gates.residual_after_seeding_weeks);
  }
  result.cautions = catalogue.practice.cautions;
  return result;
}

int MixCommand::run(Streams& streams) {
  const auto catalogue = load_models(models_, practice_);
  if (!catalogue) return report(catalogue.error(), streams);
  const auto result = judged(*catalogue, streams.today);
  if (!result) return report(result.error(), streams);
  for (const Remark& remark : result->remarks) streams.err << "remark: " << remark.text << "\n";
  streams.out << (format_ == "json" ? report::mix_json(*result) : report::mix_text(*result));
  return 0;
}

}  // namespace soilclock::app
