// SPDX-License-Identifier: MIT
// What the document of advise holds beside the decision: who and where, past seasons, notes, models, the
// wind.
#include <catch2/catch.hpp>

#include <map>
#include <set>

#include "support/fetch_answers.hpp"
#include "support/service_records.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

Json site_of(const Run& run) {
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  return run.json().at("sites")[0];
}

/// A course of the samples as a site file.
std::string course_file(const Desk& desk, const std::string& more) {
  return desk.file("site.json",
                   exchanged(site_line("heron", desk.sample("copper_heron.csv")), "{", "{" + more));
}

Run advised(const Desk& desk, const std::string& sites, const std::vector<std::string>& more = {}) {
  return desk.run(joined({"advise", "--sites", sites, "--on", "2026-10-15", "--format", "json"}, more));
}

Day day_of(const Json& value) { return *parse_iso_day(value.get<std::string>()); }

}  // namespace

TEST_CASE("an answer says the site's time zone and group, its run, the program and the data's age") {
  const Desk desk;
  const Run run =
      advised(desk, course_file(desk, R"("group":"north route","time_zone":"America/New_York",)"));
  const Json site = site_of(run);
  CHECK(holds(desk.run({"--version"}).out,
              "soilclock " + run.json().at("program").get<std::string>() + ", models "));
  CHECK(site.at("facts").at("group") == "north route");
  CHECK(site.at("facts").at("time_zone") == "America/New_York");
  CHECK(site.at("settings") == Json{{"members", 400}, {"seed", 1}, {"band_level", 0.8}});
  CHECK(site.at("weather").at("fetched_at").is_null());
  for (const Json& day : site.at("week_ahead")) {
    CHECK(day.at("wind_m_s").is_null());  // a daily file has no hours
    CHECK(day.at("usable_hours").is_null());
  }
  const Json quiet = site_of(advised(desk, course_file(desk, "")));
  CHECK(quiet.at("facts").at("group").is_null());
  CHECK(quiet.at("facts").at("time_zone").is_null());
}

TEST_CASE("past seasons come when they are asked for, and change nothing else") {
  const Desk desk;
  const std::string sites = course_file(desk, R"("targets":["POAAN","DIGIS"],)");
  Json without = site_of(advised(desk, sites));
  Json with = site_of(advised(desk, sites, {"--past-seasons"}));
  for (std::size_t i = 0; i < 2; ++i) {
    Json& target = with.at("targets")[i];
    CAPTURE(target.at("target"));
    const bool fall = target.at("target") == "POAAN";
    // The record begins on June 1, 2014.
    REQUIRE(target.at("past_seasons").size() == (fall ? 12 : 11));
    std::vector<int> half_up_days;
    for (const Json& past : target.at("past_seasons")) {
      const Day start = day_of(past.at("season_start"));
      CHECK(civil(start).month == (fall ? 6 : 1));
      const Day half_up = day_of(past.at("half_up"));
      half_up_days.push_back(static_cast<int>((half_up - start).count()));
      for (const Json& point : past.at("weekly")) {
        const double percent = point.at("percent").get<double>();
        if (day_of(point.at("date")) + Days{5} < half_up) CHECK(percent < 50.0);
        if (day_of(point.at("date")) > half_up + Days{5}) CHECK(percent > 50.0);
      }
    }
    std::sort(half_up_days.begin(), half_up_days.end());
    const Json& usual = target.at("usual");
    CHECK(usual.at("seasons") == half_up_days.size());
    const int middle = usual.at("half_up_day").get<int>();
    CHECK(middle >= half_up_days[(half_up_days.size() - 1) / 2]);
    CHECK(middle <= half_up_days[half_up_days.size() / 2]);
    std::string half;
    for (const Json& milestone : target.at("milestones"))
      if (milestone.at("percent") == 50) half = milestone.at("date").get<std::string>();
    CHECK(usual.at("days_against_usual") == (*parse_iso_day(half) - day_of(usual.at("half_up"))).count());
    CHECK(without.at("targets")[i].at("usual").is_null());
    CHECK(without.at("targets")[i].at("past_seasons").empty());
    target["usual"] = nullptr;
    target["past_seasons"] = Json::array();
  }
  CHECK(with == without);
}

