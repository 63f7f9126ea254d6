// SPDX-License-Identifier: MIT
#include "treatment/actives.hpp"

#include <algorithm>
#include <cmath>

#include "core/model_head.hpp"

#include "core/text.hpp"

namespace soilclock::treatment {

namespace {

constexpr int greatest_group = 34;  // last number of the 2020 revision

ParameterSpan weeks(const JsonObject& object, std::string_view key) {
  return read_span(object, key, "weeks", {0, 104});
}

using emergence::StageClass;

std::optional<StageClass> read_emerged_to(const JsonObject& object) {
  std::vector<std::string> words{"none"};
  for (const StageClass stage : emergence::all_stages) words.emplace_back(name(stage));
  const std::string word = object.choice("emerged_to", words);
  const auto at = std::find(words.begin(), words.end(), word) - words.begin();
  return at == 0 ? std::nullopt : std::optional{static_cast<StageClass>(at - 1)};
}

void read_resistance(const JsonObject& object, Active& active) {
  const std::string status = object.choice("status", {"documented", "by group", "none known"});
  if (status == "documented") active.resistance = ResistanceRecord::documented;
  if (status == "by group") active.resistance = ResistanceRecord::by_group;
  (void)read_grounds(object);
  object.finish();
}

Active read_active(const JsonObject& object) {
  Active active;
  active.name = object.text("name");
  active.aliases = object.optional_texts("aliases");
  active.group = object.integer("group", 0, greatest_group);
  active.family = object.text("family");
  const std::string uptake = object.choice("uptake", {"soil", "foliar", "both"});
  active.uptake = uptake == "soil" ? Uptake::soil : uptake == "foliar" ? Uptake::foliar : Uptake::both;
  const std::string moves = object.choice("moves", {"none", "contact", "translocated"});
  active.moves = moves == "none"      ? Movement::none
                 : moves == "contact" ? Movement::contact
                                      : Movement::translocated;
  active.emerged_to = read_emerged_to(object);
  active.to_come = object.boolean("to_come");
  active.timing = object.texts("timing");
  static const std::vector<std::string> timings{"pre", "early-post", "post", "dormant"};
  for (const std::string& timing : active.timing) {
    if (std::find(timings.begin(), timings.end(), timing) == timings.end()) {
      object.refuse("timing", "this timing class is not known here", "some of " + listed(timings));
    }
  }
  (void)read_grounds(object);
  active.residual_weeks = weeks(object, "residual_weeks");
  read_resistance(object.object("resistance"), active);
  if (object.has("seeding_weeks")) active.seeding_weeks = weeks(object, "seeding_weeks");
  if (object.has("least_day_maximum")) {
    active.least_day_maximum =
        Temperature::from_celsius(read_parameter(object, "least_day_maximum", "C", {0, 40}).value);
  }
  object.finish();
  return active;
}

}  // namespace

const Active* Actives::find(std::string_view wanted) const {
  const std::string low = lowered(trimmed(wanted));
  for (const Active& active : all_) {
    if (lowered(active.name) == low) return &active;
    for (const std::string& alias : active.aliases) {
      if (lowered(alias) == low) return &active;
    }
  }
  return nullptr;
}

std::vector<const Active*> Actives::of_group(int group) const {
  std::vector<const Active*> found;
  for (const Active& active : all_) {
    if (active.group == group) found.push_back(&active);
  }
  return found;
}

std::vector<std::string> Actives::names() const {
  std::vector<std::string> names;
  for (const Active& active : all_) {
    names.push_back(active.name);
    names.insert(names.end(), active.aliases.begin(), active.aliases.end());
  }
  return names;
}

Result<Actives> read_actives(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-actives/1");
    std::vector<Active> all;
    std::vector<std::string> taken;
    for (const JsonObject& object : top.objects("actives")) {
      all.push_back(read_active(object));
      std::vector<std::string> words = all.back().aliases;
      words.push_back(all.back().name);
      for (const std::string& word : words) {
        if (std::find(taken.begin(), taken.end(), lowered(word)) != taken.end()) {
          object.refuse("name", "this name or alias is listed twice");
        }
        taken.push_back(lowered(word));
      }
    }
    top.finish();
    return Actives{std::move(all)};
  });
}

Result<PlanEntry> read_plan_entry(std::string_view text, const Actives& actives) {
  if (const Active* active = actives.find(text)) return PlanEntry{active->name, active->group, active};
  std::string low = lowered(trimmed(text));
  if (low.starts_with("group")) low = std::string{trimmed(std::string_view{low}.substr(5))};
  if (const auto number = parse_number(low)) {
    if (*number >= 0.0 && *number <= greatest_group && *number == std::floor(*number)) {
      int group = static_cast<int>(*number);
      if (group == 7) group = 5;   // substituted ureas before the 2020 revision
      if (group == 8) group = 15;  // benzofurans before the 2020 revision
      return PlanEntry{"group " + std::to_string(group), group, nullptr};
    }
    return fail({Family::request,
                 "this is no site-of-action group",
                 {},
                 std::string{text},
                 "a number from 0 to 34",
                 {}});
  }
  const auto near = nearest(low, actives.names());
  return fail({Family::request,
               "this active ingredient is not known",
               {},
               std::string{text},
               "a common name or a group number",
               near ? "did you mean '" + *near + "'?" : "give its group number instead"});
}

}  // namespace soilclock::treatment
