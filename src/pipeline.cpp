// SPDX-License-Identifier: MIT
#include "pipeline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "advice/answer/learned_effect.hpp"
#include "advice/answer/scouting_effect.hpp"
#include "advice/answer/season_notes.hpp"
#include "advice/answer/season_table.hpp"
#include "advice/answer/strip_notes.hpp"
#include "advice/answer/target_answer.hpp"
#include "advice/answer/target_decision.hpp"
#include "advice/answer/windows.hpp"
#include "advice/answer/words.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/earlier_seasons.hpp"
#include "advice/hindcast/past_seasons.hpp"
#include "advice/scouting/scouting.hpp"
#include "thermal/crossing.hpp"

namespace soilclock {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// Everything answering the targets of a season needs.
struct SiteContext {
  const SiteRequest& request;
  const advice::Catalogue& catalogue;
  advice::SiteWeather site;
  advice::SiteSoil soil;
};

Season season_to_answer(Day on, SeasonKind kind, Hemisphere hemisphere,
                        const advice::AnsweredTo& answered_to) {
  const Season season = season_of(on, kind, hemisphere);
  return season.day_of_season(on) > answered_to.day(kind) ? season.next() : season;
}

/// Days between the last known one and the day of the answer; none when all is known.
struct DataAge {
  Day last_known;
  int days;
};

/// A forecast does not make up for the days that have passed since: it is as old as they are.
DataAge data_age(const SiteContext& context) {
  const Day last =
      context.site.last_measured ? *context.site.last_measured : context.site.outlook_start - Days{1};
  return {last, static_cast<int>((context.site.on - last).count()) - 1};
}

std::string how_to_update(const SiteContext& context) {
  return context.request.stored.series.empty() ? "bring the file up to date" : "run soilclock fetch";
}

std::optional<Problem> too_old(const SiteContext& context) {
  const DataAge age = data_age(context);
  const int oldest = context.catalogue.practice.data_age.oldest_days;
  if (age.days <= oldest) return std::nullopt;
  return Problem{Family::data,
                 fmt::format("the weather ends on {}, {} days before {}", iso(age.last_known), age.days + 1,
                             iso(context.site.on)),
                 {},
                 {},
                 fmt::format("at most {} days in a row without weather", oldest),
                 how_to_update(context) + ", or ask for an earlier day with --on"};
}

std::optional<Remark> getting_old(const SiteContext& context) {
  const DataAge age = data_age(context);
  if (age.days < context.catalogue.practice.data_age.mention_from_days) return std::nullopt;
  return Remark{
      "weather-behind",
      fmt::format(
          "The last known day is {}, {} days before {}; the days since are taken {}. To fix that, {}.",
          iso(age.last_known), age.days + 1, iso(context.site.on),
          context.site.outlook_start >= context.site.on ? "from the forecast" : "as in other years",
          how_to_update(context))};
}

TargetAnswer refused(const emergence::Target& target, const Season& season, Problem problem) {
  TargetAnswer answer;
  answer.target = target.code;
  answer.title = target.title;
  answer.season_start = season.first;
  answer.refusal = std::move(problem);
  return answer;
}

/// A target's answer with the members it rests on.
struct AnsweredTarget {
  TargetAnswer answer;
  std::optional<advice::TargetRun> scouted;  ///< the members counts of the field left; empty without any
};

/// The answer as the weather alone gives it and, where plants were counted, as the counts move it.
AnsweredTarget answer_with_counts(const SiteContext& context, const advice::TargetRun& run,
                                  const advice::PlannedTarget& plan) {
  const advice::AnswerContext answer_context{&context.site, &context.soil, &context.catalogue.practice,
                                             plan.climate ? &*plan.climate : nullptr,
                                             context.request.us_units};
  AnsweredTarget answered{advice::answer_target(run, answer_context), {}};
  if (answered.answer.decision.action == advice::Action::no_single_week) return answered;
  advice::ScoutedRun scouted =
      advice::scouted_run(run, context.request.log, context.site.on, context.catalogue.scouting,
                          context.request.seed, context.request.us_units);
  if (scouted.run) {
    advice::judge_counts(scouted, run, context.request.seed);
    TargetAnswer moved = advice::answer_target(*scouted.run, answer_context);
    advice::explain_scouting(moved, answered.answer, scouted);
    answered = {std::move(moved), std::move(scouted.run)};
  }
  std::vector<Remark>& remarks = answered.answer.remarks;
  remarks.insert(remarks.end(), scouted.remarks.begin(), scouted.remarks.end());
  return answered;
}

/// A target's members as earlier seasons of the site and its neighbors leave them; empty without any.
std::optional<advice::LearnedRun> learned_of(const SiteContext& context, const advice::TargetRun& run,
                                             const std::vector<advice::EarlierSeason>& own) {
  std::vector<advice::EarlierSeason> neighbors;
  for (const advice::TargetSeasons& of : context.request.neighbors) {
    if (of.target == run.job.target->code)
      neighbors.insert(neighbors.end(), of.seasons.begin(), of.seasons.end());
  }
  if ((own.empty() && neighbors.empty()) || run.members.empty()) return std::nullopt;
  return advice::learned_run(run, own, neighbors, context.catalogue.scouting);
}

/// Puts everything that rests on the members into a target's answer.
void finish_target(const SiteContext& context, const advice::DecisionInputs& inputs, TargetAnswer& target) {
  if (target.decision.action != advice::Action::no_single_week) advice::decide_target(target, inputs);
  const treatment::GrassControl& grass = context.catalogue.control_of(target.target);
  target.remarks.push_back({"control-basis", grass.basis_in_short});
  advice::word_decision(target,
                        {context.site.on, &context.catalogue.practice, &context.catalogue.gates, &grass});
  target.notes = advice::notes_of_season(context.request.log, inputs.run->season, target.target,
                                         context.site.on, context.request.us_units);
  advice::add_strip_notes(target, inputs);
  if (context.request.season_tables) target.season = advice::season_table(inputs);
}

/// The seasons of the record beside the answered ones, all targets of a kind at once.
void add_past_seasons(const SiteContext& context, const Season& season,
                      const std::vector<const emergence::Target*>& targets, SiteAnswer& answer) {
  auto past = advice::past_seasons(
      advice::history_of(context.site), season, targets, context.catalogue,
      {&context.request.turf, &context.request.plan, &context.request.resistant, context.request.seed});
  for (TargetAnswer& target : answer.targets) {
    const auto asked = std::find_if(targets.begin(), targets.end(),
                                    [&](const emergence::Target* one) { return one->code == target.target; });
    if (asked == targets.end() || target.refusal) continue;
    target.past_seasons = std::move(past[static_cast<std::size_t>(asked - targets.begin())]);
    target.usual = advice::usual_season(target.past_seasons, season, target.milestones,
                                        context.catalogue.practice.past_seasons);
  }
}

/// Answers all targets of one kind of season.
void answer_season(const SiteContext& context, SeasonKind kind,
                   const std::vector<const emergence::Target*>& targets, SiteAnswer& answer) {
  const SiteRequest& request = context.request;
  const Season season = season_to_answer(context.site.on, kind, context.site.place.hemisphere(),
                                         context.catalogue.practice.answered_to);
  const advice::SeasonEnsemble ensemble = advice::run_season(
      context.site, context.soil, season, targets, context.catalogue, {request.members, request.seed});
  const auto earlier = advice::earlier_seasons(advice::history_of(context.site), season, targets, request.log,
                                               context.catalogue, {request.members, request.seed});
  std::size_t next_run = 0;
  for (const advice::PlannedTarget& plan : ensemble.plans) {
    if (plan.refusal) {
      answer.targets.push_back(refused(*plan.target, season, *plan.refusal));
      answer.problems.push_back(*plan.refusal);
      continue;
    }
    const advice::TargetRun& by_models = ensemble.runs.targets[next_run++];
    const auto asked = static_cast<std::size_t>(&plan - ensemble.plans.data());
    const auto learned = learned_of(context, by_models, earlier[asked]);
    const advice::TargetRun& by_weather = learned ? learned->run : by_models;
    AnsweredTarget answered = answer_with_counts(context, by_weather, plan);
    TargetAnswer& target = answered.answer;
    const advice::TargetRun& run = answered.scouted ? *answered.scouted : by_weather;
    target.remarks.insert(target.remarks.end(), plan.remarks.begin(), plan.remarks.end());
    const std::vector<Remark>& of_futures = ensemble.scenarios.futures().remarks;
    target.remarks.insert(target.remarks.end(), of_futures.begin(), of_futures.end());
    if (learned && target.decision.action != advice::Action::no_single_week) {
      target.learned = learned->learned;
      target.learned->text = advice::learned_words(learned->learned, by_models, learned->run);
      target.reasons.push_back(target.learned->text);
    }
    finish_target(context,
                  {&run, &ensemble.runs, &ensemble.scenarios, &context.catalogue, &context.site, &request.log,
                   &request.turf, &answer.turf, &request.plan, &request.resistant, request.seed,
                   request.compared_plans, request.plan_tables},
                  target);
    answer.targets.push_back(std::move(target));
  }
  if (request.past_seasons) add_past_seasons(context, season, targets, answer);
}

advice::SoilSummary soil_summary(const SiteContext& context) {
  const advice::SiteWeather& site = context.site;
  const DailySeries<Temperature> air = weather::air_mean(site.daily);
  const soil::SoilTemperature soil = soil::soil_temperature(
      context.catalogue.soil,
      {site.place, context.request.soil_depth, site.soil_offset, site.daily.soil, site.spots, site.us_units},
      air);
  const DailySeries<Temperature> week =
      soil::corrected(soil, site.place.hemisphere(), {site.on - Days{7}, site.on});
  return {context.request.soil_depth, std::string{soil::name(soil.origin)},
          thermal::trailing_mean(week, {site.on - Days{1}, site.on},
                                 context.catalogue.practice.weekly_means.temperature_days)
              .at(site.on - Days{1}),
          soil.expected_error.kelvin()};
}

/// What the coming week's sprays would be, for judging its days: foliar as soon as one target calls for it.
treatment::Kind sprayed_kind(const SiteAnswer& answer) {
  const bool foliar =
      std::any_of(answer.targets.begin(), answer.targets.end(), [](const TargetAnswer& target) {
        return target.decision.kind && treatment::has_foliar(*target.decision.kind);
      });
  return foliar ? treatment::Kind::pre_post : treatment::Kind::pre;
}

/// Puts the targets back into the order they were asked for.
void order_as_asked(SiteAnswer& answer, const std::vector<std::string>& asked) {
  const auto position = [&](const TargetAnswer& target) {
    return std::find(asked.begin(), asked.end(), target.target);
  };
  std::stable_sort(answer.targets.begin(), answer.targets.end(),
                   [&](const TargetAnswer& a, const TargetAnswer& b) { return position(a) < position(b); });
}

}  // namespace

