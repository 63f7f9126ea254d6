// SPDX-License-Identifier: MIT
#include "treatment/tank_plan.hpp"

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const GrassControl& grass(const std::string& id) {
  static std::map<std::string, GrassControl> read;
  const auto found = read.find(id);
  return found != read.end() ? found->second : read.emplace(id, shipped_control(id)).first->second;
}

TankPlan tank_plan_of(const std::vector<std::string>& entries) {
  TankPlan plan;
  for (const std::string& entry : entries)
    plan.entries.push_back(taken(read_plan_entry(entry, shipped_actives())));
  return plan;
}

TreatmentParts parts(const std::vector<std::string>& entries, const std::string& id,
                     const ResistantShares& resistant = {}) {
  return parts_of(tank_plan_of(entries), grass(id), resistant, shipped_actives());
}

bool same(const KillByStage& kill, const std::array<double, emergence::stage_count>& percent) {
  for (std::size_t i = 0; i < emergence::stage_count; ++i) {
    if (std::abs(kill[i].percent() - percent[i]) > 1e-9) return false;
  }
  return true;
}

/// The one row of the only foliar part.
const KillByStage& only_row(const TreatmentParts& parts) {
  REQUIRE(parts.foliar.size() == 1);
  REQUIRE(parts.foliar.front().rows.size() == 1);
  return parts.foliar.front().rows.front();
}

}  // namespace

TEST_CASE("a plan of nothing is one residual and one foliar partner nobody named") {
  CHECK(!TankPlan{}.given());
  const TreatmentParts bluegrass = parts({}, "annual_bluegrass");
  REQUIRE(bluegrass.foliar.size() == 1);
  CHECK(bluegrass.foliar.front().rows.size() == 2);  // contact or translocated
  REQUIRE(bluegrass.residual.size() == 1);
  CHECK(bluegrass.residual.front().weeks.least == 8);
  CHECK(bluegrass.residual.front().weeks.most == 16);
  CHECK(same(only_row(parts({}, "crabgrass")), {90, 80, 70, 65, 50}));
}

TEST_CASE("named actives have their own figures on the grass") {
  const TreatmentParts crabgrass = parts({"prodiamine", "fenoxaprop"}, "crabgrass");
  REQUIRE(crabgrass.residual.size() == 1);
  CHECK(crabgrass.residual.front().group == 3);
  CHECK(crabgrass.residual.front().weeks.least == 16);  // the file of the grass, not the list of actives
  CHECK(crabgrass.residual.front().weeks.most == 26);
  CHECK(crabgrass.foliar.front().group == 1);
  CHECK(same(only_row(crabgrass), {92, 90, 88, 81, 70}));
  CHECK(crabgrass.not_counted.empty());
  const TreatmentParts bluegrass = parts({"prodiamine"}, "annual_bluegrass");
  CHECK(bluegrass.residual.front().weeks.least == 12);  // from the list of actives
  CHECK(bluegrass.residual.front().weeks.most == 24);
  CHECK(bluegrass.foliar.empty());
}

TEST_CASE("one active may be both a residual and a foliar part") {
  const TreatmentParts both = parts({"flumioxazin"}, "annual_bluegrass");
  REQUIRE(both.residual.size() == 1);
  CHECK(both.residual.front().group == 14);
  CHECK(same(only_row(both), {95, 93, 90, 65, 50}));
}

TEST_CASE("an active without figures of its own has those of its class up to its oldest stage") {
  // Metribuzin: translocated, to one tiller.
  CHECK(same(only_row(parts({"metribuzin"}, "annual_bluegrass")), {95, 93, 0, 0, 0}));
  // Diquat: contact, to two tillers.
  CHECK(same(only_row(parts({"diquat"}, "annual_bluegrass")), {95, 93, 90, 0, 0}));
}

TEST_CASE("what nothing is known of on the grass is named and not counted") {
  const TreatmentParts summer = parts({"fenoxaprop", "prodiamine"}, "annual_bluegrass");
  CHECK(summer.foliar.empty());
  CHECK(summer.not_counted == std::vector<std::string>{"fenoxaprop"});
  const TreatmentParts foxtails = parts({"topramezone"}, "foxtails");
  CHECK(foxtails.foliar.empty());
  CHECK(foxtails.residual.empty());
  CHECK(foxtails.not_counted == std::vector<std::string>{"topramezone"});
}

TEST_CASE("a mixture with figures of its own stands for its actives") {
  const TreatmentParts both = parts({"triclopyr", "mesotrione"}, "crabgrass");
  CHECK(same(only_row(both), {95, 94, 93, 91, 85}));
  CHECK(both.not_counted.empty());
  CHECK(both.residual.size() == 1);  // mesotrione lasts three to five weeks
  // One of the two alone is itself.
  CHECK(same(only_row(parts({"mesotrione"}, "crabgrass")), {80, 75, 70, 66, 50}));
  // The residual of a mixture stays a residual.
  const TreatmentParts prodiamine = parts({"prodiamine", "mesotrione"}, "crabgrass");
  CHECK(same(only_row(prodiamine), {95, 95, 95, 80, 60}));
  CHECK(prodiamine.residual.size() == 2);
  // A further partner counts beside it.
  CHECK(parts({"triclopyr", "mesotrione", "fenoxaprop"}, "crabgrass").foliar.size() == 2);
}

TEST_CASE("figures that need more than one spray are named") {
  CHECK(parts({"topramezone"}, "goosegrass").more_sprays == std::vector<std::string>{"topramezone"});
  CHECK(parts({"foramsulfuron", "metribuzin"}, "goosegrass").more_sprays ==
        std::vector<std::string>{"foramsulfuron + metribuzin"});
  CHECK(parts({"fenoxaprop"}, "goosegrass").more_sprays.empty());
  CHECK(parts({"27"}, "goosegrass").more_sprays == std::vector<std::string>{"group 27"});
  CHECK(unnamed_parts(shipped_control("goosegrass")).more_sprays ==
        std::vector<std::string>{"an unnamed post"});
  CHECK(unnamed_parts(shipped_control()).more_sprays.empty());
}

