// SPDX-License-Identifier: MIT
#include "site/site_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/text.hpp"

namespace soilclock {

namespace {

using treatment::FoliarClass;

constexpr double most_weeks = 52.0;  // a residual of more than a year is a slip of the keyboard
constexpr const char* accepted_words =
    "actives or groups (\"prodiamine + simazine\", \"3, 5\"), or weeks of residual and the kind of post "
    "(\"16 weeks, contact\", \"8 weeks, none\")";

const std::vector<std::string> foliar_words{"contact", "translocated", "none"};

std::optional<FoliarClass> foliar_of(std::string_view word) {
  for (const FoliarClass foliar : {FoliarClass::none, FoliarClass::contact, FoliarClass::translocated}) {
    if (word == treatment::name(foliar)) return foliar;
  }
  return std::nullopt;
}

/// The number of a group in use today; old numbers are read as their successors.
int group_in(const JsonObject& object, std::string_view key, double number) {
  const auto entry = treatment::read_plan_entry(fmt::format("{}", number), treatment::Actives{{}});
  if (!entry) object.refuse(key, entry.error().what, entry.error().expected, entry.error().remedy);
  return entry->group;
}

Problem wrong_plan(std::string what, std::string_view found, std::string remedy = {}) {
  return {Family::request,  "--plan: " + std::move(what), {}, std::string{found}, accepted_words,
          std::move(remedy)};
}

/// "did you mean 'contact'?" for a word that is nearly one of the kinds of post.
std::optional<std::string> meant_foliar(const std::string& typed) {
  const auto near = nearest(typed, foliar_words);
  return near ? std::optional{"did you mean '" + *near + "'?"} : std::nullopt;
}

/// The parts of a plan on the command line, cut at plus signs, commas and "and".
std::vector<std::string> parts_of(std::string_view text) {
  std::vector<std::string> parts;
  std::string rest = lowered(text);
  constexpr std::string_view word = " and ";
  for (auto at = rest.find(word); at != std::string::npos; at = rest.find(word))
    rest.replace(at, word.size(), "+");
  for (std::size_t from = 0; from <= rest.size();) {
    const std::size_t to = std::min(rest.find_first_of("+,;&", from), rest.size());
    parts.emplace_back(trimmed(std::string_view{rest}.substr(from, to - from)));
    from = to + 1;
  }
  return parts;
}

/// "16 weeks", "16-week", "16w", "no residual".
std::optional<double> weeks_in(const std::string& low) {
  if (low == "no residual" || low == "no pre") return 0.0;
  const auto unit_at = low.find_first_not_of("0123456789.");
  if (unit_at == 0 || unit_at == std::string::npos) return std::nullopt;
  std::string_view unit = trimmed(std::string_view{low}.substr(unit_at));
  if (unit.starts_with("-")) unit.remove_prefix(1);
  if (unit.ends_with(" residual")) unit.remove_suffix(std::string_view{" residual"}.size());
  const bool weeks = unit == "weeks" || unit == "week" || unit == "wk" || unit == "wks" || unit == "w";
  return weeks ? parse_number(low.substr(0, unit_at)) : std::nullopt;
}

/// "contact", "contact post", "none", "no post".
std::optional<FoliarClass> foliar_in(std::string_view low) {
  if (low == "no post" || low == "no foliar") return FoliarClass::none;
  for (const std::string_view noun : {" post", " foliar"}) {
    if (low.ends_with(noun)) low.remove_suffix(noun.size());
  }
  return foliar_of(low);
}

/// One part of the command line's plan taken into it.
std::optional<Problem> take_part(const std::string& part, std::string_view text, SitePlan& plan) {
  if (part.empty()) return wrong_plan("a part of the plan is empty", text);
  if (const auto weeks = weeks_in(part)) {
    if (plan.residual_weeks) return wrong_plan("the weeks of residual are given twice", text);
    if (*weeks > most_weeks)
      return wrong_plan(fmt::format("a residual lasts 0 to {:g} weeks", most_weeks), part);
    plan.residual_weeks = *weeks;
  } else if (const auto foliar = foliar_in(part)) {
    if (plan.foliar) return wrong_plan("the kind of post is given twice", text);
    plan.foliar = *foliar;
  } else {
    plan.entries.push_back({part, {}});
  }
  return std::nullopt;
}

}  // namespace

SitePlan read_site_plan(const JsonObject& site, const std::string& file) {
  SitePlan plan;
  const auto object = site.optional_object("plan");
  if (!object) return plan;
  const auto add = [&](const std::string& key, std::size_t at, std::string text) {
    plan.entries.push_back(
        {std::move(text), {file, {}, {}, fmt::format("{}/{}/{}", object->place(), key, at)}});
  };
  const std::vector<std::string> actives = object->optional_texts("actives");
  for (std::size_t i = 0; i < actives.size(); ++i) add("actives", i, actives[i]);
  if (object->has("groups")) {
    const std::vector<double> groups = object->numbers("groups");
    for (std::size_t i = 0; i < groups.size(); ++i)
      add("groups", i, std::to_string(group_in(*object, "groups", groups[i])));
  }
  plan.residual_weeks = object->optional_number("residual_weeks", 0.0, most_weeks);
  if (object->has("foliar")) plan.foliar = foliar_of(object->choice("foliar", foliar_words));
  object->finish();
  if (!plan.entries.empty() && (plan.residual_weeks || plan.foliar)) {
    object->refuse(plan.residual_weeks ? "residual_weeks" : "foliar",
                   "a plan names actives and groups, or weeks of residual and the kind of foliar, not both",
                   R"({"actives": [...], "groups": [...]} or {"residual_weeks": N, "foliar": "..."})",
                   "leave out one of the two");
  }
  if (plan.entries.empty() && !plan.residual_weeks && !plan.foliar) {
    object->refuse("", "the plan is empty",
                   R"({"actives": [...], "groups": [...]} or {"residual_weeks": N, "foliar": "..."})",
                   "leave \"plan\" out where nothing is planned yet");
  }
  return plan;
}

std::vector<SiteResistance> read_site_resistance(const JsonObject& site) {
  std::vector<SiteResistance> all;
  std::set<int> groups;
  for (const JsonObject& item : site.optional_objects("resistance")) {
    SiteResistance found;
    found.group = group_in(item, "group", item.number("group"));
    const std::optional<bool> tested = item.optional_boolean("tested");
    if (const auto share = item.optional_number("share", 0.0, 1.0)) found.share = Fraction::of(*share);
    item.finish();
    if (!tested && !found.share) {
      item.refuse("", "neither a test nor a share is given",
                  R"("share": 0 to 1, or "tested": true (resistant) or false (susceptible))");
    }
    if (tested == false && found.share && *found.share > Fraction{}) {
      item.refuse("share", "a share is resistant, yet the test found none", R"("tested": true, or no share)");
    }
    if (tested == false) found.share = Fraction{};
    if (!groups.insert(found.group).second)
      item.refuse("group", fmt::format("resistance to group {} is given twice", found.group));
    all.push_back(found);
  }
  return all;
}

Result<SitePlan> parse_plan(std::string_view text) {
  SitePlan plan;
  for (const std::string& part : parts_of(text)) {
    if (const auto problem = take_part(part, text, plan)) return fail(*problem);
  }
  const bool kinds = plan.residual_weeks || plan.foliar;
  if (!plan.entries.empty() && kinds) {
    std::string remedy = "name the actives alone, or the weeks and the kind alone";
    for (const SitePlan::Entry& entry : plan.entries) remedy = meant_foliar(entry.text).value_or(remedy);
    return fail(wrong_plan("actives or groups cannot stand beside weeks of residual or a kind of post", text,
                           std::move(remedy)));
  }
  if (plan.foliar == FoliarClass::none && !plan.residual_weeks) {
    return fail(wrong_plan("a plan without a post must say its residual", text,
                           "write --plan \"16 weeks, none\"; leave --plan out where nothing is planned"));
  }
  return plan;
}

Result<treatment::TankPlan> tank_plan(const SitePlan& plan, const advice::Catalogue& catalogue) {
  treatment::TankPlan tank;
  tank.residual_weeks = plan.residual_weeks;
  tank.foliar = plan.foliar;
  for (const SitePlan::Entry& typed : plan.entries) {
    auto entry = treatment::read_plan_entry(typed.text, catalogue.actives);
    if (!entry) {
      Problem problem = entry.error();
      problem.where = typed.where;
      if (typed.where.file.empty()) {
        // "3 5", "16 weks"; a lone number was meant as a group.
        const bool number = typed.text.find_first_of("0123456789") == 0 && !parse_number(typed.text);
        problem.what = "--plan: " + (number ? "this part is not understood" : problem.what);
        if (!parse_number(typed.text)) problem.expected = accepted_words;
        if (number) problem.remedy.clear();
        if (const auto meant = meant_foliar(typed.text)) problem.remedy = *meant;
      }
      return fail(problem);
    }
    const bool twice = std::any_of(tank.entries.begin(), tank.entries.end(),
                                   [&](const auto& other) { return other.text == entry->text; });
    if (!twice) tank.entries.push_back(std::move(*entry));
  }
  return tank;
}

treatment::ResistantShares resistant_shares(const std::vector<SiteResistance>& resistance,
                                            const advice::Practice& practice) {
  treatment::ResistantShares shares;
  for (const SiteResistance& known : resistance)
    shares[known.group] = known.share.value_or(practice.resistant_by_test);
  return shares;
}

}  // namespace soilclock