std::vector<advice::TargetSeasons> noted_seasons(const SiteRequest& request,
                                                 const advice::Catalogue& catalogue) {
  std::vector<advice::TargetSeasons> noted;
  if (request.log.counts.empty() && request.log.first_seen.empty()) return noted;
  const auto prepared = prepare_weather(request, catalogue);
  if (!prepared || !prepared->place) return noted;
  const advice::SiteHistory history = advice::history_of(prepared->site);
  for (const auto& [code, target] : catalogue.targets) {
    const Season season = season_to_answer(request.on, target.season, prepared->place->hemisphere(),
                                           catalogue.practice.answered_to);
    const std::array one{&target};
    auto seasons = advice::earlier_seasons(history, season, one, request.log, catalogue,
                                           {request.members, request.seed});
    for (advice::EarlierSeason& earlier : seasons.front()) earlier.site = request.id;
    noted.push_back({code, std::move(seasons.front())});
  }
  return noted;
}

SiteAnswer answer_site(const SiteRequest& request, const advice::Catalogue& catalogue) {
  SiteAnswer answer;
  answer.site = request.id;
  answer.name = request.name;
  answer.on = request.on;
  answer.facts = {
      request.turf.species, {},          request.turf.overseed_on, request.us_units, request.time_zone,
      request.group,        request.area};
  answer.settings = {request.members, request.seed, band_level};
  if (request.irrigation) answer.facts.irrigated = request.irrigation->irrigated;
  auto prepared = prepare_weather(request, catalogue);
  if (!prepared) {
    answer.problems.push_back(prepared.error());
    return answer;
  }
  answer.remarks = prepared->remarks;
  answer.weather = prepared->summary;
  if (!prepared->place) {
    answer.problems.push_back(
        {Family::request, "the place of the site is not known", {}, {}, "--latitude D --longitude D", {}});
    return answer;
  }
  answer.place = *prepared->place;
  if (!request.irrigation) {
    answer.remarks.push_back(
        {"irrigation-not-said",
         "Whether the turf is irrigated was not said: it is taken as kept moist. Dry turf comes up later; "
         "say it with \"irrigated\" in the site file or --irrigated."});
  }
  const SiteContext context{request, catalogue, prepared->site,
                            advice::site_soil(prepared->site, catalogue.soil)};
  answer.soil = soil_summary(context);
  answer.remarks.insert(answer.remarks.end(), context.soil.at_5cm.remarks.begin(),
                        context.soil.at_5cm.remarks.end());
  if (const auto problem = too_old(context)) {
    answer.problems.push_back(*problem);
    return answer;
  }
  if (auto remark = getting_old(context)) answer.remarks.push_back(std::move(*remark));
  answer.turf = advice::turf_today(context.site, context.soil, request.turf, request.log, catalogue);
  answer.priority_warning = advice::seed_first(context.site, request.turf, catalogue.gates);
  const auto cautions = advice::site_cautions(context.site, request.turf, request.log, catalogue);
  answer.remarks.insert(answer.remarks.end(), cautions.begin(), cautions.end());
  for (const SeasonKind kind : {SeasonKind::fall, SeasonKind::summer}) {
    std::vector<const emergence::Target*> targets;
    for (const std::string& code : request.targets) {
      const emergence::Target& target = catalogue.targets.at(code);
      if (target.season == kind) targets.push_back(&target);
    }
    if (!targets.empty()) answer_season(context, kind, targets, answer);
  }
  order_as_asked(answer, request.targets);
  answer.spray =
      advice::spray_week(context.site, prepared->hours, sprayed_kind(answer), request.turf, catalogue);
  return answer;
}

}  // namespace soilclock
