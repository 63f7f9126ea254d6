// SPDX-License-Identifier: MIT
// What a site means to put down and which groups no longer work there: in the site file and with --plan.
#include <catch2/catch.hpp>

#include "app/site_requests.hpp"
#include "site/site_plan.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// One site with these further keys: R"("plan":{...})".
std::string site_with(const std::string& keys) {
  return R"([{"id":"a","latitude":35.6,"longitude":-83.1,"turf":{"irrigated":true},)" +
         std::string{R"("weather":[{"file":"c.csv"}],)"} + keys + "}]";
}

Site read_one(const std::string& keys) {
  const auto sites = read_sites(site_with(keys), "sites.json", "");
  if (!sites) FAIL(describe(sites.error()));
  return sites->front();
}

/// The first demo course with these keys added, answered on October 15, 2026 for annual bluegrass alone.
class DemoCourse {
 public:
  DemoCourse() {
    desk_.sample("copper_heron.csv");
    site_ = {{"id", "copper-heron"},
             {"latitude", 35.6},
             {"longitude", -83.1},
             {"time_zone", "America/New_York"},
             {"turf", {{"species", "hybrid bermudagrass"}, {"irrigated", true}}},
             {"weather", {{{"file", "copper_heron.csv"}}}}};
  }
  Run run(const Json& keys, std::vector<std::string> more = {}) const {
    Json site = site_;
    site.update(keys);
    return desk_.run(
        joined({"advise", "--sites", desk_.file("courses.json", Json::array({site}).dump())}, more));
  }
  /// The target's part of the JSON answer.
  Json target(const Json& keys, std::vector<std::string> more = {}) const {
    const Run answer = run(keys, joined({"--format", "json"}, more));
    INFO(answer.err);
    REQUIRE(answer.code == 0);
    return answer.json().at("sites")[0].at("targets")[0];
  }
  /// Middle of the expected control of the best week.
  double best_control(const Json& keys) const {
    double best = 0.0;
    const Json answer = target(keys);
    for (const Json& week : answer.at("weeks")) {
      for (const auto& [kind, control] : week.at("expected_control").items()) {
        if (week.at("allowed").at(kind) == true) best = std::max(best, control.get<double>());
      }
    }
    return best;
  }

 private:
  Desk desk_;
  Json site_;
};

const DemoCourse& course() {
  static const DemoCourse one;
  return one;
}

Json actives(const std::vector<std::string>& names) { return {{"plan", {{"actives", names}}}}; }

}  // namespace

TEST_CASE("a plan in the site file is read as actives and groups, or as weeks and the kind of post") {
  const Site named = read_one(R"("plan":{"actives":["prodiamine","simazine"],"groups":[9]})");
  REQUIRE(named.plan.entries.size() == 3);
  CHECK(named.plan.entries[0].text == "prodiamine");
  CHECK(named.plan.entries[1].where.json_pointer == "/0/plan/actives/1");
  CHECK(named.plan.entries[2].text == "9");
  const Site kinds = read_one(R"("plan":{"residual_weeks":16,"foliar":"contact"})");
  CHECK(kinds.plan.residual_weeks == 16.0);
  CHECK(kinds.plan.foliar == treatment::FoliarClass::contact);
  CHECK(read_one(R"("plan":{"residual_weeks":0})").plan.residual_weeks == 0.0);
  CHECK(!read_one(R"("plan":{"foliar":"none"})").plan.residual_weeks);
  CHECK(read_one(R"("plan":null)").plan.entries.empty());
}

TEST_CASE("resistance in the site file is a share, or a test without one") {
  const auto known =
      read_one(R"("resistance":[{"group":9,"tested":true,"share":0.4},{"group":2,"tested":true},)"
               R"({"group":3,"tested":false},{"group":7,"share":0.1}])");
  REQUIRE(known.resistance.size() == 4);
  const auto catalogue = app::load_models({}, {});
  REQUIRE(catalogue);
  const auto shares = resistant_shares(known.resistance, catalogue->practice);
  CHECK(shares.at(9).value() == Approx(0.4));
  CHECK(shares.at(2) == catalogue->practice.resistant_by_test);
  CHECK(shares.at(2).value() == 1.0);
  CHECK(shares.at(3).value() == 0.0);
  CHECK(shares.at(5).value() == Approx(0.1));  // 7 is the old number of 5
}

TEST_CASE("a wrong plan or resistance is refused at its place") {
  struct Slip {
    std::string keys;
    std::string place;
    std::string said;
  };
  const Slip slip = GENERATE(values<Slip>({
      {R"("plan":{"actives":["prodiamine"],"foliar":"contact"})", "/0/plan/foliar", "not both"},
      {R"("plan":{"groups":[3],"residual_weeks":8})", "/0/plan/residual_weeks", "not both"},
      {R"("plan":{"residual_weeks":53})", "/0/plan/residual_weeks", "0 to 52"},
      {R"("plan":{"residual_weeks":"16"})", "/0/plan/residual_weeks", "a number"},
      {R"("plan":{"foliar":"contct"})", "/0/plan/foliar", "did you mean 'contact'?"},
      {R"("plan":{"groups":[35]})", "/0/plan/groups", "0 to 34"},
      {R"("plan":{"groups":[3.5]})", "/0/plan/groups", "0 to 34"},
      {R"("plan":{"active":["prodiamine"]})", "/0/plan/active", "did you mean 'actives'?"},
      {R"("plan":{})", "/0/plan", "the plan is empty"},
      {R"("resistance":[{"group":9}])", "/0/resistance/0", "neither a test nor a share"},
      {R"("resistance":[{"group":9,"share":40}])", "/0/resistance/0/share", "0 to 1"},
      {R"("resistance":[{"group":9,"tested":false,"share":0.4}])", "/0/resistance/0/share", "found none"},
      {R"("resistance":[{"group":9,"share":0.4},{"group":9,"tested":true}])", "/0/resistance/1/group",
       "twice"},
      {R"("resistance":[{"group":"nine","share":0.4}])", "/0/resistance/0/group", "a number"},
  }));
  const auto sites = read_sites(site_with(slip.keys), "sites.json", "");
  REQUIRE(!sites);
  CAPTURE(slip.keys, describe(sites.error()));
  CHECK(sites.error().where.json_pointer == slip.place);
  CHECK(holds(describe(sites.error()), slip.said));
}

