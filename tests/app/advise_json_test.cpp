// SPDX-License-Identifier: MIT
// The document of `advise`, which other programs read: its keys stay, its values have one type and a range.
#include <catch2/catch.hpp>

#include <set>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

void check_keys(const Json& json, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    CAPTURE(key);
    CHECK(json.contains(key));
  }
}

void check_date(const Json& value, bool may_be_null = true) {
  if (value.is_null()) {
    CHECK(may_be_null);
    return;
  }
  CAPTURE(value);
  CHECK(parse_iso_day(value.get<std::string>()));
}

void check_percent(const Json& value) {
  REQUIRE(value.is_number());
  CHECK(value.get<double>() >= 0.0);
  CHECK(value.get<double>() <= 100.0);
}

void check_percent_band(const Json& band) {
  for (const char* key : {"percent", "low", "high"}) check_percent(band.at(key));
  CHECK(band.at("low") <= band.at("percent"));
  CHECK(band.at("percent") <= band.at("high"));
}

/// Date, early and late in that order in time, as far as they are known.
void check_date_band(const Json& band) {
  for (const char* key : {"date", "early", "late"}) check_date(band.at(key));
  if (band.at("early").is_string() && band.at("date").is_string()) CHECK(band.at("early") <= band.at("date"));
  if (band.at("date").is_string() && band.at("late").is_string()) CHECK(band.at("date") <= band.at("late"));
}

void check_weeks(const Json& weeks) {
  std::string last;
  for (const Json& week : weeks) {
    check_date(week.at("week_of"), false);
    const Day monday = *parse_iso_day(week.at("week_of").get<std::string>());
    CHECK(monday == monday_of(monday));
    CHECK(last < week.at("week_of").get<std::string>());
    last = week.at("week_of").get<std::string>();
    for (const char* kind : {"pre", "pre+post", "post"}) {
      for (const char* part : {"reach", "low", "high"}) check_percent(week.at(part).at(kind));
      CHECK(week.at("low").at(kind) <= week.at("reach").at(kind));
      CHECK(week.at("reach").at(kind) <= week.at("high").at(kind));
    }
    CHECK((week.at("fit_days").is_null() || week.at("fit_days").is_number_integer()));
  }
}

void check_target(const Json& target) {
  CAPTURE(target.at("target"));
  check_keys(target, {"target", "season_start", "emerged", "juvenile_share", "stages", "models", "state",
                      "milestones", "main_wave_over", "windows", "weeks", "best", "reasons", "remarks"});
  check_date(target.at("season_start"), false);
  check_percent_band(target.at("emerged"));
  if (target.at("juvenile_share").at("percent").is_number()) check_percent_band(target.at("juvenile_share"));
  double whole = 0.0;
  for (const char* stage : {"leaves_1_3", "to_one_tiller", "two_tillers", "older"})
    whole += target.at("stages").at(stage).get<double>();
  CHECK((whole == Approx(1.0).margin(0.003) || whole == 0.0));
  double weights = 0.0;
  for (const Json& model : target.at("models")) {
    check_keys(model, {"id", "weight", "percent"});
    weights += model.at("weight").get<double>();
    check_percent(model.at("percent"));
  }
  CHECK(weights == Approx(1.0).margin(0.003));
  const std::set<std::string> states{"hold",           "pre",  "pre+post",        "post", "second-pre",
                                     "dormant-season", "stop", "no-single-window"};
  CHECK(states.count(target.at("state").get<std::string>()) == 1);
  std::vector<int> percents;
  for (const Json& milestone : target.at("milestones")) {
    percents.push_back(milestone.at("percent").get<int>());
    check_date_band(milestone);
  }
  CHECK(percents == std::vector<int>{5, 10, 25, 50, 80, 90});
  check_date_band(target.at("main_wave_over"));
  for (const Json& window : target.at("windows")) {
    CHECK(std::set<std::string>{"pre", "pre+post", "post"}.count(window.at("kind").get<std::string>()) == 1);
    check_date_band(window.at("opens"));
    check_date_band(window.at("closes"));
  }
  check_weeks(target.at("weeks"));
  if (target.at("best").is_object()) {
    check_keys(target.at("best"), {"week_of", "kind", "reach", "low", "cost_of_waiting_one_week"});
    check_date(target.at("best").at("week_of"), false);
    CHECK(target.at("best").at("low") <= target.at("best").at("reach"));
  }
  CHECK(!target.at("reasons").empty());
  for (const Json& remark : target.at("remarks")) check_keys(remark, {"code", "text"});
}

/// The shipped courses on a desk.
std::string demo_sites(const Desk& desk) {
  for (const char* name :
       {"copper_heron.csv", "copper_heron_forecast.csv", "copper_heron_probe.csv", "millrace_nine.csv",
        "millrace_nine_forecast.csv", "saltmarsh_bell.csv", "saltmarsh_bell_forecast.csv"}) {
    desk.sample(name);
  }
  std::string sites = source_text("config/demo_sites.json");
  for (auto at = sites.find("../weather_samples/"); at != std::string::npos;
       at = sites.find("../weather_samples/")) {
    sites.erase(at, std::string{"../weather_samples/"}.size());
  }
  return desk.file("demo_sites.json", sites);
}

}  // namespace

