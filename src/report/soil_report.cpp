// SPDX-License-Identifier: MIT
#include "report/soil_report.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "core/unit_words.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

Json celsius(const std::optional<Temperature>& value) {
  return value ? rounded(value->celsius(), 3) : Json(nullptr);
}

std::string cell(const std::optional<Temperature>& value, bool us) {
  return value ? number_text(us ? value->fahrenheit() : value->celsius(), 1) : "-";
}

/// A difference of temperatures in the degrees of the answer.
double degrees(double kelvin, bool us) {
  return us ? TemperatureDelta::from_kelvin(kelvin).fahrenheit_degrees() : kelvin;
}

std::string fit_words(const SoilFit& fit, bool us) {
  if (fit.n == 0) return "Fit: there are no readings to fit to.";
  return fmt::format("Fit: {} readings, each predicted from those before it: off by {} {} before, {} after.",
                     fit.n, number_text(degrees(fit.rmse_before_c, us), 2), us ? "F" : "C",
                     number_text(degrees(fit.rmse_after_c, us), 2));
}

}  // namespace

SoilScore score(const SoilReport& report) {
  double squares = 0.0;
  double sum = 0.0;
  SoilScore score;
  for (const SoilDay& day : report.days) {
    if (!day.estimate || !day.reading) continue;
    const double difference = (*day.estimate - *day.reading).kelvin();
    squares += difference * difference;
    sum += difference;
    ++score.n;
  }
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  score.rmse_c = score.n > 0 ? std::sqrt(squares / score.n) : nan;
  score.bias_c = score.n > 0 ? sum / score.n : nan;
  return score;
}

std::string soil_json(const SoilReport& report) {
  const SoilScore result = score(report);
  Json json = {
      {"format", "soilclock-soil"},
      {"version", 1},
      {"site", report.site},
      {"depth_cm", rounded(report.depth.cm(), 2)},
      {"model", report.model},
      {"weather_sources", weather_sources_json(report.origins)},
      {"days", Json::array()},
      {"score",
       {{"n", result.n}, {"rmse_c", rounded(result.rmse_c, 3)}, {"bias_c", rounded(result.bias_c, 3)}}},
      {"remarks", Json::array()}};
  for (const SoilDay& day : report.days) {
    json["days"].push_back({{"date", iso(day.day)},
                            {"air_mean_c", celsius(day.air_mean)},
                            {"estimate_c", celsius(day.estimate)},
                            {"reading_c", celsius(day.reading)}});
    if (report.fit) json["days"].back()["fitted_c"] = celsius(day.fitted);
  }
  if (report.fit) {
    json["fit"] = {{"n", report.fit->n},
                   {"rmse_before_c", rounded(report.fit->rmse_before_c, 3)},
                   {"rmse_after_c", rounded(report.fit->rmse_after_c, 3)}};
  }
  for (const Remark& remark : report.remarks) json["remarks"].push_back(remark_json(remark));
  return dumped(json, 2) + "\n";
}

std::string soil_text(const SoilReport& report, bool us) {
  const SoilScore result = score(report);
  std::string text;
  if (result.n > 0) {
    text = wrapped(fmt::format("{}: over {} days with a reading at {} the estimate was off by {} "
                               "{} (root mean square), on "
                               "average {}.",
                               printable(report.site, 80), result.n, depth_words(report.depth, us),
                               number_text(degrees(result.rmse_c, us), 2), us ? "F" : "C",
                               signed_number_text(degrees(result.bias_c, us), 2)),
                   0);
  } else {
    text = wrapped(fmt::format("{}: soil at {}, estimated from air; no reading at this depth to judge it by.",
                               printable(report.site, 80), depth_words(report.depth, us)),
                   0);
  }
  if (report.fit) text += wrapped(fit_words(*report.fit, us), 0);
  for (const Remark& remark : report.remarks) text += wrapped("- " + remark.text, 2);
  text += weather_sources_text(report.origins, {});
  text += fmt::format("{:<10}  {:>8}  {:>8}  {:>8}{}\n", "date", us ? "air F" : "air C", "estimate",
                      "reading", report.fit ? "    fitted" : "");
  for (const SoilDay& day : report.days) {
    text += fmt::format("{:<10}  {:>8}  {:>8}  {:>8}{}\n", iso(day.day), cell(day.air_mean, us),
                        cell(day.estimate, us), cell(day.reading, us),
                        report.fit ? fmt::format("  {:>8}", cell(day.fitted, us)) : "");
  }
  return text;
}

std::string soil_csv(const SoilReport& report) {
  std::string text = "date,air_mean_c,estimate_c,reading_c";
  text += report.fit ? ",fitted_c,weather_credits\n" : ",weather_credits\n";
  const std::string source = weather_sources_cell(report.origins);
  for (const SoilDay& day : report.days) {
    std::vector<std::string> row{iso(day.day), csv_number(day.air_mean, &Temperature::celsius, 3),
                                 csv_number(day.estimate, &Temperature::celsius, 3),
                                 csv_number(day.reading, &Temperature::celsius, 3)};
    if (report.fit) row.push_back(csv_number(day.fitted, &Temperature::celsius, 3));
    row.push_back(source);
    text += csv_row(row);
  }
  return text;
}

}  // namespace soilclock::report
