// SPDX-License-Identifier: MIT
#include "advice/data/catalogue_checks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/json_reader.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

[[noreturn]] void refuse(const std::string& file, std::string place, std::string what, std::string found,
                         std::string expected, std::string remedy) {
  throw JsonProblem{Problem{Family::request,
                            std::move(what),
                            {file, {}, {}, std::move(place)},
                            std::move(found),
                            std::move(expected),
                            std::move(remedy)}};
}

template <class Value>
std::vector<std::string> ids_of(const std::map<std::string, Value, std::less<>>& map) {
  std::vector<std::string> ids;
  ids.reserve(map.size());
  for (const auto& [id, value] : map) ids.push_back(id);
  return ids;
}

template <class Value>
const Value& known(const std::map<std::string, Value, std::less<>>& map, const std::string& id,
                   const std::string& file, const std::string& place, const std::string& what) {
  const auto found = map.find(id);
  if (found != map.end()) return found->second;
  const auto near = nearest(id, ids_of(map));
  refuse(file, place, what + " of this id is not there", id, {},
         near ? "did you mean '" + *near + "'?" : "add its file");
}

class SourceWalk {
 public:
  SourceWalk(const std::string& file, const std::map<std::string, Source, std::less<>>& sources)
      : file_{file}, sources_{sources} {}

  /// Looks at an object and all objects in it.
  void look(const JsonObject& object) const {
    for (const std::string& key : object.keys()) {
      const std::string kind = object.kind(key);
      if (key == "source" && kind == "string") {
        (void)known(sources_, object.text(key), file_, object.place() + "/" + key, "a source");
      } else if (kind == "object") {
        look(object.object(key));
      } else if (kind == "array" && object.kind_of_items(key) == "object") {
        for (const JsonObject& item : object.objects(key)) look(item);
      }
    }
  }

 private:
  const std::string& file_;
  const std::map<std::string, Source, std::less<>>& sources_;
};

void demand_follows(const Catalogue& catalogue, const emergence::EmergenceModel& model) {
  if (!model.follows) return;
  const auto& leader =
      known(catalogue.emergence, model.follows->model, model.file, "/follows/model", "a model");
  if (leader.form != emergence::Form::thermal_curve) {
    refuse(model.file, "/follows/model", "only a thermal curve can be followed",
           std::string{form_name(leader.form)}, "thermal-curve", {});
  }
  if (model.follows->scale != leader.scale) {
    refuse(model.file, "/follows/scale",
           "sums of two scales are not comparable: " + leader.id + " is made on another", {},
           "the scale written in " + leader.file, "state that scale, or follow another model");
  }
}

void demand_target(const Catalogue& catalogue, const emergence::Target& target) {
  const auto demand_model = [&](const std::string& id, const std::string& place) {
    const auto& model = known(catalogue.emergence, id, target.file, place, "a model");
    if (model.target != target.code) {
      refuse(target.file, place, "this model answers for another target", model.target, target.code, {});
    }
    return &model;
  };
  for (std::size_t i = 0; i < target.members.size(); ++i) {
    const std::string place = fmt::format("/members/{}/model", i);
    const auto* model = demand_model(target.members[i].model, place);
    if (model->form == emergence::Form::base_only || model->form == emergence::Form::onset_threshold) {
      refuse(target.file, place, "a model of this form has no curve and cannot be a member",
             std::string{form_name(model->form)}, {}, "name it under cross_checks");
    }
  }
  for (std::size_t i = 0; i < target.cross_checks.size(); ++i) {
    (void)demand_model(target.cross_checks[i], fmt::format("/cross_checks/{}", i));
  }
  const auto& growth = known(catalogue.growth, target.growth, target.file, "/growth", "a growth model");
  if (std::find(growth.targets.begin(), growth.targets.end(), target.code) == growth.targets.end()) {
    refuse(target.file, "/growth", "this growth model is not made for the target", target.growth,
           listed(growth.targets), {});
  }
}

void demand_targets_of(const Catalogue& catalogue, const std::vector<std::string>& targets,
                       const std::string& file, const std::string& place) {
  for (std::size_t i = 0; i < targets.size(); ++i) {
    (void)known(catalogue.targets, targets[i], file, fmt::format("{}/targets/{}", place, i), "a target");
  }
}

std::string file_of(const treatment::GrassControl& grass) {
  return "models/treatment/control/" + grass.id + ".json";
}

void demand_known_actives(const Catalogue& catalogue, const treatment::GrassControl& grass) {
  const auto demand = [&](const std::string& active, const std::string& place) {
    if (catalogue.actives.find(active) != nullptr) return;
    const auto near = nearest(active, catalogue.actives.names());
    refuse(file_of(grass), place, "this active is not in the list of actives", active, {},
           near ? "did you mean '" + *near + "'?" : "add it to models/treatment/actives.json");
  };
  for (std::size_t i = 0; i < grass.rows.size(); ++i) {
    for (const std::string& active : grass.rows[i].actives)
      demand(active, fmt::format("/foliar/rows/{}/actives", i));
  }
  for (std::size_t i = 0; i < grass.residuals.size(); ++i)
    demand(grass.residuals[i].active, fmt::format("/residual/actives/{}/active", i));
  for (const auto& [active, span] : grass.greatest_by_active) demand(active, "/residual/greatest_by_active");
}

void demand_control(const Catalogue& catalogue) {
  std::map<std::string, std::string> file_by_target;
  for (const auto& [id, grass] : catalogue.control) {
    demand_targets_of(catalogue, grass.targets, file_of(grass), "");
    demand_known_actives(catalogue, grass);
    for (const std::string& code : grass.targets) {
      if (!file_by_target.emplace(code, id).second)
        refuse(file_of(grass), "/targets", "another file already has this target", code, {}, {});
    }
  }
  for (const auto& [code, target] : catalogue.targets) {
    if (!file_by_target.contains(code))
      refuse(target.file, "/id", "no file says what treatments do to this target", code,
             "one file of models/treatment/control/ that names it", {});
  }
}

}  // namespace

void demand_known_sources(const NamedText& file, const std::map<std::string, Source, std::less<>>& sources) {
  if (file.name.starts_with("models/sources")) return;
  SourceWalk{file.name, sources}.look(parse_json(file.text, file.name, Family::request));
}

void demand_references(const Catalogue& catalogue) {
  for (const auto& [id, model] : catalogue.emergence) {
    (void)known(catalogue.targets, model.target, model.file, "/target", "a target");
    demand_follows(catalogue, model);
  }
  for (const auto& [id, growth] : catalogue.growth)
    demand_targets_of(catalogue, growth.targets, growth.file, "");
  std::map<std::string, std::string> owner;
  for (const auto& [code, target] : catalogue.targets) {
    demand_target(catalogue, target);
    for (const std::string& name : target.names) {
      const auto [at, fresh] = owner.emplace(name, code);
      if (!fresh)
        refuse(target.file, "/names", "this name already belongs to " + at->second, name, {}, "use another");
    }
  }
  for (std::size_t i = 0; i < catalogue.practice.soil_rules.size(); ++i) {
    demand_targets_of(catalogue, catalogue.practice.soil_rules[i].targets, "config/practice.json",
                      fmt::format("/soil_rules/{}", i));
  }
  demand_control(catalogue);
}

}  // namespace soilclock::advice
