// SPDX-License-Identifier: MIT
#include "site/site_request.hpp"

#include <algorithm>

#include "core/text.hpp"
#include "site/site_areas.hpp"
#include "site/site_log_entries.hpp"
#include "site/us_places.hpp"
#include "weather/read_weather.hpp"

namespace soilclock {

namespace {

constexpr const char* default_target = "POAAN";

Problem unknown_target(const std::string& word, const advice::Catalogue& catalogue) {
  std::vector<std::string> known;
  std::vector<std::string> words;
  for (const auto& [code, entry] : catalogue.targets) {
    known.push_back(code);
    words.push_back(code);
    words.insert(words.end(), entry.names.begin(), entry.names.end());
  }
  const auto near = nearest(word, words);
  std::string remedy = near ? "did you mean '" + *near + "'?" : "";
  if (word.find_first_of(",;") != std::string::npos)
    remedy = "one target at a time: --target DIGIS --target POAAN";
  return {
      Family::request,  "this target is not known", {}, word, "one of " + listed(known) + " or a plain name",
      std::move(remedy)};
}

Result<std::vector<WeatherText>> texts_of(const std::vector<SiteDataFile>& files, const FileReader& read) {
  std::vector<WeatherText> texts;
  texts.reserve(files.size());
  for (const SiteDataFile& file : files) {
    auto bytes = read(file.path);
    if (!bytes) return fail(bytes.error());
    texts.push_back({file.path, std::move(*bytes), file.forecast, file.reading, file.remove_bias});
  }
  return texts;
}

/// Whether the text for this site is in US units: by the question, else by the site, else where it lies in
/// the US.
Result<bool> wants_us_units(const Asked& asked, const Site& site, const std::vector<WeatherText>& files) {
  if (!asked.units.empty()) return asked.units == "us";
  if (site.units) return *site.units == Units::us;
  const std::optional<Place> place = site.place_known ? site.place : place_of(files);
  return place ? in_united_states(*place, site.time_zone) : Result<bool>{false};
}

/// What the site itself says, without its files.
SiteRequest said_request(const Site& site, Day on) {
  SiteRequest request;
  request.id = site.id;
  request.name = site.name;
  request.group = site.group;
  request.area = site.area;
  if (site.time_zone) request.time_zone = site.time_zone->name();
  if (site.place_known) request.place = site.place;
  request.irrigation = site.irrigation;
  request.texture = site.texture;
  request.soil_offset = site.soil_offset;
  request.soil_depth = site.soil_depth;
  request.on = on;
  request.turf = {treatment::turf_species(site.turf_species), site.overseed_on, site.slope_to_green, {}};
  if (site.time_zone) {
    request.turf.utc_offset_hours =
        static_cast<double>(site.time_zone->standard_offset(Instant{on}).count()) / 3600.0;
  }
  return request;
}

}  // namespace

Result<std::vector<std::string>> target_codes(const std::vector<std::string>& asked, const Site& site,
                                              const advice::Catalogue& catalogue) {
  std::vector<std::string> words = asked.empty() ? site.targets : asked;
  if (words.empty()) words.emplace_back(default_target);
  std::vector<std::string> codes;
  codes.reserve(words.size());
  for (const std::string& word : words) {
    const emergence::Target* target = catalogue.find_target(word);
    if (target == nullptr) return fail(unknown_target(word, catalogue));
    if (std::find(codes.begin(), codes.end(), target->code) == codes.end()) codes.push_back(target->code);
  }
  return codes;
}

Result<treatment::TankPlan> plan_for(const Site& site, const std::string& plan_words,
                                     const advice::Catalogue& catalogue) {
  if (plan_words.empty()) return tank_plan(site.plan, catalogue);
  const auto typed = parse_plan(plan_words);
  if (!typed) return fail(typed.error());
  return tank_plan(*typed, catalogue);
}

std::optional<Place> place_of(const std::vector<WeatherText>& files) {
  for (const WeatherText& file : files) {
    const weather::ParsedFile reading = weather::read_weather_text(file.bytes, file.file, file.reading);
    if (reading.place) return reading.place;
  }
  return std::nullopt;
}

Result<Inspection> read_for_inspection(std::vector<WeatherText> texts, std::string_view units) {
  Inspection inspection{{}, units == "us"};
  bool units_said = false;
  const auto read = [&] {
    inspection.files.clear();
    for (WeatherText& text : texts) {
      text.reading.us_units = inspection.us_units;
      text.reading.units_said = &units_said;
      text.reading.keep_hours = false;
      inspection.files.push_back(weather::read_weather_text(text.bytes, text.file, text.reading));
    }
  };
  read();
  const auto placed = std::find_if(inspection.files.begin(), inspection.files.end(),
                                   [](const weather::ParsedFile& file) { return file.place.has_value(); });
  if (!units.empty() || placed == inspection.files.end()) return inspection;
  const auto in_us = in_united_states(*placed->place, texts.front().reading.time_zone);
  if (!in_us) return fail(in_us.error());
  inspection.us_units = *in_us;
  // Units only change the sentences that name a value.
  if (*in_us && units_said) read();
  return inspection;
}

Result<SiteRequest> site_request(const Site& site, const Asked& asked, const advice::Catalogue& catalogue,
                                 const FileReader& read) {
  SiteRequest request = said_request(site, asked.on);
  request.resistant = resistant_shares(site.resistance, catalogue.practice);
  CountedNotes notes = counted_notes(site, site.log);
  request.log = site_log(notes.entries, catalogue, asked.on, site.clock());
  request.stored.remarks = std::move(notes.remarks);
  auto plan = plan_for(site, asked.plan, catalogue);
  if (!plan) return fail(plan.error());
  request.plan = std::move(*plan);
  auto codes = target_codes(asked.targets, site, catalogue);
  if (!codes) return fail(codes.error());
  request.targets = std::move(*codes);
  auto weather = texts_of(site.weather, read);
  if (!weather) return fail(weather.error());
  request.weather = std::move(*weather);
  const auto us_units = wants_us_units(asked, site, request.weather);
  if (!us_units) return fail(us_units.error());
  request.us_units = *us_units;
  auto probe = texts_of(site.probe, read);
  if (!probe) return fail(probe.error());
  request.probe = std::move(*probe);
  return request;
}

}  // namespace soilclock
