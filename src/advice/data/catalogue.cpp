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

constexpr const char* practice_file = "config/practice.json";
constexpr const char* sources_files = "models/sources";
constexpr const char* probe_file = "models/soil/probe_reading.json";

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

/// What has been read, before it is checked and joined.
struct Parts {
  Catalogue catalogue;
  std::vector<soil::SoilModel> soil;
  soil::EstimateRules estimate;
  UsualAir usual_air;
};

using Take = void (*)(Parts&, const NamedText&);

/// The files of which there is exactly one, and where what they say goes.
const std::map<std::string_view, Take>& single_files() {
  static const std::map<std::string_view, Take> files{
      {practice_file,
       [](Parts& p, const NamedText& f) { p.catalogue.practice = taken(read_practice(f.text, f.name)); }},
      {"models/soil/estimate.json",
       [](Parts& p, const NamedText& f) { p.estimate = taken(soil::read_estimate_rules(f.text, f.name)); }},
      {probe_file,
       [](Parts& p, const NamedText& f) {
         p.catalogue.probe = taken(soil::read_probe_rules(f.text, f.name));
       }},
      {"models/soil/surface_water.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.surface_water = taken(soil::read_surface_water_rules(f.text, f.name));
       }},
      {"models/weather/futures.json",
       [](Parts& p, const NamedText& f) { p.catalogue.futures = taken(read_future_rules(f.text, f.name)); }},
      {"models/weather/usual_air.json",
       [](Parts& p, const NamedText& f) { p.usual_air = taken(read_usual_air(f.text, f.name)); }},
      {"models/scouting/first_seen.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.scouting.first_seen = taken(read_first_seen_rule(f.text, f.name));
       }},
      {"models/scouting/counts.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.scouting.counts = taken(read_count_rule(f.text, f.name));
       }},
      {"models/scouting/earlier_seasons.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.scouting.earlier_seasons = taken(read_earlier_season_rule(f.text, f.name));
       }},
      {"models/treatment/mixtures.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.mixture = taken(treatment::read_mixture_rule(f.text, f.name));
       }},
      {"models/treatment/residual.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.residual = taken(treatment::read_residual_rule(f.text, f.name));
       }},
      {"models/treatment/actives.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.actives = taken(treatment::read_actives(f.text, f.name));
       }},
      {"models/treatment/spray_day.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.spray = taken(treatment::read_spray_rules(f.text, f.name));
       }},
      {"models/treatment/turf_state.json",
       [](Parts& p, const NamedText& f) {
         p.catalogue.turf = taken(treatment::read_turf_rules(f.text, f.name));
       }},
      {"models/treatment/gates.json", [](Parts& p, const NamedText& f) {
         p.catalogue.gates = taken(treatment::read_gate_rules(f.text, f.name));
       }}};
  return files;
}

/// Collects the files by what their path says they are, then checks them against each other.
class Loader {
 public:
  void take(const NamedText& file) {
    const std::string_view name = file.name;
    if (const auto single = single_files().find(name); single != single_files().end()) {
      single->second(parts_, file);
      found_.insert(file.name);
    } else if (name.starts_with(sources_files) && name.find('/', 7) == std::string_view::npos) {
      take_sources(file);
    } else if (name.starts_with("models/soil/")) {
      parts_.soil.push_back(taken(soil::read_soil_model(file.text, file.name)));
    } else if (name.starts_with("models/emergence/")) {
      add(parts_.catalogue.emergence, taken(emergence::read_emergence_model(file.text, file.name)),
          file.name);
    } else if (name.starts_with("models/growth/")) {
      add(parts_.catalogue.growth, taken(emergence::read_growth_model(file.text, file.name)), file.name);
    } else if (name.starts_with("models/targets/")) {
      emergence::Target target = taken(emergence::read_target(file.text, file.name));
      const std::string code = target.code;
      parts_.catalogue.targets.emplace(code, std::move(target));
    } else if (name.starts_with("models/treatment/control/")) {
      add_control(taken(treatment::read_grass_control(file.text, file.name)), file.name);
    } else {
      refuse(
          file.name, "nothing known belongs in this place",
          "models/sources.json, models/{soil,weather,emergence,growth,scouting,targets,treatment}/*.json or "
          "config/practice.json",
          "move or remove the file");
    }
  }

