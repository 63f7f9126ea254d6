// SPDX-License-Identifier: MIT
#include "report/models_report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/text.hpp"
#include "report/json_values.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::Catalogue;
using emergence::EmergenceModel;

std::string spread_words(const Spread& spread) {
  switch (spread.kind) {
    case Spread::Kind::normal:
      return fmt::format(", drawn normal with SD {}", spread.sd);
    case Spread::Kind::uniform:
    case Spread::Kind::split_uniform:
      return fmt::format(", drawn between {} and {}", spread.low, spread.high);
    case Spread::Kind::none:
      break;
  }
  return "";
}

std::string citation_words(const Catalogue& catalogue, const Citation& citation) {
  const auto found = catalogue.sources.find(citation.source);
  if (found == catalogue.sources.end()) return citation.source;
  const Source& source = found->second;
  return fmt::format("{} {}, {} {}{}; {} (read: {})", source.authors, source.year, source.journal,
                     source.pages, source.doi.empty() ? "" : ", doi " + source.doi, citation.where,
                     source.how_read);
}

template <class Parameters>
std::string parameters_text(const Parameters& parameters) {
  std::string text;
  for (const auto& [name, parameter] : parameters) {
    text += wrapped(
        fmt::format("{} = {} {}{}", name, parameter.value, parameter.unit, spread_words(parameter.spread)),
        4);
  }
  return text;
}

/// Where a model holds, what it rests on and what it was checked with.
std::string head_text(const Catalogue& catalogue, const ModelHead& model) {
  std::string text = wrapped("holds: " + model.validity.condition, 2);
  text += wrapped("grounds: " + model.basis_note, 2);
  for (const Citation& citation : model.sources)
    text += wrapped("source: " + citation_words(catalogue, citation), 2);
  text += wrapped(
      fmt::format("check points: {}", model.check_points.empty() ? "none, " + model.no_check_points_because
                                                                 : std::to_string(model.check_points.size())),
      2);
  for (const std::string& note : model.notes) text += wrapped("note: " + note, 2);
  return text;
}

std::string model_text(const Catalogue& catalogue, const EmergenceModel& model) {
  std::string text =
      wrapped(fmt::format("{}: {} (target {}, form {}, {})", model.id, model.title, model.target,
                          emergence::form_name(model.form), basis_name(model.basis)),
              0);
  text += parameters_text(model.parameters);
  for (const auto& [name, date] : model.dates) text += wrapped(name + " = " + date.text(), 4);
  return text + head_text(catalogue, model);
}

std::string target_text(const emergence::Target& target) {
  std::string text = wrapped(fmt::format("{}: {}", target.code, target.title), 0);
  for (const emergence::EnsembleMember& member : target.members) text += wrapped("member " + member.model, 2);
  if (target.members.empty()) text += wrapped("no member: " + target.no_members_because, 2);
  for (const std::string& check : target.cross_checks) text += wrapped("cross-check " + check, 2);
  text += wrapped("grounds: " + target.basis_note, 2);
  for (const std::string& note : target.notes) text += wrapped("note: " + note, 2);
  return text;
}

std::string soil_text(const Catalogue& catalogue, const soil::SoilModel& model) {
  return wrapped(fmt::format("{}: {} ({})", model.id, model.title, basis_name(model.basis)), 0) +
         parameters_text(model.parameters) + head_text(catalogue, model);
}

/// What a soil and an emergence model have in common.
template <class Model>
Json model_json(const Model& model) {
  Json json = {{"id", model.id},
               {"title", model.title},
               {"basis", basis_name(model.basis)},
               {"grounds", model.basis_note},
               {"parameters", Json::object()},
               {"holds", model.validity.condition},
               {"sources", Json::array()},
               {"check_points", model.check_points.size()},
               {"notes", model.notes}};
  for (const auto& [name, parameter] : model.parameters) {
    json["parameters"][name] = {{"value", parameter.value}, {"unit", parameter.unit}};
  }
  for (const Citation& citation : model.sources) {
    json["sources"].push_back({{"source", citation.source}, {"where", citation.where}});
  }
  return json;
}

Json emergence_json(const EmergenceModel& model) {
  Json json = model_json(model);
  json["target"] = model.target;
  json["form"] = emergence::form_name(model.form);
  return json;
}

const soil::SoilModel* find_soil(const Catalogue& catalogue, const std::string& id) {
  const auto& all = catalogue.soil.all();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const soil::SoilModel& model) { return model.id == id; });
  return found == all.end() ? nullptr : &*found;
}

std::string list_text(const Catalogue& catalogue) {
  std::string text = "Targets\n";
  for (const auto& [code, target] : catalogue.targets) {
    text += fmt::format("  {:<32}  {}\n", code, target.title);
  }
  text += "Emergence models\n";
  for (const auto& [id, model] : catalogue.emergence) text += fmt::format("  {:<32}  {}\n", id, model.title);
  text += "Soil models\n";
  for (const soil::SoilModel& model : catalogue.soil.all())
    text += fmt::format("  {:<32}  {}\n", model.id, model.title);
  return text;
}

}  // namespace

std::vector<std::string> model_ids(const Catalogue& catalogue) {
  std::vector<std::string> ids;
  for (const auto& [code, target] : catalogue.targets) ids.push_back(code);
  for (const auto& [id, model] : catalogue.emergence) ids.push_back(id);
  for (const soil::SoilModel& model : catalogue.soil.all()) ids.push_back(model.id);
  return ids;
}

bool has_model(const Catalogue& catalogue, const std::string& id) {
  const auto ids = model_ids(catalogue);
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

std::string models_text(const Catalogue& catalogue, const std::vector<std::string>& ids) {
  if (ids.empty()) return list_text(catalogue);
  std::string text;
  for (const std::string& id : ids) {
    if (!text.empty()) text += "\n";
    if (const auto target = catalogue.targets.find(id); target != catalogue.targets.end())
      text += target_text(target->second);
    else if (const auto model = catalogue.emergence.find(id); model != catalogue.emergence.end()) {
      text += model_text(catalogue, model->second);
    } else if (const soil::SoilModel* soil = find_soil(catalogue, id))
      text += soil_text(catalogue, *soil);
  }
  return text;
}

std::string models_json(const Catalogue& catalogue, const std::vector<std::string>& ids) {
  const auto wanted = [&](const std::string& id) {
    return ids.empty() || std::find(ids.begin(), ids.end(), id) != ids.end();
  };
  Json json = {{"format", "soilclock-models"},
               {"version", 1},
               {"targets", Json::array()},
               {"emergence", Json::array()},
               {"soil", Json::array()}};
  for (const auto& [code, target] : catalogue.targets) {
    if (!wanted(code)) continue;
    Json entry = {
        {"code", code}, {"title", target.title}, {"names", target.names}, {"members", Json::array()}};
    for (const emergence::EnsembleMember& member : target.members) entry["members"].push_back(member.model);
    json["targets"].push_back(entry);
  }
  for (const auto& [id, model] : catalogue.emergence) {
    if (wanted(id)) json["emergence"].push_back(emergence_json(model));
  }
  for (const soil::SoilModel& model : catalogue.soil.all()) {
    if (wanted(model.id)) json["soil"].push_back(model_json(model));
  }
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report
