// SPDX-License-Identifier: MIT
// The document of `advise`, which other programs read: its keys stay, its values have one type and a range.
#include <catch2/catch.hpp>

#include <map>
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

bool is_kind(const Json& value) {
  return value.is_string() &&
         std::set<std::string>{"pre", "pre+post", "post"}.count(value.get<std::string>()) == 1;
}

void check_monday(const Json& value) {
  check_date(value, false);
  const Day day = *parse_iso_day(value.get<std::string>());
  CHECK(day == monday_of(day));
}

void check_weeks(const Json& weeks) {
  std::string last;
  for (const Json& week : weeks) {
    check_monday(week.at("week_of"));
    CHECK(last < week.at("week_of").get<std::string>());
    last = week.at("week_of").get<std::string>();
    for (const char* kind : {"pre", "pre+post", "post"}) {
      for (const char* part : {"expected_control", "low", "high"}) check_percent(week.at(part).at(kind));
      CHECK(week.at("low").at(kind) <= week.at("expected_control").at(kind));
      CHECK(week.at("expected_control").at(kind) <= week.at("high").at(kind));
      CHECK(week.at("allowed").at(kind).is_boolean());
    }
    for (const Json& gate : week.at("gates"))
      check_keys(gate, {"reason", "stops", "residual", "foliar", "until"});
    CHECK((week.at("fit_days").is_null() || week.at("fit_days").is_number_integer()));
  }
}

/// Keys are always there; what they hold follows from the action.
void check_decision(const Json& decision) {
  check_keys(decision, {"headline", "lead", "action", "kind", "good_through", "then", "best_range", "late",
                        "close_call", "expected_control", "loss_if_wait_weeks", "gates", "next_look",
                        "second_pre", "urgency", "models_disagree"});
  const std::string action = decision.at("action").get<std::string>();
  CAPTURE(action);
  CHECK(std::set<std::string>{"treat", "any-week", "wait", "hold-after-treatment", "nothing-left",
                              "no-single-week", "scout", "no-answer"}
            .count(action) == 1);
  CHECK(!decision.at("headline").get<std::string>().empty());
  REQUIRE(decision.at("loss_if_wait_weeks").size() == 3);
  double before = 0.0;
  for (const Json& loss : decision.at("loss_if_wait_weeks")) {
    if (loss.is_null()) continue;
    CHECK(loss.get<double>() >= before);
    before = loss.get<double>();
  }
  if (action == "treat" || action == "any-week" || action == "wait") {
    CHECK(is_kind(decision.at("kind")));
    check_percent_band(decision.at("expected_control"));
    check_monday(decision.at("best_range").at("first"));
    check_monday(decision.at("best_range").at("last"));
    check_monday(decision.at("good_through"));
    CHECK(decision.at("best_range").at("first") <= decision.at("best_range").at("last"));
    CHECK(decision.at("best_range").at("last") <= decision.at("good_through"));
  }
  if (action == "wait") {
    for (const Json& loss : decision.at("loss_if_wait_weeks")) CHECK(loss.is_null());
  }
  if (action == "nothing-left") {
    CHECK(decision.at("kind").is_null());
    CHECK(decision.at("lead") == "");
  }
  if (decision.at("then").is_object()) {
    CHECK(is_kind(decision.at("then").at("kind")));
    check_monday(decision.at("then").at("from"));
  }
  if (decision.at("late").is_object()) check_percent_band(decision.at("late").at("expected_control"));
  if (decision.at("close_call").is_object()) check_monday(decision.at("close_call").at("week"));
  if (decision.at("next_look").is_object()) check_date(decision.at("next_look").at("date"), false);
}

void check_plans(const Json& target) {
  check_keys(target.at("plan"), {"given", "residual_weeks", "foliar", "entries"});
  CHECK(target.at("plan").at("given") == false);
  for (const Json& plan : target.at("other_plans")) {
    CHECK((plan.at("residual") == "short" || plan.at("residual") == "long"));
    CHECK((plan.at("foliar") == "contact" || plan.at("foliar") == "translocated"));
    check_keys(plan, {"kind", "best_range", "expected_control"});
  }
}

/// Keys of the first version, which nobody should find any more.
void check_old_keys_gone(const Json& target) {
  for (const char* key : {"reach", "best", "this_week", "first_of_all", "state", "treated_on", "kind"}) {
    CAPTURE(key);
    CHECK(!target.contains(key));
  }
  const std::string text = target.dump();
  for (const char* key : {"\"reach\"", "\"first_of_all\"", "\"this_week\"", "\"cost_of_waiting"})
    CHECK(!holds(text, key));
}

