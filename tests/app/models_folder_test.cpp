// SPDX-License-Identifier: MIT
// A user's own models and thresholds laid over the built-in ones.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// A desk with a folder "own" of model files.
class ModelDesk : public Desk {
 public:
  std::string model(const std::string& name, const std::string& text) const {
    const std::filesystem::path at = std::filesystem::path{path("own")} / name;
    std::filesystem::create_directories(at.parent_path());
    std::ofstream{at} << text;
    return at.string();
  }
  Run models(const std::vector<std::string>& more = {}) const {
    return run(joined({"models", "--models", path("own")}, more));
  }
};

const std::string release = "emergence/POAAN_release.json";

std::string release_text() { return source_text("models/" + release); }

}  // namespace

TEST_CASE("a file of the user's folder replaces the built-in one of its name, and the others stay") {
  const ModelDesk desk;
  desk.model(release, exchanged(release_text(), R"("title": ")", R"("title": "Mine: )"));
  const Run run = desk.models();
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  CHECK(holds(run.out, "Mine: "));
  CHECK(holds(run.out, "POAAN_soil_crossing"));
  CHECK(!holds(desk.run({"models"}).out, "Mine: "));
  const Run advised = desk.run(
      with_place({"advise", "--weather", desk.file("c.csv", made_up_weather(make_day(2025, 6, 1), 501)),
                  "--models", desk.path("own")}));
  CHECK(advised.code == 0);
}

TEST_CASE("a broken model file is refused by the name the user gave it, with its place") {
  const ModelDesk desk;
  const std::string own = desk.model(release, exchanged(release_text(), R"("title")", R"("tittle")"));
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"models", "--models", desk.path("own")},
        {"advise", "--weather", "x.csv", "--models", desk.path("own")}}) {
    const Run run = desk.run(words);
    CAPTURE(run.err);
    CHECK(run.code == 2);
    CHECK(run.problems() == 1);
    CHECK(holds(run.err, own + " at /"));
    CHECK(holds(run.err, "title"));
    CHECK(run.out.empty());
  }
  desk.model(release, "{ \"format\": ");
  CHECK(holds(desk.models().err, own + ":1:"));
  desk.model(release, exchanged(release_text(), R"("source": ")", R"("source": "nobody-)"));
  CHECK(holds(desk.models().err, own));
}

TEST_CASE("a target whose file names no curve is refused and the others are answered") {
  const ModelDesk desk;
  desk.model("targets/SETPU.json",
             exchanged(source_text("models/targets/SETPU.json"),
                       R"("members": [{"model": "SETPU_hydrothermal", "weight": {"rule": "rest"}}])",
                       R"("members": [], "no_members_because": "nobody counted it")"));
  const std::string weather = desk.file("good.csv", made_up_weather(make_day(2025, 6, 1), 501));
  const std::vector<std::string> asked{"advise",         "--weather", weather, "--models",
                                       desk.path("own"), "--target",  "SETPU"};
  const Run run = desk.run(with_place(joined(asked, {"--target", "POAAN", "--format", "json"})));
  CHECK(run.code == 1);
  const Json targets = run.json().at("sites")[0].at("targets");
  REQUIRE(targets.size() == 2);
  CHECK(targets[0].at("target") == "SETPU");
  CHECK(targets[0].at("decision").is_null());
  CHECK(holds(targets[0].at("reasons")[0].get<std::string>(), "nobody counted it"));
  CHECK(targets[1].at("decision").at("action").is_string());
  CHECK(desk.run(with_place(asked)).code == 2);
}

TEST_CASE("a folder that holds no models, or is none, is refused instead of changing nothing") {
  const ModelDesk desk;
  std::filesystem::create_directories(desk.path("own"));
  CHECK(desk.models().code == 2);
  CHECK(holds(desk.models().err, "no model file is in this folder"));
  CHECK(holds(desk.run({"models", "--models", desk.path("absent")}).err, "not a folder of models"));
  CHECK(holds(desk.run({"models", "--models", desk.file("file", "")}).err, "not a folder of models"));
  // The folder one step too deep: the file is in a place that holds nothing.
  const std::string flat = desk.model("POAAN_release.json", release_text());
  CHECK(desk.models().code == 2);
  CHECK(holds(desk.models().err, flat));
}

TEST_CASE("the schemas that a copied folder brings along are no models") {
  const ModelDesk desk;
  desk.model("schema/emergence-model.schema.json", source_text("models/schema/emergence-model.schema.json"));
  CHECK(holds(desk.models().err, "no model file is in this folder"));
  desk.model(release, release_text());
  CHECK(desk.models().code == 0);
}

TEST_CASE("a link that leads nowhere among the models is said, not passed over") {
  const ModelDesk desk;
  desk.model(release, release_text());
  std::filesystem::create_symlink("loop.json", desk.path("own/loop.json"));
  const Run run = desk.models();
  CHECK(run.code == 4);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, "loop.json"));
}

TEST_CASE("thresholds of one's own move the answer, and wrong ones are refused with their place") {
  const Desk desk;
  const std::string shipped = source_text("config/practice.json");
  const std::string weather = desk.sample("millrace_nine.csv");
  const auto target = [&](const std::vector<std::string>& more) {
    const Run run = desk.run(
        joined(with_place({"advise", "--weather", weather, "--on", "2025-10-15", "--format", "json"}), more));
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    return run.json().at("sites")[0].at("targets")[0];
  };
  CHECK(target({}).at("by_percent") == "pre+post");
  std::string early = shipped;
  for (const auto& [part, by] : {std::pair{R"("value": 80,)", R"("value": 12,)"},
                                 {R"("value": 70,)", R"("value": 11,)"},
                                 {R"("value": 90,)", R"("value": 13,)"}}) {
    early = exchanged(early, part, by);
  }
  const Json moved = target({"--practice", desk.file("early.json", early)});
  CHECK(moved.at("by_percent") == "post");
  // The rules of thumb by percent inform; what is decided is decided from expected control.
  CHECK(moved.at("decision").at("kind") == target({}).at("decision").at("kind"));
  CHECK(moved.at("weeks") == target({}).at("weeks"));

  const std::string wrong =
      desk.file("wrong.json", exchanged(shipped, R"("value": 80,)", R"("value": "eighty",)"));
  const Run run = desk.run(with_place({"advise", "--weather", weather, "--practice", wrong}));
  CHECK(run.code == 2);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, wrong + " at /thresholds/post_from/value"));
  CHECK(desk.run({"models", "--practice", desk.path("absent.json")}).code == 2);
}