TEST_CASE("the document of advise has its keys, types and ranges for the shipped courses") {
  const Desk desk;
  const Run run = desk.run({"advise", "--sites", demo_sites(desk), "--on", "2026-10-15", "--format", "json"});
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  CHECK(run.err.empty());
  const Json answer = run.json();
  CHECK(answer.at("format") == "soilclock-advice");
  CHECK(answer.at("version") == 1);
  CHECK(answer.at("on") == "2026-10-15");
  CHECK(!answer.at("sources").empty());
  CHECK(!answer.at("cautions").empty());
  REQUIRE(answer.at("sites").size() == 3);
  CHECK(answer.at("sites")[0].at("site") == "copper-heron");
  CHECK(answer.at("sites")[2].at("site") == "saltmarsh-bell");
  for (const Json& site : answer.at("sites")) {
    check_keys(site, {"site", "name", "latitude", "longitude", "weather", "soil", "targets", "problems"});
    CHECK(site.at("latitude").is_number());
    const Json& weather = site.at("weather");
    check_date(weather.at("first"), false);
    CHECK(weather.at("last_measured") == "2026-10-14");
    CHECK(weather.at("last_forecast") == "2026-10-24");
    CHECK(weather.at("missing_days").is_number_integer());
    CHECK(weather.at("filled_days").get<int>() > 0);
    CHECK(site.at("soil").at("depth_cm") == 5.0);
    CHECK(std::set<std::string>{"estimated", "measured", "mixed"}.count(
              site.at("soil").at("origin").get<std::string>()) == 1);
    CHECK(site.at("soil").at("mean_7d_c").is_number());
    CHECK(site.at("soil").at("error_c").get<double>() > 0.0);
    CHECK(site.at("problems").empty());
    REQUIRE(site.at("targets").size() == 2);
    CHECK(site.at("targets")[0].at("target") == "POAAN");
    CHECK(site.at("targets")[1].at("target") == "DIGIS");
    for (const Json& target : site.at("targets")) check_target(target);
  }
}

TEST_CASE("the table of advise is one row a site and target, with the same numbers as the document") {
  const Desk desk;
  const std::string sites = demo_sites(desk);
  const Run table = desk.run({"advise", "--sites", sites, "--only", "millrace-nine", "--format", "csv"});
  const Json site = desk.run({"advise", "--sites", sites, "--only", "millrace-nine", "--format", "json"})
                        .json()
                        .at("sites")[0];
  REQUIRE(table.code == 0);
  const auto rows = csv_rows(table.out);
  REQUIRE(rows.size() == 3);
  for (const auto& row : rows) CHECK(row.size() == rows.front().size());
  const auto cell = [&](std::size_t row, const std::string& column) {
    const auto at = std::find(rows[0].begin(), rows[0].end(), column);
    REQUIRE(at != rows[0].end());
    return rows[row][static_cast<std::size_t>(at - rows[0].begin())];
  };
  for (const std::size_t row : {1U, 2U}) {
    const Json& target = site.at("targets")[row - 1];
    CHECK(cell(row, "site") == "millrace-nine");
    CHECK(cell(row, "target") == target.at("target"));
    CHECK(cell(row, "state") == target.at("state"));
    CHECK(std::stod(cell(row, "emerged_percent")) ==
          Approx(target.at("emerged").at("percent").get<double>()));
    CHECK(cell(row, "problem").empty());
    if (target.at("best").is_object()) {
      CHECK(cell(row, "best_week") == target.at("best").at("week_of"));
      CHECK(cell(row, "best_kind") == target.at("best").at("kind"));
      CHECK(std::stod(cell(row, "best_low")) == Approx(target.at("best").at("low").get<double>()));
    }
  }
}

TEST_CASE("the text speaks the units asked for, and the document stays in Celsius") {
  const Desk desk;
  const std::string sites = demo_sites(desk);
  const Run us = desk.run({"advise", "--sites", sites, "--only", "copper-heron"});
  const Run metric = desk.run({"advise", "--sites", sites, "--only", "copper-heron", "--units", "metric"});
  CHECK(holds(us.out, " F over seven days"));
  CHECK(!holds(us.out, " C over seven days"));
  CHECK(holds(metric.out, " C over seven days"));
  CHECK(!holds(metric.out, " F over seven days"));
  const auto document = [&](const std::string& units) {
    return desk
        .run({"advise", "--sites", sites, "--only", "copper-heron", "--format", "json", "--units", units})
        .json()
        .at("sites")[0]
        .at("soil");
  };
  CHECK(document("us") == document("metric"));
  // Seasons of sites with their own units are each in their own.
  const std::string own = desk.file(
      "own.json", "[" + exchanged(site_line("m", "copper_heron.csv"), "{", R"({"units":"metric",)") + "," +
                      exchanged(site_line("u", "copper_heron.csv"), "{", R"({"units":"us",)") + "]");
  const Run season = desk.run({"season", "--sites", own});
  CHECK(holds(season.out, "soil C"));
  CHECK(holds(season.out, "soil F"));
}

TEST_CASE("the same question gets the same answer, whatever stands beside it") {
  const Desk desk;
  const std::string sites = demo_sites(desk);
  const Json all = desk.run({"advise", "--sites", sites, "--format", "json"}).json();
  const Json one =
      desk.run({"advise", "--sites", sites, "--format", "json", "--only", "saltmarsh-bell"}).json();
  CHECK(one.at("sites")[0] == all.at("sites")[2]);
  const Json turned = desk.run({"advise", "--sites", sites, "--format", "json", "--only", "saltmarsh-bell",
                                "--only", "copper-heron"})
                          .json();
  CHECK(turned.at("sites")[0] == all.at("sites")[2]);
  CHECK(turned.at("sites")[1] == all.at("sites")[0]);
}