TEST_CASE("a model without weight is named with its reason, in the document and in the details") {
  const Desk desk;
  // Further south than the calendar's area and the belt over which it fades.
  const std::string line = exchanged(site_line("heron", desk.sample("copper_heron.csv")), "35.6", "32.6");
  const std::string sites = desk.file("site.json", line);
  const Run run = advised(desk, sites);
  std::map<std::string, Json> models;
  const Json site = site_of(run);
  for (const Json& model : site.at("targets")[0].at("models")) models[model.at("id")] = model;
  REQUIRE(models.size() == 4);
  const Json& calendar = models.at("POAAN_calendar_maryland");
  CHECK(calendar.at("weight") == 0.0);
  CHECK(calendar.at("why") == "the site lies outside the area it was made for");
  std::set<std::string> cited;
  const Json document = run.json();
  for (const Json& source : document.at("sources")) cited.insert(source.at("id"));
  for (const auto& [id, model] : models) {
    CHECK(!model.at("sources").empty());
    for (const Json& source : model.at("sources")) CHECK(cited.contains(source));
  }
  const std::string details = desk.run({"advise", "--sites", sites, "--on", "2026-10-15", "--details"}).out;
  CHECK(holds(details, "calendar of Maryland: no weight"));
}

TEST_CASE("rules of thumb say their level, depth and days") {
  const Desk desk;
  std::map<std::string, Json> rules;
  const Json site = site_of(advised(desk, course_file(desk, "")));
  for (const Json& rule : site.at("targets")[0].at("rules_of_thumb")) rules[rule.at("id")] = rule;
  const Json& fall = rules.at("fall-70f");  // config/practice.json
  CHECK(fall.at("side") == "below");
  CHECK(fall.at("level_c").get<double>() == Approx((70.0 - 32.0) / 1.8).margin(0.1));
  CHECK(fall.at("depth_cm") == 5.0);
  CHECK(fall.at("days").get<int>() >= 1);
}

TEST_CASE("what was noted comes back with the answer it moved") {
  const Desk desk;
  const std::string sites = course_file(desk, R"("units":"us",)");
  const auto note = [&](std::vector<std::string> words) {
    REQUIRE(desk.run(joined({"log", "add"}, joined(std::move(words), {"--site", "heron"}))).code == 0);
  };
  note({"application", "--date", "2026-09-08", "--active", "prodiamine", "--purpose", "pre"});
  note({"reading", "--date", "2026-10-15", "--time", "06:10", "--depth", "2in", "--temperature", "62F"});
  note({"reading", "--date", "2025-10-15", "--time", "06:10", "--depth", "2in", "--temperature", "62F"});
  note({"first-seen", "--date", "2026-09-01", "--target", "DIGIS"});
  const Json notes = site_of(advised(desk, sites)).at("targets")[0].at("notes");
  CHECK(notes == Json{{{"date", "2026-09-08"}, {"kind", "application"}, {"text", "pre, prodiamine (3)"}},
                      {{"date", "2026-10-15"}, {"kind", "reading"}, {"text", "62.0 F at 06:10, 2 in"}}});
  const auto rows =
      csv_rows(desk.run({"season", "--sites", sites, "--on", "2026-10-15", "--format", "csv"}).out);
  REQUIRE(rows.size() == 366);
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(rows[0].begin(), rows[0].end(), name) - rows[0].begin());
  };
  const std::vector<std::string> first(rows[0].begin(), rows[0].begin() + 11);
  CHECK(first == std::vector<std::string>{"site", "target", "date", "origin", "soil_5cm_c", "rain_mm",
                                          "emerged_percent", "low", "high", "juvenile_percent",
                                          "weather_credits"});
  REQUIRE(rows[0].size() == 20);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    CHECK(rows[i][column("residual_left_percent")].empty() == (rows[i][2] < "2026-09-08"));
    CHECK(std::stod(rows[i][column("young_percent")]) <= 100.0);
    CHECK(std::stod(rows[i][column("soil_low_c")]) <= std::stod(rows[i][column("soil_high_c")]));
  }
}

TEST_CASE("a fetched answer says when it was given, and its hours bring the wind", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2025, 6, 1), make_day(2026, 10, 25), 0, true));
  REQUIRE(desk.run(one_course_fetch(desk, {"--saved", saved, "--saved-on", "2026-10-14"}, false)).code == 0);
  const Json site = site_of(
      desk.run({"advise", "--service", "open-meteo", "--latitude", "35.6", "--longitude", "-83.1", "--name",
                "course", "--service-settings", desk.settings, "--on", "2026-10-15", "--format", "json"}));
  CHECK(site.at("weather").at("fetched_at") == "2026-10-14T12:00:00Z");
  int windy = 0;
  for (const Json& day : site.at("week_ahead")) {
    if (day.at("wind_m_s").is_null()) continue;
    ++windy;
    CHECK(day.at("wind_m_s").get<double>() >= 2.0);  // 2 to 6 m/s in turn
    CHECK(day.at("wind_m_s").get<double>() <= 6.0);
    CHECK(day.at("usable_hours").is_number());
  }
  CHECK(windy >= 5);
}
