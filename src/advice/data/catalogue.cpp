// SPDX-License-Identifier: MIT
#include "advice/data/catalogue.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

#include "advice/data/catalogue_checks.hpp"
#include "advice/data/embedded_files.hpp"
#include "core/json_reader.hpp"
#include "core/model_head.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

// The files of which there is exactly one.
constexpr const char* practice_file = "config/practice.json";
constexpr const char* probe_file = "models/soil/probe_reading.json";
constexpr const char* first_seen_file = "models/scouting/first_seen.json";
constexpr const char* counts_file = "models/scouting/counts.json";
constexpr const char* mixture_file = "models/treatment/mixtures.json";
constexpr const char* residual_file = "models/treatment/residual.json";
constexpr const char* actives_file = "models/treatment/actives.json";
constexpr const char* spray_file = "models/treatment/spray_day.json";
constexpr const char* turf_file = "models/treatment/turf_state.json";
constexpr const char* gates_file = "models/treatment/gates.json";

/// Something went wrong while files were taken in; caught by load_catalogue, as JsonProblem is by read_json.
template <class Value>
Value taken(Result<Value> result) {
  if (!result) throw JsonProblem{result.error()};
  return *std::move(result);
}

[[noreturn]] void refuse(const std::string& file, std::string what, std::string expected,
                         std::string remedy) {
  throw JsonProblem{Problem{
      Family::request, std::move(what), {file, {}, {}, {}}, {}, std::move(expected), std::move(remedy)}};
}

Source read_source(const JsonObject& item) {
  Source source;
  source.id = read_words(item, "id");
  source.authors = read_words(item, "authors");
  source.year = item.integer("year", 1800, 2100);
  source.title = item.optional_text("title").value_or("");
  source.journal = read_words(item, "journal");
  source.pages = item.text("pages");
  source.doi = item.optional_text("doi").value_or("");
  source.how_read = read_words(item, "how_read");
  item.finish();
  return source;
}

/// Collects the files by what their path says they are, then checks them against each other.
class Loader {
 public:
  void take(const NamedText& file) {
    const std::string_view name = file.name;
    if (name == practice_file) {
      catalogue_.practice = taken(read_practice(file.text, file.name));
      found_.insert(file.name);
    } else if (name.starts_with("models/sources") && name.find('/', 7) == std::string_view::npos) {
      take_sources(file);
    } else if (name == probe_file) {
      catalogue_.probe = taken(soil::read_probe_rules(file.text, file.name));
      found_.insert(file.name);
    } else if (name == first_seen_file) {
      catalogue_.scouting.first_seen = taken(read_first_seen_rule(file.text, file.name));
      found_.insert(file.name);
    } else if (name == counts_file) {
      catalogue_.scouting.counts = taken(read_count_rule(file.text, file.name));
      found_.insert(file.name);
    } else if (name.starts_with("models/soil/")) {
      soil_.push_back(taken(soil::read_soil_model(file.text, file.name)));
    } else if (name.starts_with("models/emergence/")) {
      add(catalogue_.emergence, taken(emergence::read_emergence_model(file.text, file.name)), file.name);
    } else if (name.starts_with("models/growth/")) {
      add(catalogue_.growth, taken(emergence::read_growth_model(file.text, file.name)), file.name);
    } else if (name.starts_with("models/targets/")) {
      emergence::Target target = taken(emergence::read_target(file.text, file.name));
      const std::string code = target.code;
      catalogue_.targets.emplace(code, std::move(target));
    } else if (!take_treatment(file)) {
      refuse(file.name, "nothing known belongs in this place",
             "models/sources.json, models/{soil,emergence,growth,scouting,targets,treatment}/*.json or "
             "config/practice.json",
             "move or remove the file");
    }
  }

  Catalogue finish(std::span<const NamedText> files) {
    for (const char* needed : {practice_file, probe_file, first_seen_file, counts_file, mixture_file,
                               residual_file, actives_file, spray_file, turf_file, gates_file}) {
      if (!found_.contains(needed)) refuse(needed, "this file is missing", {}, "put it back");
    }
    catalogue_.turf.look = {catalogue_.practice.noted_turf.holds_days,
                            catalogue_.practice.noted_turf.ended_by_hard_nights};
    catalogue_.gates.cold_air = catalogue_.spray.post_stop_maximum;
    catalogue_.soil = taken(soil::SoilModels::from(std::move(soil_)));
    for (const NamedText& file : files) demand_known_sources(file, catalogue_.sources);
    demand_references(catalogue_);
    return std::move(catalogue_);
  }