  Catalogue finish(std::span<const NamedText> files) {
    for (const auto& [needed, take] : single_files()) {
      if (!found_.contains(needed)) refuse(std::string{needed}, "this file is missing", {}, "put it back");
    }
    parts_.catalogue.turf.look = {parts_.catalogue.practice.noted_turf.holds_days,
                                  parts_.catalogue.practice.noted_turf.ended_by_hard_nights};
    parts_.catalogue.gates.cold_air = parts_.catalogue.spray.post_stop_maximum;
    parts_.catalogue.gates.spring = parts_.catalogue.turf.spring;
    parts_.catalogue.futures.usual_year = parts_.estimate.usual_year;
    parts_.catalogue.futures.usual_air = std::move(parts_.usual_air);
    parts_.catalogue.soil = taken(soil::SoilModels::from(std::move(parts_.soil), parts_.estimate));
    demand_sources(files);
    demand_references(parts_.catalogue);
    return std::move(parts_.catalogue);
  }

 private:
  template <class Model>
  static void add(std::map<std::string, Model, std::less<>>& models, Model model, const std::string& file) {
    const std::string id = model.id;
    const auto [at, fresh] = models.emplace(id, std::move(model));
    if (!fresh)
      refuse(file, "another file has the same id: " + at->second.file, {}, "give one of them another id");
  }

  /// Reading all files a second time for this takes as long as the first: those in the program were looked
  /// through by the tests, and need it again only where the list of sources is another one.
  void demand_sources(std::span<const NamedText> files) const {
    const auto lists = [&](bool built_in) {
      return std::any_of(files.begin(), files.end(), [&](const NamedText& file) {
        return file.built_in == built_in && file.name.starts_with(sources_files);
      });
    };
    const bool as_shipped = lists(true) && !lists(false);
    for (const NamedText& file : files) {
      if (!as_shipped || !file.built_in) demand_known_sources(file, parts_.catalogue.sources);
    }
  }

  void take_sources(const NamedText& file) {
    taken(read_json(file.text, file.name, Family::request, [&](const JsonObject& object) {
      (void)read_head(object, file.name, "soilclock-sources/1");
      for (const JsonObject& item : object.objects("sources")) {
        Source source = read_source(item);
        const std::string id = source.id;
        if (!parts_.catalogue.sources.emplace(id, std::move(source)).second) {
          item.refuse("id", "this source is already there", {}, "cite the one that is there");
        }
      }
      object.finish();
      return true;
    }));
  }

  void add_control(treatment::GrassControl control, const std::string& file) {
    const std::string id = control.id;
    if (!parts_.catalogue.control.emplace(id, std::move(control)).second)
      refuse(file, "another file has the same id", {}, "give one of them another id");
  }

  Parts parts_;
  std::set<std::string, std::less<>> found_;
};

}  // namespace

std::vector<NamedText> built_in_files() {
  std::vector<NamedText> files;
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name.starts_with("models/") || file.name == practice_file)
      files.push_back({std::string{file.name}, std::string{file.text}, true});
  }
  return files;
}

Result<soil::ProbeRules> built_in_probe_rules() {
  return soil::read_probe_rules(embedded_text(probe_file), probe_file);
}

std::vector<NamedText> overlaid(std::vector<NamedText> files, std::span<const NamedText> own) {
  for (const NamedText& file : own) {
    const auto same = std::find_if(files.begin(), files.end(),
                                   [&](const NamedText& other) { return other.name == file.name; });
    if (same == files.end())
      files.push_back(file);
    else
      *same = file;
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
