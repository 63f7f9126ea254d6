// SPDX-License-Identifier: MIT
#include "app/commands/soil.hpp"

#include <cmath>
#include <map>
#include <ostream>

#include "app/site_requests.hpp"
#include "report/soil_report.hpp"
#include "soil/site_fit.hpp"

namespace soilclock::app {

namespace {

report::SoilReport soil_report(const SiteRequest& request, const PreparedWeather& prepared,
                               const advice::Catalogue& catalogue, Depth depth, DayRange days,
                               bool with_fit) {
  const DailySeries<Temperature> air = weather::air_mean(prepared.site.daily);
  const soil::SoilSite soil_site{prepared.place,      depth,
                                 request.soil_offset, prepared.site.daily.soil,
                                 prepared.site.spots, prepared.site.us_units};
  const soil::SoilTemperature soil = soil::soil_temperature(catalogue.soil, soil_site, air);
  report::SoilReport result{request.name, depth, soil.model_id, {}, soil.remarks};
  result.origins = prepared.summary.origins;
  std::optional<soil::FittedSoil> fit;
  if (with_fit) {
    const Hemisphere hemisphere = prepared.place ? prepared.place->hemisphere() : Hemisphere::north;
    fit = soil::fit_to_readings(soil, hemisphere);
    result.fit = report::SoilFit{fit->scored, fit->rmse_before_c, fit->rmse_after_c};
  }
  // A probe read by the clock gives a reading on its day alone, as the mean of that day.
  std::map<Day, Temperature> spots;
  for (const soil::SpotMean& spot : prepared.site.spots) {
    if (std::abs(spot.depth.cm() - depth.cm()) < catalogue.probe.same_depth_cm)
      spots.insert_or_assign(spot.day, spot.mean);
  }
  const DayRange known = air.empty() ? DayRange{} : air.days();
  for (Day day = std::max(days.begin(), known.begin()); day < std::min(days.end(), known.end());
       day += Days{1}) {
    const bool read = soil.daily.quality(day) == Quality::measured;
    std::optional<Temperature> reading = read ? soil.daily.at(day) : std::nullopt;
    if (const auto spot = spots.find(day); !read && spot != spots.end()) reading = spot->second;
    result.days.push_back({day, air.at(day), soil.estimate.at(day), reading,
                           fit ? fit->fitted.at(day) : std::optional<Temperature>{}});
  }
  return result;
}

}  // namespace

std::string SoilCommand::examples() const {
  return "  soilclock soil --weather course.csv --latitude 36.0 --longitude -85.1 --depth 5cm\n"
         "  soilclock soil --sites courses.json --only copper-heron --depth 2in --from 2026-03-01 --fit\n";
}

void SoilCommand::declare(Options& options) {
  sites_.declare(options);
  options.text("--depth DEPTH", depth_, "depth with its unit, 1in to 6in or 2.5cm to 15cm (default 2in)");
  options.text("--from DAY", from_, "first day shown, YYYY-MM-DD");
  options.text("--to DAY", to_, "last day shown, YYYY-MM-DD");
  options.flag("--fit", fit_, "fit the estimate to the readings, and show how good it was before and after");
  declare_format(options, format_, {"text", "json", "csv"});
}

int SoilCommand::run(Streams& streams) {
  const auto question = read_question(sites_, streams);
  if (!question) return report(question.error(), streams);
  if (question->sites.size() != 1) {
    return report({Family::request, "this command answers for one site", {}, {}, "--only ID", {}}, streams);
  }
  const Site& site = question->sites.front();
  const auto days = day_range(from_, to_);
  if (!days) return report(days.error(), streams);
  Depth depth = site.soil_depth;
  if (!depth_.empty()) {
    const auto asked = parse_depth(depth_);
    if (!asked) return report(asked.error(), streams);
    depth = *asked;
  }
  const auto request = request_for(site, sites_, question->on, question->catalogue);
  if (!request) return report(request.error(), streams);
  const auto prepared = prepare_weather(*request, question->catalogue);
  if (!prepared) return report(prepared.error(), streams);
  const report::SoilReport result = soil_report(*request, *prepared, question->catalogue, depth, *days, fit_);
  if (format_ == "json")
    streams.out << report::soil_json(result);
  else if (format_ == "csv")
    streams.out << report::soil_csv(result);
  else
    streams.out << report::soil_text(result, request->us_units);
  return 0;
}

}  // namespace soilclock::app
