// SPDX-License-Identifier: MIT
#include "report/fetch_report.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/json_values.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

std::string plural(int number, const std::string& thing) {
  return fmt::format("{} {}{}", number, thing, number == 1 ? "" : "s");
}

std::string part_words(const FetchedPart& part) {
  std::string text = part.title;
  if (!part.first) return text + ": nothing stored";
  text += fmt::format(": {} from {} to {}", plural(part.days, "day"), iso(*part.first), iso(*part.last));
  if (part.missing_days() > 0) text += fmt::format(" ({} missing)", part.missing_days());
  if (part.members > 0) text += ", " + plural(part.members, "member");
  if (part.requests == 0) return text + "; nothing came in this run";
  text += fmt::format("; {} new, {} changed", part.new_days, part.changed_days);
  return text;
}

Json part_json(const FetchedPart& part) {
  return {{"service", part.service},
          {"station", part.station.empty() ? Json(nullptr) : Json(part.station)},
          {"part", part.part},
          {"requests", part.requests},
          {"new_days", part.new_days},
          {"changed_days", part.changed_days},
          {"spared_days", part.spared_days},
          {"members", part.members},
          {"first", date(part.first)},
          {"last", date(part.last)},
          {"days", part.days},
          {"missing_days", part.missing_days()}};
}

}  // namespace

std::string fetch_text(const FetchReport& report) {
  std::string text;
  for (const SiteFetch& site : report.sites) {
    text += wrapped(printable(site.name, 80), 0);
    for (const FetchedPart& part : site.parts) text += wrapped("- " + part_words(part) + ".", 2);
    for (const Remark& remark : site.remarks) text += wrapped("- " + printable(remark.text, 500), 2);
    for (const Problem& problem : site.problems) text += wrapped("- failed: " + describe(problem) + ".", 2);
  }
  for (const CallsCounted& calls : report.calls) {
    text += wrapped(
        fmt::format("{}: this run counted {} calls, {} of {} today.", calls.title,
                    number_text(calls.this_run, 0), number_text(calls.today, 0), number_text(calls.a_day, 0)),
        0);
  }
  for (const std::string& line : report.credits) text += wrapped(line, 0);
  for (const std::string& line : report.terms) text += wrapped(line, 0);
  return text;
}

std::string fetch_json(const FetchReport& report) {
  Json json = {{"format", "soilclock-fetch"}, {"version", 1}, {"sites", Json::array()}};
  for (const SiteFetch& site : report.sites) {
    Json entry = {{"site", site.site},
                  {"name", site.name},
                  {"parts", Json::array()},
                  {"remarks", Json::array()},
                  {"problems", Json::array()}};
    for (const FetchedPart& part : site.parts) entry["parts"].push_back(part_json(part));
    for (const Remark& remark : site.remarks) entry["remarks"].push_back(remark_json(remark));
    for (const Problem& problem : site.problems) entry["problems"].push_back(problem_json(problem));
    json["sites"].push_back(entry);
  }
  json["calls"] = Json::array();
  for (const CallsCounted& calls : report.calls) {
    json["calls"].push_back({{"service", calls.title},
                             {"this_run", rounded(calls.this_run, 1)},
                             {"today", rounded(calls.today, 1)},
                             {"a_day", rounded(calls.a_day, 0)}});
  }
  json["credits"] = report.credits;
  json["terms"] = report.terms;
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report
