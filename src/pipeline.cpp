// SPDX-License-Identifier: MIT
#include "pipeline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/scouting_effect.hpp"
#include "advice/answer/target_answer.hpp"
#include "advice/answer/target_decision.hpp"
#include "advice/answer/windows.hpp"
#include "advice/answer/words.hpp"
#include "advice/ensemble/target_plan.hpp"
#include "advice/scouting/scouting.hpp"
#include "thermal/crossing.hpp"

namespace soilclock {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;
using advice::TargetJob;

/// Everything answering the targets of a season needs.
struct SiteGround {
  const SiteRequest& request;
  const advice::Catalogue& catalogue;
  advice::SiteWeather site;
  advice::SiteSoil soil;
};

/// From this season day on the season that is ending has nothing left to decide, and the next one is answered
/// for. Judgement: mid-May for fall species, mid-November for summer annuals.
int last_answered_day(SeasonKind kind) { return kind == SeasonKind::fall ? 328 : 318; }

Season season_to_answer(Day on, SeasonKind kind, Hemisphere hemisphere) {
  const Season season = season_of(on, kind, hemisphere);
  return season.day_of_season(on) > last_answered_day(kind) ? season.next() : season;
}

/// Days between the last known one and the day of the answer; none when all is known.
struct Silence {
  Day last_known;
  int days;
};

/// A forecast does not make up for the days that have passed since: it is as old as they are.
Silence silence_of(const SiteGround& ground) {
  const Day last = ground.site.last_measured ? *ground.site.last_measured : ground.site.seam - Days{1};
  return {last, static_cast<int>((ground.site.on - last).count()) - 1};
}

/// Beyond this what would be said rests on the past alone.
constexpr int longest_silence_days = 10;
/// One day is late everywhere. Judgement.
constexpr int silence_worth_telling_days = 2;

std::string how_to_mend(const SiteGround& ground) {
  return ground.request.kept.series.empty() ? "bring the file up to date" : "run soilclock fetch";
}

std::optional<Problem> too_old(const SiteGround& ground) {
  const Silence silence = silence_of(ground);
  if (silence.days <= longest_silence_days) return std::nullopt;
  return Problem{Family::data,
                 fmt::format("the weather ends on {}, {} days before {}", iso(silence.last_known),
                             silence.days + 1, iso(ground.site.on)),
                 {},
                 {},
                 fmt::format("at most {} days in a row without weather", longest_silence_days),
                 how_to_mend(ground) + ", or ask for an earlier day with --on"};
}

std::optional<Remark> getting_old(const SiteGround& ground) {
  const Silence silence = silence_of(ground);
  if (silence.days < silence_worth_telling_days) return std::nullopt;
  return Remark{
      "weather-behind",
      fmt::format("The last known day is {}, {} days before {}; the days since are taken {}. To mend it, {}.",
                  iso(silence.last_known), silence.days + 1, iso(ground.site.on),
                  ground.site.seam >= ground.site.on ? "from the forecast" : "as in other years",
                  how_to_mend(ground))};
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
AnsweredTarget answer_with_counts(const SiteGround& ground, const advice::TargetRun& run,
                                  const advice::PlannedTarget& plan) {
  const advice::AnswerContext context{&ground.site, &ground.soil, &ground.catalogue.practice,
                                      plan.climate ? &*plan.climate : nullptr, ground.request.us_units};
  AnsweredTarget answered{advice::answer_target(run, context), {}};
  if (answered.answer.decision.action == advice::Action::no_single_week) return answered;
  advice::ScoutedRun scouted = advice::scouted_run(run, ground.request.log, ground.site.on,
                                                   ground.catalogue.scouting, ground.request.seed);
  if (scouted.run) {
    advice::judge_counts(scouted, run, ground.request.seed);
    TargetAnswer moved = advice::answer_target(*scouted.run, context);
    advice::explain_scouting(moved, answered.answer, scouted);
    answered = {std::move(moved), std::move(scouted.run)};
  }
  std::vector<Remark>& remarks = answered.answer.remarks;
  remarks.insert(remarks.end(), scouted.remarks.begin(), scouted.remarks.end());
  return answered;
}

/// Answers all targets of one kind of season.
void answer_season(const SiteGround& ground, SeasonKind kind,
                   const std::vector<const emergence::Target*>& targets, SiteAnswer& answer) {
  const Season season = season_to_answer(ground.site.on, kind, ground.site.place.hemisphere());
  const DayRange span{season.first - Days{emergence::lead_in_days}, season.end()};
  const advice::StratifiedDraws draws{ground.request.seed, ground.request.members};
  const advice::Scenarios scenarios{ground.site, ground.catalogue.soil, ground.soil, span,
                                    draws,       ground.request.seed};
  std::vector<advice::PlannedTarget> plans;
  std::vector<TargetJob> jobs;
  for (const emergence::Target* target : targets) {
    plans.push_back(
        advice::plan_target(ground.catalogue, *target, season, ground.site, ground.soil, scenarios));
    if (!plans.back().refusal) jobs.push_back(plans.back().job);
  }
  const advice::SeasonRuns runs = advice::run_targets(jobs, season, scenarios, draws, ground.catalogue,
                                                      ground.site.place, ground.site.irrigation);
  std::size_t next_run = 0;
  for (const advice::PlannedTarget& plan : plans) {
    if (plan.refusal) {
      answer.targets.push_back(refused(*plan.target, season, *plan.refusal));
      answer.problems.push_back(*plan.refusal);
      continue;
    }
    const advice::TargetRun& by_weather = runs.targets[next_run++];
    AnsweredTarget answered = answer_with_counts(ground, by_weather, plan);
    TargetAnswer& target = answered.answer;
    const advice::TargetRun& run = answered.scouted ? *answered.scouted : by_weather;
    if (target.decision.action != advice::Action::no_single_week) {
      advice::decide_target(
          target, {&run, &runs, &scenarios, &ground.catalogue, &ground.site, &ground.request.log,
                   &ground.request.turf, &answer.turf, &ground.request.plan, &ground.request.resistant,
                   ground.request.seed, ground.request.compared_plans, ground.request.plan_tables});
    }
    target.remarks.insert(target.remarks.end(), plan.remarks.begin(), plan.remarks.end());
    target.remarks.insert(target.remarks.end(), scenarios.futures().remarks.begin(),
                          scenarios.futures().remarks.end());
    const treatment::GrassControl& grass = ground.catalogue.control_of(target.target);
    target.remarks.push_back({"control-basis", grass.basis_in_short});
    advice::word_decision(target,
                          {ground.site.on, &ground.catalogue.practice, &ground.catalogue.gates, &grass});
    if (ground.request.season_tables) target.season = advice::season_table(run, runs, ground.site);
    answer.targets.push_back(std::move(target));
  }
}

advice::SoilSummary soil_summary(const SiteGround& ground) {
  const advice::SiteWeather& site = ground.site;
  const DailySeries<Temperature> air = weather::air_mean(site.daily);
  const soil::SoilTemperature soil = soil::soil_temperature(
      ground.catalogue.soil,
      {site.place, ground.request.soil_depth, site.soil_offset, site.daily.soil, site.spots, site.us_units},
      air);
  const DailySeries<Temperature> week =
      soil::corrected(soil, site.place.hemisphere(), {site.on - Days{7}, site.on});
  return {ground.request.soil_depth, std::string{soil::name(soil.origin)},
          thermal::trailing_mean(week).at(site.on - Days{1}), soil.expected_error.kelvin()};
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

SiteAnswer answer_site(const SiteRequest& request, const advice::Catalogue& catalogue) {
  SiteAnswer answer;
  answer.site = request.id;
  answer.name = request.name;
  answer.on = request.on;
  answer.facts = {request.turf.species, {}, request.turf.overseed_on, request.us_units};
  if (request.irrigation) answer.facts.irrigated = request.irrigation->irrigated;
  auto prepared = prepare_weather(request, catalogue.probe);
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
  const SiteGround ground{request, catalogue, prepared->site,
                          advice::site_soil(prepared->site, catalogue.soil)};
  answer.soil = soil_summary(ground);
  answer.remarks.insert(answer.remarks.end(), ground.soil.at_5cm.remarks.begin(),
                        ground.soil.at_5cm.remarks.end());
  if (const auto problem = too_old(ground)) {
    answer.problems.push_back(*problem);
    return answer;
  }
  if (auto remark = getting_old(ground)) answer.remarks.push_back(std::move(*remark));
  answer.turf = advice::turf_today(ground.site, ground.soil, request.turf, request.log, catalogue);
  answer.priority_warning = advice::seed_first(ground.site, request.turf);
  const auto cautions = advice::site_cautions(ground.site, request.turf, request.log, catalogue);
  answer.remarks.insert(answer.remarks.end(), cautions.begin(), cautions.end());
  for (const SeasonKind kind : {SeasonKind::fall, SeasonKind::summer}) {
    std::vector<const emergence::Target*> targets;
    for (const std::string& code : request.targets) {
      const emergence::Target& target = catalogue.targets.at(code);
      if (target.season == kind) targets.push_back(&target);
    }
    if (!targets.empty()) answer_season(ground, kind, targets, answer);
  }
  order_as_asked(answer, request.targets);
  answer.spray =
      advice::spray_week(ground.site, prepared->hours, sprayed_kind(answer), request.turf, catalogue);
  return answer;
}

}  // namespace soilclock
