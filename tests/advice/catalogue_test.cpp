// SPDX-License-Identifier: MIT
#include "advice/data/catalogue.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "advice/answer/windows.hpp"
#include "advice/data/embedded_files.hpp"
#include "support/source_texts.hpp"

namespace soilclock::advice {

namespace {

using tests::exchanged;
using tests::source_text;

/// The shipped files with one of them changed.
std::vector<NamedText> with(const std::string& name, const std::string& part, const std::string& by) {
  std::vector<NamedText> files = built_in_files();
  for (NamedText& file : files) {
    if (file.name == name) {
      file = {name, exchanged(file.text, part, by)};
      return files;
    }
  }
  FAIL("no shipped file " << name);
  return files;
}

std::vector<NamedText> without(const std::string& name) {
  std::vector<NamedText> files = built_in_files();
  REQUIRE(std::erase_if(files, [&](const NamedText& file) { return file.name == name; }) == 1);
  return files;
}

/// Read as a user's own would be: the sources they name are looked up, which the program leaves to this.
const Catalogue& shipped() {
  static const Catalogue catalogue = [] {
    std::vector<NamedText> files = built_in_files();
    for (NamedText& file : files) file.built_in = false;
    auto result = load_catalogue(files);
    if (!result) FAIL(describe(result.error()));
    return *std::move(result);
  }();
  return catalogue;
}

void check_refused(const std::vector<NamedText>& files, const std::string& file, const std::string& place) {
  const auto result = load_catalogue(files);
  REQUIRE_FALSE(result);
  INFO(describe(result.error()));
  CHECK(result.error().family == Family::request);
  CHECK(result.error().where.file == file);
  CHECK(result.error().where.json_pointer == place);
}

}  // namespace

TEST_CASE("the files in the program are those of the source folder, byte for byte") {
  std::set<std::string> on_disk{"config/practice.json", "config/services.json", "config/us_places.json"};
  const std::filesystem::path root{SOILCLOCK_SOURCE_DIR};
  for (const auto& entry : std::filesystem::recursive_directory_iterator{root / "models"}) {
    const bool model = entry.path().parent_path().filename() != "schema";
    if (model && entry.path().extension() == ".json")
      on_disk.insert(entry.path().lexically_relative(root).generic_string());
  }
  std::set<std::string> in_program;
  for (const EmbeddedFile& file : embedded_files()) {
    INFO(file.name);
    in_program.insert(std::string{file.name});
    CHECK(file.text == source_text(std::string{file.name}));
  }
  CHECK(in_program == on_disk);
}

TEST_CASE("the shipped files load and hold what the design names") {
  const Catalogue& catalogue = shipped();
  for (const char* code : {"POAAN", "DIGIS", "DIGSA", "ELEIN", "SETPU", "SETVI"}) {
    INFO(code);
    CHECK(catalogue.targets.contains(code));
  }
  CHECK(catalogue.targets.at("POAAN").members.size() == 4);
  CHECK(catalogue.targets.at("DIGIS").members.size() == 4);
  CHECK(catalogue.targets.at("SETVI").members.size() == 1);
  CHECK(catalogue.practice.cautions.size() == 11);
  CHECK(catalogue.soil.all().size() >= 5);
}

TEST_CASE("a target is found by code and by plain name in any case") {
  CHECK(shipped().find_target("poaan")->code == "POAAN");
  CHECK(shipped().find_target(" Annual Bluegrass ")->code == "POAAN");
  CHECK(shipped().find_target("crabgrass")->code == "DIGIS");
  CHECK(shipped().find_target("GOOSEGRASS")->code == "ELEIN");
  CHECK(shipped().find_target("bluegrass") == nullptr);
}

TEST_CASE("every target has exactly one file of what treatments do to it") {
  for (const auto& [code, target] : shipped().targets) {
    INFO(code);
    const auto& own = shipped().control_of(code).targets;
    CHECK(std::find(own.begin(), own.end(), code) != own.end());
    std::size_t files = 0;
    for (const auto& [id, grass] : shipped().control) {
      files += static_cast<std::size_t>(std::count(grass.targets.begin(), grass.targets.end(), code));
    }
    CHECK(files == 1);
  }
  CHECK(shipped().control.size() == 4);
  CHECK_THROWS_AS(shipped().control_of("XXXXX"), std::out_of_range);
}

TEST_CASE("rules that stand in one file reach the others") {
  CHECK(shipped().gates.cold_air == shipped().spray.post_stop_maximum);
  CHECK(shipped().turf.look.valid_days == shipped().practice.noted_turf.holds_days);
}

TEST_CASE("every source says how it was read, and none claims a full text that nobody opened") {
  for (const auto& [id, source] : shipped().sources) {
    INFO(id << ": " << source.how_read);
    const bool known_way = source.how_read.starts_with("abstract") ||
                           source.how_read.starts_with("secondary: ") ||
                           source.how_read.starts_with("memory") || id == "noaa-uscrn-2020";
    CHECK(known_way);
  }
}

TEST_CASE("files that do not fit together are refused at the place where they part") {
  SECTION("a source that is not there") {
    check_refused(with("models/emergence/DIGIS_maryland_25_75.json", "\"fidanza-1996\"", "\"fidanza-1997\""),
                  "models/emergence/DIGIS_maryland_25_75.json", "/sources/0/source");
  }
  SECTION("a list of sources of the user's that lacks one of those that the shipped files name") {
    check_refused(with("models/sources.json", "\"id\": \"gasper-1994\"", "\"id\": \"gasper-1995\""),
                  "models/treatment/residual.json", "/lost_without_water_after/source");
  }
  SECTION("a source of a soil model") {
    check_refused(with("models/soil/two_memories_east_5cm.json", "\"fao56\"", "\"fao57\""),
                  "models/soil/two_memories_east_5cm.json", "/sources/1/source");
  }
  SECTION("a source of a treatment number") {
    check_refused(
        with("models/treatment/residual.json", "\"source\": \"gasper-1994\"", "\"source\": \"gasper-1995\""),
        "models/treatment/residual.json", "/lost_without_water_after/source");
  }
  SECTION("a source of a practice rule") {
    check_refused(with("config/practice.json", "\"taylor-2021\"", "\"tailor-2021\""), "config/practice.json",
                  "/soil_rules/1/sources/0/source");
  }
  SECTION("a member that is not there") {
    check_refused(with("models/targets/POAAN.json", "\"POAAN_release\"", "\"POAAN_releas\""),
                  "models/targets/POAAN.json", "/members/0/model");
  }
  SECTION("a member that answers for another target") {
    check_refused(with("models/targets/POAAN.json", "\"POAAN_release\"", "\"DIGIS_maryland_25_75\""),
                  "models/targets/POAAN.json", "/members/0/model");
  }
  SECTION("a member without a curve") {
    check_refused(with("models/targets/DIGIS.json", "\"DIGIS_maryland_25_75\"", "\"DIGIS_ohio_onset\""),
                  "models/targets/DIGIS.json", "/members/0/model");
  }
  SECTION("a cross-check that is not there") {
    check_refused(with("models/targets/DIGIS.json", "\"DIGIS_ohio_onset\"", "\"DIGIS_iowa_onset\""),
                  "models/targets/DIGIS.json", "/cross_checks/0");
  }
  SECTION("a growth model that is not there, and one that is for others") {
    check_refused(
        with("models/targets/POAAN.json", "\"growth\": \"POAAN_leaf_pace\"", "\"growth\": \"POAAN_pace\""),
        "models/targets/POAAN.json", "/growth");
    check_refused(with("models/targets/POAAN.json", "\"growth\": \"POAAN_leaf_pace\"",
                       "\"growth\": \"DIGSA_leaf_pace\""),
                  "models/targets/POAAN.json", "/growth");
  }
  SECTION("a model for a target that is not there") {
    check_refused(without("models/targets/SETVI.json"), "models/emergence/SETVI_base.json", "/target");
  }
  SECTION("a followed model that is not there") {
    check_refused(with("models/emergence/ELEIN_after_smooth_crabgrass.json",
                       "\"model\": \"DIGIS_maryland_25_75\"", "\"model\": \"DIGIS_maryland\""),
                  "models/emergence/ELEIN_after_smooth_crabgrass.json", "/follows/model");
  }
  SECTION("a followed model whose sums are on another scale") {
    for (const auto& [part, by] :
         {std::pair{"\"value\": 12, \"unit\": \"C\"", "\"value\": 10, \"unit\": \"C\""},
          std::pair{"\"value\": 2.5, \"unit\": \"cm\"", "\"value\": 5, \"unit\": \"cm\""}}) {
      check_refused(with("models/emergence/ELEIN_after_smooth_crabgrass.json", part, by),
                    "models/emergence/ELEIN_after_smooth_crabgrass.json", "/follows/scale");
    }
    // The curve itself moved to another start: whoever follows it must be told.
    check_refused(
        with("models/emergence/DIGIS_maryland_25_75.json", "\"start\": \"02-15\"", "\"start\": \"04-01\""),
        "models/emergence/DIGSA_arkansas_onset.json", "/follows/scale");
  }
  SECTION("a missed check point") {
    check_refused(with("models/emergence/POAAN_release.json", "\"expected\": 0.61", "\"expected\": 0.62"),
                  "models/emergence/POAAN_release.json", "/check_points/5/expected");
    check_refused(
        with("models/soil/two_memories_east_5cm.json", "\"expected\": 10.76", "\"expected\": 11.76"),
        "models/soil/two_memories_east_5cm.json", "/check_points/0/expected");
  }
  SECTION("one plain name for two targets") {
    check_refused(with("models/targets/DIGSA.json", "\"hairy crabgrass\"", "\"crabgrass\""),
                  "models/targets/DIGSA.json", "/names");
  }
  SECTION("a source listed twice") {
    check_refused(
        with("models/sources.json", "\"id\": \"taylor-2021\"", "\"id\": \"kaminski-dernoeden-2007\""),
        "models/sources.json", "/sources/1/id");
  }
  SECTION("a practice rule for a target that is not there") {
    check_refused(with("config/practice.json", "\"targets\": [\"ELEIN\"]", "\"targets\": [\"ELEIM\"]"),
                  "config/practice.json", "/soil_rules/6/targets/0");
  }
}

TEST_CASE("control files that do not fit the others are refused at the place where they part") {
  const std::string crabgrass = "models/treatment/control/crabgrass.json";
  const std::string goosegrass = "models/treatment/control/goosegrass.json";
  SECTION("a row of an active that is not listed") {
    check_refused(with(crabgrass, "\"actives\": [\"quinclorac\"]", "\"actives\": [\"quinclorak\"]"),
                  crabgrass, "/foliar/rows/1/actives");
  }
  SECTION("weeks and greatest effect of an active that is not listed") {
    check_refused(with(crabgrass, "\"active\": \"dithiopyr\"", "\"active\": \"dithiopir\""), crabgrass,
                  "/residual/actives/1/active");
    check_refused(with(goosegrass, "\"active\": \"indaziflam\",\n        \"share\"",
                       "\"active\": \"indaziflame\",\n        \"share\""),
                  goosegrass, "/residual/greatest_by_active");
  }
  SECTION("a target without a control file") {
    check_refused(without("models/treatment/control/annual_bluegrass.json"), "models/targets/POAAN.json",
                  "/id");
    check_refused(with(crabgrass, "[\"DIGIS\", \"DIGSA\"]", "[\"DIGIS\"]"), "models/targets/DIGSA.json",
                  "/id");
  }
  SECTION("a target with two control files, and one that is not there") {
    check_refused(with(goosegrass, "[\"ELEIN\"]", "[\"ELEIN\", \"SETVI\"]"), goosegrass, "/targets");
    check_refused(with(crabgrass, "[\"DIGIS\", \"DIGSA\"]", "[\"DIGIS\", \"DIGSI\"]"), crabgrass,
                  "/targets/1");
  }
  SECTION("sources of kill figures, of residual figures and of mixtures") {
    check_refused(with(crabgrass, "\"source\": \"neal-1990\"", "\"source\": \"neil-1990\""), crabgrass,
                  "/foliar/rows/0/leaves_1_3/source");
    check_refused(with(crabgrass, "\"source\": \"umeda-shaner-2011\"", "\"source\": \"umeda-2011\""),
                  crabgrass, "/residual/actives/0/weeks/source");
    check_refused(with(goosegrass, "\"source\": \"johnson-1993\"", "\"source\": \"johnson-1893\""),
                  goosegrass, "/residual/greatest_by_active/0/share/source");
    check_refused(with("models/treatment/control/annual_bluegrass.json", "\"source\": \"brosnan-2020b\"",
                       "\"source\": \"brosnan-2020x\""),
                  "models/treatment/control/annual_bluegrass.json", "/collections_resistant/0/share/source");
    check_refused(
        with("models/treatment/mixtures.json", "\"source\": \"elmore-2013\"", "\"source\": \"elmore-2003\""),
        "models/treatment/mixtures.json", "/full_expectation/0/source");
    check_refused(
        with("config/practice.json", "\"source\": \"johnson-1980\"", "\"source\": \"johnson-1880\""),
        "config/practice.json", "/decision/fall_last_day/source");
  }
  SECTION("two files of one id") {
    std::vector<NamedText> files = built_in_files();
    files.push_back({"models/treatment/control/more/crabgrass.json", source_text(crabgrass)});
    check_refused(files, "models/treatment/control/more/crabgrass.json", "");
  }
}

TEST_CASE("a file in a place that holds nothing, and a missing part, are refused by name") {
  std::vector<NamedText> files = built_in_files();
  files.push_back({"models/emergency/x.json", "{}"});
  check_refused(files, "models/emergency/x.json", "");
  check_refused(without("config/practice.json"), "config/practice.json", "");
  for (const char* part : {"mixtures", "residual", "actives", "spray_day", "turf_state", "gates"}) {
    const std::string name = "models/treatment/" + std::string{part} + ".json";
    check_refused(without(name), name, "");
  }
}

TEST_CASE("a threshold set in the practice file rules what the percent emerged call for") {
  const auto result = load_catalogue(with("config/practice.json", "\"value\": 80", "\"value\": 75"));
  if (!result) FAIL(describe(result.error()));
  CHECK(result->practice.thresholds.post_from.percent() == Approx(75));
  CHECK(kind_by_percent({70.0, 76.0, 80.0}, 90.0, result->practice.thresholds) == treatment::Kind::post);
}

TEST_CASE("how long a noted turf state stands and how cold is too cold are read where they are written") {
  const auto result = load_catalogue(with("config/practice.json", "\"holds_for\": {\n      \"value\": 14",
                                          "\"holds_for\": {\n      \"value\": 10"));
  if (!result) FAIL(describe(result.error()));
  CHECK(result->turf.look.valid_days == 10);
  CHECK(result->turf.look.ended_by_hard_nights == 1);
  const auto colder =
      load_catalogue(with("models/treatment/spray_day.json", "\"post_stop_maximum\": {\"value\": 50",
                          "\"post_stop_maximum\": {\"value\": 45"));
  if (!colder) FAIL(describe(colder.error()));
  CHECK(colder->gates.cold_air.fahrenheit() == Approx(45));
}

TEST_CASE("a user's own file replaces the shipped one of its name, and a new one is added") {
  const std::string name = "models/growth/POAAN_leaf_pace.json";
  std::string own = source_text(name);
  own = exchanged(own, "\"value\": 75", "\"value\": 90");
  const auto from = own.find("\"check_points\": [");
  own.replace(from, own.find("],", from) + 1 - from,
              "\"check_points\": [], \"no_check_points_because\": \"a trial setting\"");
  const std::vector<NamedText> laid{
      {name, own},
      {"models/sources_mine.json",
       "{\"format\": \"soilclock-sources/1\", \"id\": \"sources_mine\", \"title\": \"Mine\", \"sources\": "
       "[{\"id\": \"mine\", \"authors\": "
       "\"A B\", \"year\": 2020, \"journal\": \"J\", \"pages\": \"1\", \"how_read\": "
       "\"full text\"}]}"}};
  const auto result = load_catalogue(overlaid(built_in_files(), laid));
  if (!result) FAIL(describe(result.error()));
  CHECK(result->growth.at("POAAN_leaf_pace").phyllochron.value == 90);
  CHECK(result->sources.contains("mine"));
  CHECK(result->targets.size() == shipped().targets.size());
}

}  // namespace soilclock::advice