 private:
  template <class Model>
  static void add(std::map<std::string, Model, std::less<>>& models, Model model, const std::string& file) {
    const std::string id = model.id;
    const auto [at, fresh] = models.emplace(id, std::move(model));
    if (!fresh)
      refuse(file, "another file has the same id: " + at->second.file, {}, "give one of them another id");
  }

  void take_sources(const NamedText& file) {
    taken(read_json(file.text, file.name, Family::request, [&](const JsonObject& object) {
      (void)read_head(object, file.name, "soilclock-sources/1");
      for (const JsonObject& item : object.objects("sources")) {
        Source source = read_source(item);
        const std::string id = source.id;
        if (!catalogue_.sources.emplace(id, std::move(source)).second) {
          item.refuse("id", "this source is already there", {}, "cite the one that is there");
        }
      }
      object.finish();
      return true;
    }));
  }

  void add_control(treatment::GrassControl control, const std::string& file) {
    const std::string id = control.id;
    if (!catalogue_.control.emplace(id, std::move(control)).second)
      refuse(file, "another file has the same id", {}, "give one of them another id");
  }

  bool take_treatment(const NamedText& file) {
    const auto is = [&](std::string_view name) { return file.name == name; };
    if (file.name.starts_with("models/treatment/control/")) {
      add_control(taken(treatment::read_grass_control(file.text, file.name)), file.name);
      return true;
    }
    if (is(mixture_file))
      catalogue_.mixture = taken(treatment::read_mixture_rule(file.text, file.name));
    else if (is(residual_file))
      catalogue_.residual = taken(treatment::read_residual_rule(file.text, file.name));
    else if (is(actives_file))
      catalogue_.actives = taken(treatment::read_actives(file.text, file.name));
    else if (is(spray_file))
      catalogue_.spray = taken(treatment::read_spray_rules(file.text, file.name));
    else if (is(turf_file))
      catalogue_.turf = taken(treatment::read_turf_rules(file.text, file.name));
    else if (is(gates_file))
      catalogue_.gates = taken(treatment::read_gate_rules(file.text, file.name));
    else
      return false;
    found_.insert(file.name);
    return true;
  }

  Catalogue catalogue_;
  std::vector<soil::SoilModel> soil_;
  std::set<std::string> found_;
};

}  // namespace

std::vector<NamedText> built_in_files() {
  std::vector<NamedText> files;
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name.starts_with("models/") || file.name == practice_file)
      files.push_back({std::string{file.name}, std::string{file.text}});
  }
  return files;
}

Result<soil::ProbeRules> built_in_probe_rules() {
  const auto files = embedded_files();
  const auto file = std::find_if(files.begin(), files.end(),
                                 [](const EmbeddedFile& one) { return one.name == probe_file; });
  return soil::read_probe_rules(file->text, probe_file);
}

std::vector<NamedText> overlaid(std::vector<NamedText> files, std::span<const NamedText> own) {
  for (const NamedText& file : own) {
    const auto same = std::find_if(files.begin(), files.end(),
                                   [&](const NamedText& other) { return other.name == file.name; });
    if (same == files.end())
      files.push_back(file);
    else
      same->text = file.text;
  }
  return files;
}

const emergence::Target* Catalogue::find_target(std::string_view code_or_name) const {
  const std::string wanted = lowered(trimmed(code_or_name));
  for (const auto& [code, target] : targets) {
    if (lowered(code) == wanted) return &target;
    if (std::find(target.names.begin(), target.names.end(), wanted) != target.names.end()) return &target;
  }
  return nullptr;
}

const treatment::GrassControl& Catalogue::control_of(std::string_view target) const {
  for (const auto& [id, grass] : control) {
    if (std::find(grass.targets.begin(), grass.targets.end(), target) != grass.targets.end()) return grass;
  }
  throw std::out_of_range{"no control file for a target of the catalogue"};
}

Result<Catalogue> load_catalogue(std::span<const NamedText> files) {
  try {
    Loader loader;
    for (const NamedText& file : files) loader.take(file);
    return loader.finish(files);
  } catch (const JsonProblem& found) {
    return fail(found.problem);
  }
}

}  // namespace soilclock::advice
