// SPDX-License-Identifier: MIT
#include "app/site_requests.hpp"

#include <algorithm>
#include <filesystem>

#include "app/day_option.hpp"
#include "app/local_files.hpp"
#include "app/site_notes.hpp"
#include "app/stored_weather.hpp"
#include "site/site_areas.hpp"
#include "site/site_log_entries.hpp"

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

namespace {

/// A file's bytes; of a course with areas read when they are asked for first, for a pipe gives them once.
Result<std::string> bytes_of(const std::string& path, const Site& site, SharedWeather& course) {
  if (!site.area) return read_file(path);
  const auto known = course.bytes.find(path);
  if (known != course.bytes.end()) return known->second;
  auto bytes = read_file(path);
  if (bytes) course.bytes.emplace(path, *bytes);
  return bytes;
}

}  // namespace

Asked asked_with(const SiteOptions& options, Day on) {
  return {on, options.targets, options.plan, options.units};
}

Result<SiteRequest> request_for(const Site& site, const SiteOptions& options, Day on,
                                const advice::Catalogue& catalogue, SharedWeather* shared) {
  SharedWeather own;  // a whole course has no areas to look things up for
  SharedWeather& course = shared != nullptr && site.area ? *shared : own;
  if (course.course != course_id(site)) {
    course.course = course_id(site);
    course.bytes.clear();
    course.stored.reset();
  }
  const auto notes = read_site_notes(options.records, course_id(site), site.area ? site.id : "");
  if (!notes) return fail(notes.error());
  Site noted = site;
  noted.log = without_repeats(notes->entries, site.log);
  auto request = site_request(noted, asked_with(options, on), catalogue,
                              [&](const std::string& path) { return bytes_of(path, site, course); });
  if (!request) return request;
  if (shared != nullptr) {
    request->read_text = [&readings = shared->readings, id = site.area ? site.area->course : ""](
                             std::string_view bytes, const std::string& file,
                             const weather::ReadingOptions& reading) {
      return readings.read(bytes, file, reading, id);
    };
  }
  if (!course.stored) {
    auto stored = stored_sources(course_of(site), options.records, options.service_settings, on,
                                 catalogue.futures.forecast_members_least);
    if (!stored) return fail(stored.error());
    course.stored = std::move(*stored);
  }
  const std::vector<Remark> about_notes = std::move(request->stored.remarks);
  request->stored = *course.stored;
  std::vector<Remark>& remarks = request->stored.remarks;
  remarks.insert(remarks.end(), notes->remarks.begin(), notes->remarks.end());
  remarks.insert(remarks.end(), about_notes.begin(), about_notes.end());
  return request;
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
  if (const auto plan = plan_for({}, options.plan, *catalogue); !plan) return fail(plan.error());
  const auto on = options.day(*sites, streams);
  if (!on) return fail(on.error());
  return Question{std::move(*catalogue), *on, std::move(*sites)};
}

}  // namespace soilclock::app
