// SPDX-License-Identifier: MIT
#include "treatment/grass_control.hpp"

#include <algorithm>

#include "core/model_head.hpp"

namespace soilclock::treatment {

namespace {

KillRow read_row(const JsonObject& object) {
  KillRow row;
  row.name = object.text("name");
  row.actives = object.optional_texts("actives");
  row.sprays = object.has("sprays") ? object.integer("sprays", 1, 4) : 1;
  for (std::size_t i = 0; i < emergence::stage_count; ++i) {
    const Parameter cited = read_parameter(object, name(emergence::all_stages[i]), "%", {0, 100});
    row.kill[i] = Fraction::from_percent(cited.value);
    row.grounds[i] = cited.grounds;
  }
  object.finish();
  return row;
}

WarmthRule read_warmth(const JsonObject& object) {
  WarmthRule rule;
  rule.least = read_parameter(object, "least", "1", {0, 1}).value;
  rule.from = Temperature::from_celsius(read_parameter(object, "from", "C", {-10, 30}).value);
  rule.span = TemperatureDelta::from_kelvin(read_parameter(object, "span", "K", {0.1, 30}).value);
  rule.days = read_whole(object, "days", "d", {1, 14});
  object.finish();
  return rule;
}

void read_foliar(const JsonObject& object, GrassControl& control) {
  for (const JsonObject& item : object.objects("rows")) {
    KillRow row = read_row(item);
    if (control.row(row.name) != nullptr) item.refuse("name", "this row is there twice");
    control.rows.push_back(std::move(row));
  }
  control.unnamed_rows = object.texts("unnamed");
  const bool one_or_two = control.unnamed_rows.size() == 1 || control.unnamed_rows.size() == 2;
  if (!one_or_two) object.refuse("unnamed", "an unnamed partner is drawn from one or two rows");
  for (const std::string& name : control.unnamed_rows) {
    if (control.row(name) == nullptr) object.refuse("unnamed", "no row has the name " + name);
  }
  control.row_spread_points = read_parameter(object, "row_spread", "points", {0, 50}).value;
  control.foliar_failure_most = read_parameter(object, "failure_most", "1", {0, 1}).value;
  control.young_seedlings =
      Fraction::from_percent(read_parameter(object, "young_seedlings", "%", {0, 100}).value);
  control.young_up_to_days = read_whole(object, "young_up_to", "d", {0, 30});
  if (const auto warmth = object.optional_object("warmth")) control.warmth = read_warmth(*warmth);
  object.finish();
}

void read_greatest(const JsonObject& object, GrassControl& control) {
  control.greatest = read_span(object, "greatest", "%", {0, 100});
  for (const JsonObject& item : object.optional_objects("greatest_by_group")) {
    const int group = item.integer("group", 0, 40);
    if (!control.greatest_by_group.emplace(group, read_span(item, "share", "%", {0, 100})).second) {
      item.refuse("group", "this group is listed twice");
    }
    item.finish();
  }
  for (const JsonObject& item : object.optional_objects("greatest_by_active")) {
    const std::string active = item.text("active");
    if (!control.greatest_by_active.emplace(active, read_span(item, "share", "%", {0, 100})).second) {
      item.refuse("active", "this active is listed twice");
    }
    item.finish();
  }
}

void read_residual(const JsonObject& object, GrassControl& control) {
  control.unnamed_weeks = read_span(object, "unnamed_weeks", "weeks", {1, 52});
  for (const JsonObject& item : object.optional_objects("actives")) {
    control.residuals.push_back({item.text("active"), read_span(item, "weeks", "weeks", {0, 104})});
    item.finish();
  }
  read_greatest(object, control);
  control.failure_most_short = read_parameter(object, "failure_most_short", "1", {0, 1}).value;
  control.failure_most_long = read_parameter(object, "failure_most_long", "1", {0, 1}).value;
  control.short_weeks = read_parameter(object, "short", "weeks", {1, 52}).value;
  control.long_weeks = read_parameter(object, "long", "weeks", {1, 52}).value;
  if (control.long_weeks <= control.short_weeks) {
    object.refuse("long", "a long residual must last longer than a short one");
  }
  object.finish();
}

void read_resistance(const JsonObject& top, GrassControl& control) {
  for (const JsonObject& item : top.optional_objects("collections_resistant")) {
    const int group = item.integer("group", 0, 40);
    if (!control.collections_resistant.emplace(group, read_parameter(item, "share", "%", {0, 100})).second) {
      item.refuse("group", "this group is listed twice");
    }
    item.finish();
  }
}

}  // namespace

double warmth_factor(Temperature mean_maximum, const WarmthRule& rule) {
  const double share = (mean_maximum - rule.from).kelvin() / rule.span.kelvin();
  return rule.least + (1.0 - rule.least) * std::clamp(share, 0.0, 1.0);
}

const KillRow* GrassControl::row(std::string_view name) const {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const KillRow& known) { return known.name == name; });
  return found == rows.end() ? nullptr : &*found;
}

Result<GrassControl> read_grass_control(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    const FileHead head = read_head(top, file, "soilclock-grass-control/1");
    GrassControl control;
    control.id = head.id;
    control.title = head.title;
    control.targets = top.texts("targets");
    control.basis_in_short = top.text("basis_in_short");
    read_foliar(top.object("foliar"), control);
    read_residual(top.object("residual"), control);
    control.cap = Fraction::from_percent(read_parameter(top, "cap", "%", {0, 100}).value);
    read_resistance(top, control);
    top.finish();
    return control;
  });
}

}  // namespace soilclock::treatment