TEST_CASE("an active nobody knows is refused at its place with the nearest name") {
  const Run run = course().run(actives({"prodiamine", "simazin"}));
  CHECK(run.code == 2);
  CHECK(run.problems() == 1);
  for (const char* part : {"courses.json at /0/plan/actives/1", "'simazin'", "did you mean 'simazine'?"})
    CHECK(holds(run.err, part));
}

TEST_CASE("the words of --plan are read in the ways people write them") {
  const auto names = [](const std::string& text) {
    const auto plan = parse_plan(text);
    if (!plan) FAIL(describe(plan.error()));
    std::vector<std::string> words;
    for (const auto& entry : plan->entries) words.push_back(entry.text);
    return words;
  };
  using Words = std::vector<std::string>;
  CHECK(names("prodiamine + simazine") == Words{"prodiamine", "simazine"});
  CHECK(names("Prodiamine and Simazine") == Words{"prodiamine", "simazine"});
  CHECK(names(" 3, 5") == Words{"3", "5"});
  CHECK(names("group 3+s-metolachlor") == Words{"group 3", "s-metolachlor"});
  for (const std::string text : {"16 weeks, contact", "contact,16w", "16-week residual + contact post"}) {
    const auto plan = parse_plan(text);
    CAPTURE(text);
    REQUIRE(plan);
    CHECK(plan->residual_weeks == 16.0);
    CHECK(plan->foliar == treatment::FoliarClass::contact);
    CHECK(plan->entries.empty());
  }
  CHECK(parse_plan("8 weeks, none")->foliar == treatment::FoliarClass::none);
  CHECK(parse_plan("8 weeks, no post")->foliar == treatment::FoliarClass::none);
  CHECK(parse_plan("no residual, translocated")->residual_weeks == 0.0);
  CHECK(!parse_plan("8 weeks")->foliar);
}

TEST_CASE("a --plan that cannot be meant is refused, and what is accepted is said") {
  const auto refused = [](const std::string& plan, const std::string& said) {
    const Run run = course().run(Json::object(), {"--plan", plan});
    CAPTURE(plan, run.err);
    CHECK(run.code == 2);
    CHECK(run.problems() == 1);
    CHECK(holds(run.err, "--plan"));
    CHECK(holds(run.err, said));
    CHECK(run.out.empty());
  };
  refused("prodiamin", "did you mean 'prodiamine'?");
  refused("16 weeks, contct", "did you mean");
  refused("prodiamine, 16 weeks", "cannot stand beside");
  refused("8 weeks, 16 weeks", "twice");
  refused("contact, translocated", "twice");
  refused("60 weeks, contact", "0 to 52");
  refused("prodiamine +", "empty");
  refused("99", "0 to 34");
  refused("3 5", "\"3, 5\"");
  refused("none", "16 weeks, none");
  const Run elsewhere = Desk{}.run({"soil", "--weather", "c.csv", "--plan", "3"});
  CHECK(elsewhere.code == 2);
  CHECK(holds(elsewhere.err, "'--plan' is not an option of soilclock soil"));
}

TEST_CASE("an answer is for the plan of the site, and --plan stands above it") {
  const Json none = course().target(Json::object());
  CHECK(none.at("plan").at("given") == false);
  const Json planned = course().target(actives({"prodiamine", "simazine"}));
  CHECK(planned.at("plan").at("given") == true);
  CHECK(planned.at("plan").at("entries") == Json{"prodiamine", "simazine"});
  const Json by_option = course().target(actives({"prodiamine", "simazine"}), {"--plan", "8 weeks, none"});
  CHECK(by_option.at("plan").at("entries").empty());
  CHECK(by_option.at("plan").at("has_foliar") == false);
  CHECK(by_option.at("plan").at("residual_weeks").at("most") == 8.0);
  const Run text = course().run(actives({"prodiamine", "simazine"}));
  CHECK(holds(text.out, "prodiamine + simazine"));
}

TEST_CASE("resistance to a group of the plan lowers its control, and to another group does not") {
  const auto with = [](const Json& resistance) {
    Json keys = actives({"prodiamine", "foramsulfuron"});
    keys["resistance"] = resistance;
    return course().best_control(keys);
  };
  const double sound = with(Json::array());
  const double some = with({{{"group", 2}, {"tested", true}, {"share", 0.4}}});
  const double all = with({{{"group", 2}, {"tested", true}}});
  CHECK(some < sound);
  CHECK(all < some);
  CHECK(with({{{"group", 2}, {"tested", false}}}) == sound);
  CHECK(with({{{"group", 9}, {"tested", true}}}) == sound);
}

TEST_CASE("three effective groups are above two, and two above one") {
  const double one = course().best_control(actives({"foramsulfuron"}));
  const double two = course().best_control(actives({"foramsulfuron", "prodiamine"}));
  const double three = course().best_control(actives({"foramsulfuron", "prodiamine", "simazine"}));
  CHECK(two > one);
  CHECK(three > two);
}