TEST_CASE("actives of one group count once, with the better figure and the longer residual") {
  const TreatmentParts groups = parts({"pendimethalin", "prodiamine"}, "crabgrass");
  REQUIRE(groups.residual.size() == 1);
  CHECK(groups.residual.front().weeks.most == 26);
  CHECK(parts({"prodiamine", "pendimethalin"}, "crabgrass").residual.front().weeks.most == 26);
  // Simazine counts on older plants than atrazine.
  const TreatmentParts triazines = parts({"atrazine", "simazine"}, "annual_bluegrass");
  CHECK(same(only_row(triazines), {95, 93, 91, 89, 87}));
  CHECK(same(only_row(parts({"mesotrione", "topramezone"}, "crabgrass")), {80, 75, 70, 66, 50}));
}

TEST_CASE("the greatest effect of a residual is that of the active, else of its group, else of the grass") {
  const auto greatest = [](const std::string& active) {
    return parts({active}, "goosegrass").residual.front().greatest;
  };
  CHECK(greatest("oxadiazon").least == 92);
  CHECK(greatest("indaziflam").least == 88);
  CHECK(greatest("prodiamine").least == 50);
  GrassControl changed = grass("goosegrass");
  changed.greatest_by_group[3] = {70, 80, {}};
  const auto by_group = parts_of(tank_plan_of({"prodiamine"}), changed, {}, shipped_actives());
  CHECK(by_group.residual.front().greatest.most == 80);
}

TEST_CASE("bare groups count as what most of their actives are") {
  const TreatmentParts three = parts({"3"}, "annual_bluegrass");
  CHECK(three.foliar.empty());
  CHECK(three.residual.front().weeks.least == 6);
  CHECK(three.residual.front().weeks.most == 24);
  const TreatmentParts two = parts({"group 2"}, "annual_bluegrass");
  CHECK(two.residual.empty());
  CHECK(same(only_row(two), {95, 93, 91, 89, 87}));
  CHECK(same(only_row(parts({"9"}, "annual_bluegrass")), {95, 95, 93, 90, 88}));
  // Group 1 does nothing to annual bluegrass.
  CHECK(parts({"1"}, "annual_bluegrass").not_counted == std::vector<std::string>{"group 1"});
}

TEST_CASE("on a grass without classes a bare foliar group has the weakest figures of its actives") {
  CHECK(same(only_row(parts({"1"}, "crabgrass")), {92, 90, 88, 81, 70}));   // fenoxaprop
  CHECK(same(only_row(parts({"2"}, "crabgrass")), {80, 75, 65, 55, 40}));   // foramsulfuron
  CHECK(same(only_row(parts({"4"}, "crabgrass")), {90, 85, 70, 65, 80}));   // quinclorac
  CHECK(same(only_row(parts({"27"}, "crabgrass")), {75, 65, 55, 50, 40}));  // mesotrione, topramezone
  CHECK(same(only_row(parts({"4"}, "goosegrass")), {5, 5, 5, 5, 5}));
  CHECK(same(only_row(parts({"27"}, "goosegrass")), {87, 75, 50, 25, 10}));
  // No active of group 2 has figures on foxtails: an unnamed partner.
  CHECK(same(only_row(parts({"2"}, "foxtails")), {85, 70, 50, 35, 25}));
  // Residual groups stay residual ones.
  CHECK(parts({"3"}, "crabgrass").foliar.empty());
  CHECK(parts({"29"}, "crabgrass").foliar.empty());
  CHECK(parts({"14"}, "foxtails").foliar.empty());
}

TEST_CASE("resistance goes with its group, on both parts") {
  const ResistantShares resistant{{3, Fraction::of(0.6)}, {9, Fraction::of(0.3)}};
  const TreatmentParts plan =
      parts({"prodiamine", "glyphosate", "indaziflam"}, "annual_bluegrass", resistant);
  for (const ResidualPart& part : plan.residual) {
    CHECK(part.resistant.value() == Approx(part.group == 3 ? 0.6 : 0.0));
  }
  for (const FoliarPart& part : plan.foliar) {
    CHECK(part.resistant.value() == Approx(part.group == 9 ? 0.3 : 0.0));
  }
  CHECK(plan.residual.size() == 2);
}

TEST_CASE("a plan in words: foliar none, residual 0, a length and a class") {
  TankPlan plan;
  plan.foliar = FoliarClass::none;
  CHECK(plan.given());
  const auto with = [&](const std::string& id) { return parts_of(plan, grass(id), {}, shipped_actives()); };
  CHECK(with("annual_bluegrass").foliar.empty());
  CHECK(with("annual_bluegrass").residual.size() == 1);
  plan = {};
  plan.residual_weeks = 0.0;
  CHECK(with("annual_bluegrass").residual.empty());
  CHECK(with("annual_bluegrass").foliar.size() == 1);
  plan = {};
  plan.residual_weeks = 20.0;
  plan.foliar = FoliarClass::contact;
  const TreatmentParts bluegrass = with("annual_bluegrass");
  CHECK(bluegrass.residual.front().weeks.least == 20);
  CHECK(bluegrass.residual.front().weeks.most == 20);
  CHECK(same(only_row(bluegrass), {95, 93, 90, 65, 50}));
  // A grass without classes keeps its unnamed partner.
  CHECK(same(only_row(with("crabgrass")), {90, 80, 70, 65, 50}));
}
