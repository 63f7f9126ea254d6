// SPDX-License-Identifier: MIT
#include "advice/answer/reasons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/windows.hpp"
#include "advice/answer/words.hpp"
#include "advice/site/soil_rules.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "core/unit_words.hpp"
#include "thermal/crossing.hpp"

namespace soilclock::advice {

namespace {

/// Water in a week from which on none of the models holds emergence back; nothing when none looks at water.
std::optional<Rain> full_water(const TargetRun& run) {
  std::optional<Rain> most;
  for (const WeightedModel& weighted : run.job.models) {
    const auto found = weighted.model->parameters.find("full_water");
    if (found == weighted.model->parameters.end()) continue;
    const Rain water = Rain::from_mm(found->second.value);
    if (!most || water > *most) most = water;
  }
  return most;
}

/// A day or days with the band in brackets.
std::string date_words(std::string days, const DateBand& band) {
  if (band.low)
    days += fmt::format(" ({} to {})", short_date(*band.low), band.high ? short_date(*band.high) : "later");
  return days;
}

std::string date_words(const Milestone& milestone) {
  return date_words(day_words(milestone.date, milestone.either) +
                        (milestone.either.empty() ? "" : ", by one model or another"),
                    milestone.date);
}

const Milestone* milestone(const TargetAnswer& answer, int percent) {
  const auto found = std::find_if(answer.milestones.begin(), answer.milestones.end(),
                                  [&](const Milestone& m) { return m.percent == percent; });
  return found == answer.milestones.end() ? nullptr : &*found;
}

/// Rain of the seven days before the answer; unknown when any of them is.
Rain week_of_rain(const SiteWeather& site) {
  Rain sum = Rain::from_mm(0.0);
  for (Day day = site.on - Days{7}; day < site.on; day += Days{1}) {
    sum = sum + site.daily.rain.at(day).value_or(Rain::unknown());
  }
  return sum;
}

void say_emerged(TargetAnswer& answer, const AnswerContext& context) {
  const Band<double>& up = answer.emerged_percent;
  const std::string share =
      up.middle < 0.5 ? "Less than 1%" : fmt::format("About {}%", number_text(up.middle, 0));
  std::string text = fmt::format("{} of this season's seedlings are up this morning (band {} to {}%)", share,
                                 number_text(up.low, 0), number_text(up.high, 0));
  if (up.middle >= 1.0) {
    const double small =
        100.0 * (answer.stages.leaves_1_3 + answer.stages.to_one_tiller + answer.stages.two_tillers);
    text += fmt::format(
        "; of those, {}% are juvenile, before their first tiller (band {} to {}%), and {}% "
        "have at most two tillers",
        number_text(answer.juvenile_percent.middle, 0), number_text(answer.juvenile_percent.low, 0),
        number_text(answer.juvenile_percent.high, 0), number_text(small, 0));
  }
  answer.reasons.push_back(text + ".");
  const double pre_limit = context.practice->thresholds.pre_upper_band_up_to.percent();
  if (answer.by_percent == treatment::Kind::pre && up.high > pre_limit) {
    answer.remarks.push_back(
        {"pre-band-wide",
         fmt::format("Up to {}% may be up already (more than {}%): look for seedlings first; where "
                     "there are any, a residual alone leaves them.",
                     number_text(up.high, 0), number_text(pre_limit, 0))});
  }
}

/// Mean soil of the seven days before the answer.
std::optional<Temperature> soil_week(const AnswerContext& context) {
  const Day yesterday = context.site->on - Days{1};
  return thermal::trailing_mean(context.soil->best_5cm, {yesterday, context.site->on},
                                context.practice->weekly_means.temperature_days)
      .at(yesterday);
}

void say_soil(TargetAnswer& answer, const AnswerContext& context) {
  const auto week = soil_week(context);
  if (!week) return;
  answer.reasons.push_back(fmt::format("Soil at {} averaged {} over the last seven days ({}).",
                                       depth_words(Depth::from_cm(5.0), context.us_units),
                                       temperature_words(*week, context.us_units),
                                       soil::name(context.soil->at_5cm.origin)));
}

int days_without_rain_value(const SiteWeather& site, const Season& season) {
  int unknown = 0;
  for (Day day = season.first; day < site.on; day += Days{1}) unknown += site.daily.rain.at(day) ? 0 : 1;
  return unknown;
}

void say_water(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context) {
  const SiteWeather& site = *context.site;
  if (run.season.kind != SeasonKind::fall || site.irrigation.irrigated) return;
  const int unknown = days_without_rain_value(site, run.season);
  if (unknown > 0) {
    answer.remarks.push_back(
        {"rain-unknown",
         fmt::format(
             "Rain is not known on {} day{} of this season: weeks with at least four known days are scaled "
             "up, others are taken as average.",
             unknown, unknown == 1 ? "" : "s")});
  }
  const Rain rain = week_of_rain(site);
  if (!rain.known()) return;
  const Rain water = rain + Rain::from_mm(site.irrigation.mm_per_week);
  const std::optional<Rain> enough = full_water(run);
  if (!enough || water >= *enough) return;
  answer.reasons.push_back(fmt::format(
      "Only {} of water fell in the last seven days on turf that is not kept moist: emergence is held "
      "back and catches up after rain.",
      water_words(water, context.us_units)));
}

void say_ahead(TargetAnswer& answer, const AnswerContext& context) {
  const Milestone* five = milestone(answer, 5);
  const Milestone* half = milestone(answer, 50);
  const auto ahead = [&](const Milestone* m) {
    return m != nullptr && m->date.middle && *m->date.middle >= context.site->on;
  };
  if (ahead(five))
    answer.reasons.push_back(fmt::format("The first 5% are expected by {}.", date_words(*five)));
  if (ahead(half)) answer.reasons.push_back(fmt::format("Half are expected up by {}.", date_words(*half)));
  if (answer.main_wave_over.middle) {
    const bool past = *answer.main_wave_over.middle < context.site->on;
    answer.reasons.push_back(
        fmt::format("The main wave {} over by {}.", past ? "was" : "is expected to be",
                    date_words(short_date(*answer.main_wave_over.middle), answer.main_wave_over)));
  }
}

void remark_models(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context) {
  double least = 100.0;
  double most = 0.0;
  for (const ModelShare& model : answer.models) {
    if (model.weight <= 0.0) continue;
    least = std::min(least, model.percent);
    most = std::max(most, model.percent);
  }
  if (most - least > context.practice->decision.models_apart) {
    answer.remarks.push_back(
        {"models-differ",
         fmt::format("The models differ by {} points ({} to {}% up): scout before you trust the middle.",
                     number_text(most - least, 0), number_text(least, 0), number_text(most, 0))});
  }
  std::vector<std::string> outside;
  for (const WeightedModel& model : run.job.models) {
    // Where the weight of a model fades outside, the weight has said it.
    const Validity& validity = model.model->validity;
    if (!validity.weight_zero_outside && !validity.contains(context.site->place))
      outside.push_back(model.model->title);
  }
  if (!outside.empty()) {
    answer.remarks.push_back(
        {"outside-validity", fmt::format("Made for other places than this: {}.", fmt::join(outside, "; "))});
  }
}

void remark_climate(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context) {
  if (context.climate == nullptr || !run.job.target->single_window) return;
  const double share = single_window_share(*context.climate, *run.job.target->single_window);
  if (share > 0.0 && share < 0.5) {
    answer.remarks.push_back(
        {"barely-warm-summers",
         fmt::format(
             "The warmest 30 days of soil average only {}: the main wave is weakly marked here and its dates "
             "are less sure than the band says.",
             temperature_words(context.climate->warmest_month_soil, context.us_units))});
  }
  if (context.climate->cool_days < run.job.target->single_window->least_cool_days) {
    answer.remarks.push_back({"spread-over-cool-season",
                              "Soil stays cool for less than a month in a usual year: emergence is spread "
                              "over the cool season and a "
                              "single best week means little."});
  }
}

void say_no_window(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context) {
  const SiteClimate& climate = *context.climate;
  answer.reasons.push_back(fmt::format(
      "Even the warmest 30 days average only {} in the soil here, so seed is never held back by heat: it can "
      "come up in most months, and no single week can be named.",
      temperature_words(climate.warmest_month_soil, context.us_units)));
  say_soil(answer, context);
  const auto week = soil_week(context);
  if (week) {
    const bool warm_enough = *week >= run.job.target->single_window->seedlings_from;
    answer.reasons.push_back(warm_enough
                                 ? "Soil is warm enough for seedlings to come up whenever it is moist."
                                 : "Soil is too cold for seedlings to come up at present.");
  }
  const Rain rain = week_of_rain(*context.site);
  const std::optional<Rain> enough = full_water(run);
  if (rain.known() && enough && !context.site->irrigation.irrigated) {
    answer.reasons.push_back(
        fmt::format("{} of rain fell in the last seven days; after a dry spell the first {} bring a flush.",
                    water_words(rain, context.us_units), water_words(*enough, context.us_units)));
  }
  answer.reasons.push_back("Scout: count new seedlings every two weeks and treat by what you find.");
}

}  // namespace

void explain(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context) {
  answer.soil_rules =
      read_soil_rules(*context.practice, answer.target, run.season, *context.site, *context.soil);
  const auto moved = dates_moved_by_later_readings(answer.soil_rules, *context.practice, answer.target,
                                                   run.season, *context.site, *context.soil);
  answer.remarks.insert(answer.remarks.end(), moved.begin(), moved.end());
  if (answer.decision.action == Action::no_single_week) {
    say_no_window(answer, run, context);
    return;
  }
  say_emerged(answer, context);
  say_soil(answer, context);
  say_water(answer, run, context);
  say_ahead(answer, context);
  remark_models(answer, run, context);
  remark_climate(answer, run, context);
}

}  // namespace soilclock::advice
