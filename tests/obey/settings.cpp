// SPDX-License-Identifier: MIT
#include "obey/settings.hpp"

#include <fstream>
#include <sstream>

#include "core/json_reader.hpp"

namespace soilclock::obey {

namespace {

constexpr const char* settings_file = SOILCLOCK_SOURCE_DIR "/tests/obey/obey.json";

treatment::Kind read_kind(const JsonObject& object) {
  const std::string word = object.choice("kind", {"pre", "pre+post", "post"});
  for (const treatment::Kind kind : treatment::all_kinds) {
    if (treatment::name(kind) == word) return kind;
  }
  object.refuse("kind", "no such kind");
}

emergence::MonthDay read_day(const JsonObject& object) {
  return {static_cast<unsigned>(object.integer("month", 1, 12)),
          static_cast<unsigned>(object.integer("day", 1, 28))};
}

TargetSettings read_target(const JsonObject& object) {
  TargetSettings target;
  target.code = object.text("code");
  target.first_season = object.integer("first_season", 1900, 2100);
  target.last_season = object.integer("last_season", target.first_season, 2100);
  for (const double year : object.numbers("quick_seasons"))
    target.quick_seasons.push_back(static_cast<int>(year));
  const JsonObject judged = object.object("judged_on");
  target.judged_on = read_day(judged);
  judged.finish();
  const JsonObject fixed = object.object("fixed_rival");
  target.fixed_day = read_day(fixed);
  target.fixed_kind = read_kind(fixed);
  fixed.finish();
  const JsonObject soil = object.object("soil_rival");
  target.soil_rule = soil.text("rule");
  target.soil_kind = read_kind(soil);
  soil.finish();
  object.finish();
  return target;
}

Aims read_aims(const JsonObject& object) {
  Aims aims;
  aims.mean = object.number("mean", 0, 100);
  aims.p95 = object.number("p95", 0, 100);
  aims.worst = object.number("worst", 0, 100);
  aims.share_of_habits = object.number("share_of_habits", 0, 1);
  aims.above_own_week = object.number("above_own_week", 0, 100);
  aims.steps_over_one_week_percent = object.number("steps_over_one_week_percent", 0, 100);
  object.finish();
  return aims;
}

std::map<std::string, double> read_bars(const JsonObject& object,
                                        const std::vector<TargetSettings>& targets) {
  std::map<std::string, double> bars;
  for (const TargetSettings& target : targets) bars[target.code] = object.number(target.code, 0, 100);
  object.finish();
  return bars;
}

StepsSettings read_steps(const JsonObject& object) {
  StepsSettings steps{object.texts("stations"), object.integer("season", 1900, 2100),
                      object.number("near_normal_c", 0, 20)};
  object.finish();
  return steps;
}

Settings read_all(const JsonObject& top) {
  Settings settings;
  (void)top.choice("format", {"soilclock-obey/1"});
  (void)top.text("note");
  for (const JsonObject& target : top.objects("targets")) settings.targets.push_back(read_target(target));
  settings.record_from = top.integer("record_from", 1900, 2100);
  settings.one_year_season = top.integer("one_year_season", 1900, 2100);
  settings.quick_stations = top.texts("quick_stations");
  settings.steps = read_steps(top.object("steps"));
  settings.aims = read_aims(top.object("aims"));
  const JsonObject bars = top.object("bars");
  settings.quick_bars = read_bars(bars.object("quick"), settings.targets);
  settings.full_bars = read_bars(bars.object("full"), settings.targets);
  bars.finish();
  top.finish();
  return settings;
}

}  // namespace

Result<Settings> read_settings() {
  std::ifstream file{settings_file, std::ios::binary};
  std::ostringstream text;
  text << file.rdbuf();
  return read_json(text.str(), settings_file, Family::request, read_all);
}

}  // namespace soilclock::obey
