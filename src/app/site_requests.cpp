// SPDX-License-Identifier: MIT
#include "app/site_requests.hpp"

#include <algorithm>
#include <filesystem>

#include "app/day_option.hpp"
#include "app/site_notes.hpp"
#include "app/stored_weather.hpp"
#include "app/us_places.hpp"
#include "core/text.hpp"
#include "weather/read_weather.hpp"

namespace soilclock::app {

namespace {

/// A file of the user's by the name it takes in the catalogue and by the name the user knows it under.
struct OwnFile {
  advice::NamedText text;
  std::string path;
};

/// All JSON files below a folder, named as the built-in ones are ("models/soil/x.json"). Folders that cannot
/// be entered and links that lead nowhere are a problem: a model that is silently left out is a wrong answer.
Result<std::vector<OwnFile>> read_model_folder(const std::string& folder) {
  std::error_code error;
  if (!std::filesystem::is_directory(folder, error)) {
    return fail({Family::request,
                 "this is not a folder of models",
                 {folder, {}, {}, {}},
                 {},
                 "a folder with soil/, emergence/, ... in it",
                 {}});
  }
  std::vector<OwnFile> files;
  std::filesystem::recursive_directory_iterator entry{folder, error};
  for (; !error && entry != std::filesystem::recursive_directory_iterator{}; entry.increment(error)) {
    // A copied folder brings the schemas along; they describe models and are none.
    if (entry->path().string().ends_with(".schema.json")) continue;
    std::error_code ignored;  // what kind of thing it is; reading it says what is wrong with it
    if (entry->path().extension() != ".json" || entry->is_directory(ignored)) continue;
    const std::string path = entry->path().string();
    const auto text = read_file(path);
    if (!text) return fail(text.error());
    files.push_back({{"models/" + entry->path().lexically_relative(folder).generic_string(), *text}, path});
  }
  if (error)
    return fail({Family::environment,
                 "the folder of models cannot be read",
                 {folder, {}, {}, {}},
                 error.message(),
                 {},
                 {}});
  if (files.empty()) {
    return fail({Family::request,
                 "no model file is in this folder",
                 {folder, {}, {}, {}},
                 {},
                 "files such as emergence/NAME.json",
                 {}});
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

Result<std::vector<WeatherText>> read_all(const std::vector<SiteDataFile>& files) {
  std::vector<WeatherText> texts;
  for (const SiteDataFile& file : files) {
    auto bytes = read_file(file.path);
    if (!bytes) return fail(bytes.error());
    texts.push_back({file.path, std::move(*bytes), file.forecast, file.reading, file.remove_bias});
  }
  return texts;
}

constexpr const char* default_target = "POAAN";

/// Whether the text for this site is in US units: by option, else by the site, else where it lies in the US.
Result<bool> wants_us_units(const SiteOptions& options, const Site& site,
                            const std::vector<WeatherText>& files) {
  if (!options.units.empty()) return options.units == "us";
  if (site.units) return *site.units == Units::us;
  const std::optional<Place> place = site.place_known ? site.place : place_of(files);
  return place ? in_united_states(*place, site.time_zone) : Result<bool>{false};
}

}  // namespace

Result<advice::Catalogue> load_models(const std::string& models_folder, const std::string& practice_file) {
  std::vector<advice::NamedText> files = advice::built_in_files();
  std::vector<OwnFile> own;
  if (!models_folder.empty()) {
    auto folder = read_model_folder(models_folder);
    if (!folder) return fail(folder.error());
    own = std::move(*folder);
  }
  if (!practice_file.empty()) {
    auto text = read_file(practice_file);
    if (!text) return fail(text.error());
    own.push_back({{"config/practice.json", std::move(*text)}, practice_file});
  }
  std::vector<advice::NamedText> texts;
  texts.reserve(own.size());
  for (OwnFile& file : own) texts.push_back(std::move(file.text));
  auto catalogue = advice::load_catalogue(advice::overlaid(std::move(files), texts));
  if (catalogue) return catalogue;
  Problem problem = catalogue.error();
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (problem.where.file == texts[i].name) problem.where.file = own[i].path;
  }
  return fail(problem);
}

Result<std::vector<std::string>> target_codes(const SiteOptions& options, const Site& site,
                                              const advice::Catalogue& catalogue) {
  std::vector<std::string> asked = options.targets.empty() ? site.targets : options.targets;
  if (asked.empty()) asked.push_back(default_target);
  std::vector<std::string> codes;
  for (const std::string& word : asked) {
    const emergence::Target* target = catalogue.find_target(word);
    if (target == nullptr) {
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
      return fail({Family::request,
                   "this target is not known",
                   {},
                   word,
                   "one of " + listed(known) + " or a plain name",
                   remedy});
    }
    if (std::find(codes.begin(), codes.end(), target->code) == codes.end()) codes.push_back(target->code);
  }
  return codes;
}

Result<SiteRequest> request_for(const Site& site, const SiteOptions& options, Day on,
                                const advice::Catalogue& catalogue) {
  SiteRequest request;
  request.id = site.id;
  request.name = site.name;
  if (site.place_known) request.place = site.place;
  request.irrigation = site.irrigation;
  request.soil_offset = site.soil_offset;
  request.soil_depth = site.soil_depth;
  request.on = on;
  auto plan = plan_for(site, options, catalogue);
  if (!plan) return fail(plan.error());
  request.plan = std::move(*plan);
  request.resistant = resistant_shares(site.resistance, catalogue.practice);
  const auto codes = target_codes(options, site, catalogue);
  if (!codes) return fail(codes.error());
  request.targets = *codes;
  auto weather = read_all(site.weather);
  if (!weather) return fail(weather.error());
  request.weather = std::move(*weather);
  const auto us_units = wants_us_units(options, site, request.weather);
  if (!us_units) return fail(us_units.error());
  request.us_units = *us_units;
  auto stored = stored_sources(site, options.records, options.service_settings, on);
  if (!stored) return fail(stored.error());
  request.stored = std::move(*stored);
  auto probe = read_all(site.probe);
  if (!probe) return fail(probe.error());
  request.probe = std::move(*probe);
  request.turf = {treatment::turf_species(site.turf_species), site.overseed_on, site.slope_to_green, {}};
  if (site.time_zone) {
    request.turf.utc_offset_hours =
        static_cast<double>(site.time_zone->standard_offset(Instant{on}).count()) / 3600.0;
  }
  auto notes =
      read_site_notes(options.records, site.id, catalogue, on, site.time_zone ? &*site.time_zone : nullptr);
  if (!notes) return fail(notes.error());
  request.log = std::move(notes->log);
  request.stored.remarks.insert(request.stored.remarks.end(), notes->remarks.begin(), notes->remarks.end());
  return request;
}

Result<treatment::TankPlan> plan_for(const Site& site, const SiteOptions& options,
                                     const advice::Catalogue& catalogue) {
  if (options.plan.empty()) return tank_plan(site.plan, catalogue);
  const auto typed = parse_plan(options.plan);
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

Result<DayRange> day_range(const std::string& from, const std::string& to) {
  Day begin = make_day(1700, 1, 1);
  Day end = make_day(2500, 1, 1);
  for (const auto& [text, name] : {std::pair{&from, "--from"}, std::pair{&to, "--to"}}) {
    if (text->empty()) continue;
    const auto day = read_day(name, *text);
    if (!day) return fail(day.error());
    (text == &from ? begin : end) = text == &from ? *day : *day + Days{1};
  }
  if (end <= begin)
    return fail({Family::request, "--to lies before --from", {}, to, "a day from " + from + " on", {}});
  return DayRange{begin, end};
}

Result<Question> read_question(const SiteOptions& options, const Streams& streams) {
  auto catalogue = load_models(options.models, options.practice);
  if (!catalogue) return fail(catalogue.error());
  auto sites = options.read_sites_named();
  if (!sites) return fail(sites.error());
  if (const auto plan = plan_for({}, options, *catalogue); !plan) return fail(plan.error());
  const auto on = options.day(*sites, streams);
  if (!on) return fail(on.error());
  return Question{std::move(*catalogue), *on, std::move(*sites)};
}

}  // namespace soilclock::app
