// SPDX-License-Identifier: MIT
#include "treatment/kill_matrix.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace soilclock::treatment {

namespace {

constexpr std::array<StageClass, stage_count> all_stages{
    StageClass::leaves_1_3, StageClass::to_one_tiller, StageClass::two_tillers,
    StageClass::three_to_five_tillers, StageClass::older};
constexpr std::array<FoliarPartner, partner_count> all_partners{
    FoliarPartner::contact, FoliarPartner::translocated, FoliarPartner::mixture,
    FoliarPartner::non_selective};

void read_limits(const JsonObject& top, StageLimits& limits) {
  const JsonObject object = top.object("stage_limits");
  double before = 0.0;
  for (std::size_t i = 0; i + 1 < stage_count; ++i) {
    const std::string key{name(all_stages[i])};
    limits.phyllochrons[i] = read_cited(object, key, "phyllochrons", 0, 100).value;
    if (limits.phyllochrons[i] <= before) object.refuse(key, "stage limits must rise with age");
    before = limits.phyllochrons[i];
  }
  object.finish();
}

void read_row(const JsonObject& kills, FoliarPartner partner, KillMatrix& matrix) {
  const auto row = static_cast<std::size_t>(partner);
  const JsonObject object = kills.object(name(partner));
  double younger = 1.0;
  for (std::size_t i = 0; i < stage_count; ++i) {
    const std::string key{name(all_stages[i])};
    const CitedValue cited = read_cited(object, key, "%", 0, 100);
    matrix.kill[row][i] = Fraction::from_percent(cited.value);
    matrix.grounds[row][i] = cited.grounds;
    if (matrix.kill[row][i].value() > younger) {
      object.refuse(key, "an older stage cannot be killed better than a younger one");
    }
    younger = matrix.kill[row][i].value();
  }
  object.finish();
}

WarmthRule read_warmth(const JsonObject& object) {
  WarmthRule rule;
  rule.least = read_cited(object, "least", "share", 0, 1).value;
  rule.from = Temperature::from_celsius(read_cited(object, "from", "C", -10, 30).value);
  rule.span = TemperatureDelta::from_kelvin(read_cited(object, "span", "K", 0.1, 30).value);
  rule.days = static_cast<int>(read_cited(object, "days", "d", 1, 14).value);
  object.finish();
  return rule;
}

void read_resistance(const JsonObject& top, KillMatrix& matrix) {
  for (const JsonObject& item : top.objects("collections_resistant")) {
    const int group = item.integer("group", 0, 40);
    if (!matrix.collections_resistant.emplace(group, read_cited(item, "share", "%", 0, 100)).second) {
      item.refuse("group", "this group is listed twice");
    }
    item.finish();
  }
}

}  // namespace

std::string_view name(FoliarPartner partner) {
  switch (partner) {
    case FoliarPartner::contact:
      return "contact";
    case FoliarPartner::translocated:
      return "translocated";
    case FoliarPartner::mixture:
      return "mixture";
    case FoliarPartner::non_selective:
      break;
  }
  return "non_selective";
}

double warmth_factor(Temperature mean_maximum, const WarmthRule& rule) {
  const double share = (mean_maximum - rule.from).kelvin() / rule.span.kelvin();
  return rule.least + (1.0 - rule.least) * std::clamp(share, 0.0, 1.0);
}

Result<KillMatrix> read_kill_matrix(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [](const JsonObject& top) {
    read_file_head(top, "soilclock-kill-matrix/1");
    KillMatrix matrix;
    read_limits(top, matrix.limits);
    const JsonObject kills = top.object("kill");
    for (const FoliarPartner partner : all_partners) read_row(kills, partner, matrix);
    kills.finish();
    matrix.young_seedlings = Fraction::from_percent(read_cited(top, "young_seedlings", "%", 0, 100).value);
    matrix.young_up_to_days = static_cast<int>(read_cited(top, "young_up_to", "d", 0, 30).value);
    matrix.cap = Fraction::from_percent(read_cited(top, "cap", "%", 0, 100).value);
    if (const auto warmth = top.optional_object("warmth")) matrix.warmth = read_warmth(*warmth);
    read_resistance(top, matrix);
    top.finish();
    return matrix;
  });
}

Fraction resistant_to_all(std::span<const int> groups, const std::map<int, Fraction>& resistant_share) {
  Fraction least = Fraction::of(1.0);
  for (const int group : groups) {
    const auto known = resistant_share.find(group);
    least = std::min(least, known == resistant_share.end() ? Fraction{} : known->second);
  }
  return least;
}

Fraction failing(Fraction failure, Fraction resistant) {
  return Fraction::of(1.0 - (1.0 - failure.value()) * (1.0 - resistant.value()));
}

}  // namespace soilclock::treatment