void check_target(const Json& target) {
  CAPTURE(target.at("target"));
  check_keys(target,
             {"target",  "season_start", "decision",       "emerged",    "juvenile_share", "stages",
              "models",  "milestones",   "main_wave_over", "windows",    "weeks",          "last_useful_week",
              "plan",    "other_plans",  "applied",        "by_percent", "urgency_rank",   "rules_of_thumb",
              "reasons", "brief",        "remarks"});
  check_old_keys_gone(target);
  check_decision(target.at("decision"));
  check_plans(target);
  check_date(target.at("season_start"), false);
  check_percent_band(target.at("emerged"));
  if (target.at("juvenile_share").at("percent").is_number()) check_percent_band(target.at("juvenile_share"));
  double whole = 0.0;
  for (const char* stage : {"leaves_1_3", "to_one_tiller", "two_tillers", "older"})
    whole += target.at("stages").at(stage).get<double>();
  CHECK((whole == Approx(1.0).margin(0.003) || whole == 0.0));
  double weights = 0.0;
  for (const Json& model : target.at("models")) {
    check_keys(model, {"id", "title", "weight", "percent", "sources", "why"});
    weights += model.at("weight").get<double>();
    const bool counts = model.at("weight").get<double>() > 0.0;
    CHECK(model.at("percent").is_number() == counts);
    CHECK(model.at("why").is_null() == counts);
    if (counts) check_percent(model.at("percent"));
  }
  CHECK(weights == Approx(1.0).margin(0.003));
  std::vector<int> percents;
  for (const Json& milestone : target.at("milestones")) {
    percents.push_back(milestone.at("percent").get<int>());
    check_date_band(milestone);
  }
  CHECK(percents == std::vector<int>{5, 10, 25, 50, 80, 90});
  check_date_band(target.at("main_wave_over"));
  for (const Json& window : target.at("windows")) {
    CHECK(is_kind(window.at("kind")));
    CHECK(window.at("by") == "percent emerged");
    check_date_band(window.at("opens"));
    check_date_band(window.at("closes"));
  }
  check_weeks(target.at("weeks"));
  for (const Json& line : target.at("brief")) check_keys(line, {"label", "text"});
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

/// A site's answer without its place among those it was asked with.
Json without_ranks(Json site) {
  for (Json& target : site.at("targets")) target.erase("urgency_rank");
  return site;
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
  CHECK(answer.at("version") == 2);
  CHECK(answer.at("on") == "2026-10-15");
  CHECK(!answer.at("sources").empty());
  CHECK(!answer.at("cautions").empty());
  REQUIRE(answer.at("sites").size() == 3);
  CHECK(answer.at("sites")[0].at("site") == "copper-heron");
  CHECK(answer.at("sites")[2].at("site") == "saltmarsh-bell");
  for (const Json& site : answer.at("sites")) {
    check_keys(site, {"site", "name", "latitude", "longitude", "facts", "priority_warning", "weather", "soil",
                      "turf", "week_ahead", "targets", "remarks", "problems"});
    check_keys(site.at("facts"), {"turf", "irrigated", "overseed_on", "elevation_m", "units"});
    CHECK(site.at("week_ahead").size() == 7);
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

TEST_CASE("ranks count the grasses that are still open over all sites, the most urgent first") {
  const Desk desk;
  const Json answer =
      desk.run({"advise", "--sites", demo_sites(desk), "--on", "2026-10-15", "--format", "json"}).json();
  std::map<int, double> urgency;
  int open = 0;
  for (const Json& site : answer.at("sites")) {
    for (const Json& target : site.at("targets")) {
      const bool left = target.at("decision").at("action") != "nothing-left";
      open += left ? 1 : 0;
      CHECK(target.at("urgency_rank").is_number_integer() == left);
      if (left) urgency[target.at("urgency_rank")] = target.at("decision").at("urgency");
    }
  }
  REQUIRE(open > 1);
  CHECK(urgency.size() == static_cast<std::size_t>(open));
  CHECK(urgency.begin()->first == 1);
  CHECK(urgency.rbegin()->first == open);
  double before = 100.0;
  for (const auto& [rank, points] : urgency) {
    CHECK(points <= before);
    before = points;
  }
}

TEST_CASE("a line of a site on standard input carries its rank as well") {
  const Desk desk;
  const std::string line = site_line("a", desk.sample("copper_heron.csv"));
  const Json answer = Json::parse(
      desk.run({"advise", "--sites", "-", "--on", "2026-10-15", "--format", "json"}, line + "\n").out);
  CHECK(answer.at("sites")[0].at("targets")[0].at("urgency_rank") == 1);
}

TEST_CASE("the text speaks the units asked for, and the document stays in Celsius") {
  const Desk desk;
  const std::string sites = demo_sites(desk);
  const Run us = desk.run({"advise", "--sites", sites, "--only", "copper-heron", "--details"});
  const Run metric =
      desk.run({"advise", "--sites", sites, "--only", "copper-heron", "--details", "--units", "metric"});
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
  CHECK(without_ranks(one.at("sites")[0]) == without_ranks(all.at("sites")[2]));
  const Json turned = desk.run({"advise", "--sites", sites, "--format", "json", "--only", "saltmarsh-bell",
                                "--only", "copper-heron"})
                          .json();
  CHECK(without_ranks(turned.at("sites")[0]) == without_ranks(all.at("sites")[2]));
  CHECK(without_ranks(turned.at("sites")[1]) == without_ranks(all.at("sites")[0]));
}
