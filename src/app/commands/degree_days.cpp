// SPDX-License-Identifier: MIT
#include "app/commands/degree_days.hpp"

#include <algorithm>
#include <ostream>

#include "app/site_requests.hpp"
#include "report/degree_days_report.hpp"
#include "soil/soil_temperature.hpp"
#include "thermal/hourly_sum.hpp"
#include "thermal/start_rule.hpp"

namespace soilclock::app {

namespace {

/// What the options ask for, understood.
struct Sum {
  thermal::DegreeDayRule rule;
  std::optional<Temperature> below;  ///< cooling sum from this temperature
  std::optional<thermal::StartRule> start;
  std::optional<Depth> soil;  ///< sum the soil's daily mean at this depth instead of air
};

template <class Value>
Result<std::optional<Value>> optional_of(const std::string& text, Result<Value> (*parse)(std::string_view)) {
  if (text.empty()) return std::optional<Value>{};
  auto value = parse(text);
  if (!value) return fail(value.error());
  return std::optional<Value>{std::move(*value)};
}

DailySeries<Temperature> summed_mean(const Sum& sum, const SiteRequest& request,
                                     const PreparedWeather& prepared, const advice::Catalogue& catalogue) {
  const DailySeries<Temperature> air = weather::air_mean(prepared.site.daily);
  if (!sum.soil) return air;
  const soil::SoilSite soil_site{prepared.place,           *sum.soil,           request.soil_offset,
                                 prepared.site.daily.soil, prepared.site.spots, prepared.site.us_units};
  return soil::soil_temperature(catalogue.soil, soil_site, air).daily;
}

/// First day of the sum: --from, else the start rule within the season of the last day, else the record's
/// first day.
Result<DayRange> summed_days(const Sum& sum, const DailySeries<Temperature>& mean, DayRange asked,
                             bool from_given, const PreparedWeather& prepared) {
  if (mean.empty()) return fail({Family::data, "no day has both a minimum and a maximum", {}, {}, {}, {}});
  Day begin = std::max(asked.begin(), mean.first());
  const Day end = std::min(asked.end(), mean.days().end());
  if (from_given) begin = asked.begin();
  if (sum.start && !from_given) {
    const Hemisphere hemisphere = prepared.place ? prepared.place->hemisphere() : Hemisphere::north;
    const Season season = season_of(end - Days{1}, SeasonKind::summer, hemisphere);
    begin = thermal::start_day(*sum.start, season);
  }
  if (end <= begin) {
    return fail({Family::request,
                 "no day of the record lies in the range asked for",
                 {},
                 iso(asked.begin()) + " to " + iso(asked.end() - Days{1}),
                 iso(mean.first()) + " to " + iso(mean.last()),
                 {}});
  }
  return DayRange{begin, end};
}

}  // namespace

std::string DegreeDaysCommand::examples() const {
  return "  soilclock degree-days --weather course.csv --lower 50F --upper 86F --method clamped --cutoff "
         "horizontal\n"
         "  soilclock degree-days --weather course.csv --lower 10C --start 02-15 --method double-sine\n"
         "  soilclock degree-days --weather course.csv --below 21C --from 2026-06-21\n";
}

void DegreeDaysCommand::declare(Options& options) {
  sites_.declare(options);
  options.choice(
      "--method NAME", method_,
      {"average", "clamped", "triangle", "sine", "double-triangle", "double-sine", "hourly", "four-case"},
      "how a day is summed (default sine)");
  options.text("--lower TEMPERATURE", lower_, "base with its unit, such as 50F (default 10C)");
  options.text("--upper TEMPERATURE", upper_, "upper threshold with its unit");
  options.choice("--cutoff NAME", cutoff_, {"none", "horizontal", "intermediate", "vertical"},
                 "what happens above --upper (default none)");
  options.text("--below TEMPERATURE", below_,
               "cooling degree-days instead: how far each daily mean lies below this");
  options.text("--soil DEPTH", soil_depth_, "sum the soil at this depth (daily means) instead of air");
  options.text(
      "--start RULE", start_,
      "where --from is not given: MM-DD, that day of the season the last day lies in (six months later "
      "south of the equator); season, its first day, January 1 (July 1 in the south). Without --start "
      "the sum begins with the record");
  options.text("--from DAY", from_, "first day of the sum, YYYY-MM-DD");
  options.text("--to DAY", to_, "last day of the sum, YYYY-MM-DD");
  declare_format(options, format_, {"text", "json", "csv"});
  options.under(Heading::advanced);
  options.flag("--negative-allowed", negative_allowed_, "intermediate cutoff without its floor at zero");
}

int DegreeDaysCommand::run(Streams& streams) {
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  if (question->sites.size() != 1) {
    return report({Family::request, "this command answers for one site", {}, {}, "--only ID", {}}, streams);
  }
  Sum sum;
  const auto lower = parse_temperature(lower_);
  if (!lower) return report(lower.error(), streams);
  const auto upper = optional_of(upper_, parse_temperature);
  if (!upper) return report(upper.error(), streams);
  const auto below = optional_of(below_, parse_temperature);
  if (!below) return report(below.error(), streams);
  const auto soil = optional_of(soil_depth_, parse_depth);
  if (!soil) return report(soil.error(), streams);
  const auto start = optional_of(start_, thermal::parse_start);
  if (!start) return report(start.error(), streams);
  const auto asked = day_range(from_, to_);
  if (!asked) return report(asked.error(), streams);
  const auto rule = thermal::checked(
      {*thermal::parse_method(method_), *lower, *upper, *thermal::parse_cutoff(cutoff_), !negative_allowed_});
  if (!rule) return report(rule.error(), streams);
  sum = {*rule, *below, *start, *soil};

  const Site& site = question->sites.front();
  const auto request = request_for(site, sites_, question->on, question->catalogue);
  if (!request) return report(request.error(), streams);
  const auto prepared = prepare_weather(*request, question->catalogue);
  if (!prepared) return report(prepared.error(), streams);
  const DailySeries<Temperature> mean = summed_mean(sum, *request, *prepared, question->catalogue);
  const auto days = summed_days(sum, mean, *asked, !from_.empty(), *prepared);
  if (!days) return report(days.error(), streams);

  report::DegreeDayReport result{request->name, method_, *lower, *upper,
                                 cutoff_,       *days,   {},     prepared->summary.origins};
  if (sum.below) {
    result.method = "cooling";
    result.lower = *sum.below;
    result.upper.reset();
    result.sum = thermal::accumulate_cooling(mean, *sum.below, *days);
  } else if (sum.soil) {
    result.method = "daily-mean";
    result.sum = thermal::accumulate_means(mean, *lower, *upper, *days);
  } else {
    if (sum.rule.method == thermal::Method::hourly && prepared->hours.empty()) {
      return report({Family::data,
                     "the weather has no hourly readings",
                     {site.weather.empty() ? "" : site.weather.front().path, {}, {}, {}},
                     {},
                     "hourly weather for --method hourly",
                     "choose another method, such as sine"},
                    streams);
    }
    auto summed = sum.rule.method == thermal::Method::hourly
                      ? thermal::accumulate_readings(prepared->hours, sum.rule, *days)
                      : thermal::accumulate(prepared->site.daily.air_min, prepared->site.daily.air_max,
                                            sum.rule, *days);
    if (!summed) return report(summed.error(), streams);
    result.sum = std::move(*summed);
  }
  if (format_ == "json")
    streams.out << report::degree_days_json(result);
  else if (format_ == "csv")
    streams.out << report::degree_days_csv(result);
  else
    streams.out << report::degree_days_text(result, request->us_units);
  return 0;
}

}  // namespace soilclock::app
