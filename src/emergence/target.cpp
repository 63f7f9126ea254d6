// SPDX-License-Identifier: MIT
#include "emergence/target.hpp"

#include <utility>

#include "core/text.hpp"
#include "emergence/model_fields.hpp"

namespace soilclock::emergence {

namespace {

double number(const JsonObject& item, std::string_view key, std::string_view unit, Basis of_file) {
  return read_parameter(item, key, unit, {}, of_file).value;
}

WeightRule read_weight(const JsonObject& object, Basis of_file) {
  const JsonObject item = object.object("weight");
  WeightRule rule;
  const std::string kind = item.choice("rule", {"fixed", "rest", "warm july", "near date"});
  if (kind != "rest") rule.share = item.number("share", 0.0, 1.0);
  if (kind == "rest") rule.kind = WeightRule::Kind::rest;
  if (kind == "warm july") {
    rule.kind = WeightRule::Kind::warm_july;
    rule.july_none = Temperature::from_celsius(number(item, "july_air_mean_none", "C", of_file));
    rule.july_full = Temperature::from_celsius(number(item, "july_air_mean_full", "C", of_file));
    if (!(rule.july_none < rule.july_full))
      item.refuse("july_air_mean_full", "the weight must rise with the warmth", "above july_air_mean_none");
    rule.units = number(item, "units", "C d", of_file);
    rule.units_none = read_month_day(item, "units_none");
    rule.units_full = read_month_day(item, "units_full");
    if (std::pair{rule.units_full.month, rule.units_full.day} <=
        std::pair{rule.units_none.month, rule.units_none.day})
      item.refuse("units_full", "the weight must rise with the date", "a later day than units_none");
  }
  if (kind == "near date") {
    rule.kind = WeightRule::Kind::near_date;
    rule.center = read_month_day(item, "date");
    rule.half_width_days = number(item, "half_width", "d", of_file);
    if (!(rule.half_width_days > 0.0)) item.refuse("half_width", "a width must be above 0");
  }
  item.finish();
  return rule;
}

std::vector<EnsembleMember> read_members(const JsonObject& object, Basis of_file) {
  std::vector<EnsembleMember> members;
  double fixed = 0.0;
  bool rest = false;
  for (const JsonObject& item : object.objects("members")) {
    members.push_back({read_words(item, "model"), read_weight(item, of_file)});
    item.finish();
    if (members.back().weight.kind == WeightRule::Kind::rest)
      rest = true;
    else
      fixed += members.back().weight.share;
  }
  if (fixed > 1.0) object.refuse("members", "the shares add up to more than 1", "at most 1");
  if (!members.empty() && !rest && fixed <= 0.0) object.refuse("members", "no member has any weight");
  return members;
}

SingleWindowRule read_single_window(const JsonObject& item, Basis of_file) {
  SingleWindowRule rule;
  rule.crossing = Temperature::from_celsius(number(item, "crossing", "C", of_file));
  rule.crossing_run_days = item.integer("crossing_run_days", 1, 30);
  rule.crossing_from_day = item.integer("crossing_from_season_day", 0, 365);
  rule.warmest_none = Temperature::from_celsius(number(item, "warmest_mean_none", "C", of_file));
  rule.warmest_full = Temperature::from_celsius(number(item, "warmest_mean_full", "C", of_file));
  if (rule.warmest_full <= rule.warmest_none) {
    item.refuse("warmest_mean_full", "this must be above warmest_mean_none");
  }
  rule.trusted_soil_error = TemperatureDelta::from_kelvin(number(item, "trusted_soil_error", "K", of_file));
  rule.distrusted_soil_error =
      TemperatureDelta::from_kelvin(number(item, "distrusted_soil_error", "K", of_file));
  if (rule.distrusted_soil_error <= rule.trusted_soil_error)
    item.refuse("distrusted_soil_error", "this must be above trusted_soil_error");
  rule.warmest_span_days = item.integer("warmest_span_days", 1, 90);
  rule.warmest_until_day = item.integer("warmest_until_season_day", rule.warmest_span_days, 365);
  rule.seedlings_from = Temperature::from_celsius(number(item, "seedlings_from", "C", of_file));
  rule.least_cool_days = item.integer("least_cool_days", 0, 365);
  item.finish();
  return rule;
}

Target read_target_object(const JsonObject& object, const std::string& file) {
  Target target;
  static_cast<FileHead&>(target) = read_head(object, file, "soilclock-target/1");
  static_cast<FileGrounds&>(target) = read_file_grounds(object);
  target.code = read_eppo_code(object, "id");
  target.names = object.texts("names");
  for (const std::string& name : target.names) {
    if (name != lowered(name))
      object.refuse("names", "names are written in lower case", "'" + lowered(name) + "'");
  }
  target.season =
      object.choice("season", {"fall", "summer"}) == "fall" ? SeasonKind::fall : SeasonKind::summer;
  target.members = read_members(object, target.basis);
  target.no_members_because = object.optional_text("no_members_because").value_or("");
  if (target.members.empty() == target.no_members_because.empty()) {
    object.refuse(target.members.empty() ? "members" : "no_members_because",
                  target.members.empty() ? "no member is given" : "members are given all the same",
                  "members, or a text no_members_because instead");
  }
  target.cross_checks = object.optional_texts("cross_checks");
  target.growth = read_words(object, "growth");
  target.soil_depth = Depth::from_cm(number(object, "soil_depth", "cm", target.basis));
  if (const auto item = object.optional_object("single_window"))
    target.single_window = read_single_window(*item, target.basis);
  target.spread_equatorward_of_deg = object.optional_number("spread_equatorward_of_latitude", 0.0, 90.0);
  object.finish();
  return target;
}

}  // namespace

Result<Target> read_target(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request,
                   [&](const JsonObject& object) { return read_target_object(object, file); });
}

}  // namespace soilclock::emergence
