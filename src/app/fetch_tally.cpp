// SPDX-License-Identifier: MIT
#include "app/fetch_tally.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/stored_weather.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::app {

namespace {

template <class Item>
void add_once(std::vector<Item>& list, const Item& item) {
  if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

Remark zone_by_longitude(const Site& site) {
  return {"zone-by-longitude",
          fmt::format("The time zone of the site is not said; its days are cut at {}, the whole hours of its "
                      "longitude. Say it with \"time_zone\" or --time-zone.",
                      site.cutting_zone().name())};
}

}  // namespace

FetchTally::FetchTally(const std::vector<Site>& sites) {
  for (const Site& site : sites) report_.sites.push_back({site.id, site.name, {}, {}, {}});
}

report::FetchedPart* FetchTally::find(const net::Service& service, const ServedSite& site,
                                      records::WeatherPart part) {
  std::vector<report::FetchedPart>& parts = report_.sites[site.index].parts;
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const report::FetchedPart& known) {
    return known.service == service.id && known.station == site.wanted.station &&
           known.part == records::name(part);
  });
  return found == parts.end() ? nullptr : &*found;
}

void FetchTally::expect(const net::Service& service, const std::vector<ServedSite>& sites,
                        const std::vector<records::WeatherPart>& parts) {
  for (const ServedSite& site : sites) {
    for (const records::WeatherPart part : parts) {
      report::FetchedPart expected;
      expected.service = service.id;
      expected.station = site.wanted.station;
      expected.part = records::name(part);
      expected.title = series_name(service, site.wanted, part);
      report_.sites[site.index].parts.push_back(expected);
    }
    if (!site.site->time_zone && !service.cuts_days)
      add_once(report_.sites[site.index].remarks, zone_by_longitude(*site.site));
  }
  if (!service.terms.empty()) add_once(report_.terms, service.title + ": " + service.terms);
}

void FetchTally::came(const net::Service& service, records::WeatherPart part, const StoredAnswer& answer) {
  report::FetchedPart& known = *find(service, answer.site, part);
  ++known.requests;
  known.new_days += answer.stored.new_days;
  known.changed_days += answer.stored.changed_days;
  known.spared_days += answer.stored.spared_days;
  if (part == records::WeatherPart::members) known.members = answer.members;
  for (const Remark& remark : answer.remarks) add_once(report_.sites[answer.site.index].remarks, remark);
  const int year = civil(date::floor<Days>(answer.at)).year;
  add_once(report_.credits, report::credit_line(service.attribution, service.license, year));
}

void FetchTally::failed(const FetchJob& job, const Problem& problem) {
  for (const ServedSite& site : job.sites) {
    std::vector<Problem>& problems = report_.sites[site.index].problems;
    const bool said = std::any_of(problems.begin(), problems.end(), [&](const Problem& known) {
      return known.what == problem.what && known.found == problem.found;
    });
    if (!said) problems.push_back(problem);
  }
}

void FetchTally::counted(const net::Service& service, double this_run, double today) {
  if (service.limits.a_day) report_.calls.push_back({service.title, this_run, today, *service.limits.a_day});
}

Checked FetchTally::describe(const net::Service& service, const std::vector<ServedSite>& sites,
                             records::WeatherStore& store) {
  for (const ServedSite& site : sites) {
    for (const records::WeatherPart part :
         {records::WeatherPart::history, records::WeatherPart::forecast, records::WeatherPart::members}) {
      report::FetchedPart* known = find(service, site, part);
      if (known == nullptr) continue;
      const auto key = series_in_use(*site.site, service, site.wanted, part, store);
      if (!key) return fail(key.error());
      const auto days = store.days(*key);
      if (!days) return fail(days.error());
      for (const records::StoredDay& day : *days) {
        if (!day.minimum || !day.maximum) continue;
        if (!known->first) known->first = day.day;
        known->last = day.day;
        ++known->days;
      }
    }
  }
  return {};
}

}  // namespace soilclock::app
