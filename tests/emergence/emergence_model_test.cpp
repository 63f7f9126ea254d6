// SPDX-License-Identifier: MIT
#include "emergence/emergence_model.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "emergence/growth_model.hpp"
#include "emergence/target.hpp"
#include "support/source_texts.hpp"

namespace soilclock::emergence {

namespace {

using tests::exchanged;
using tests::source_text;

std::vector<std::string> files_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry :
       std::filesystem::directory_iterator{std::string{SOILCLOCK_SOURCE_DIR} + "/" + folder}) {
    names.push_back(folder + "/" + entry.path().filename().string());
  }
  REQUIRE_FALSE(names.empty());
  return names;
}

const std::string curve_file = "models/emergence/DIGIS_maryland_25_75.json";
const std::string clock_file = "models/emergence/POAAN_soil_crossing.json";
const std::string release_file = "models/emergence/POAAN_release.json";
const std::string lag_file = "models/emergence/DIGSA_arkansas_onset.json";
const std::string cooling_file = "models/emergence/POAAN_cooling_degree_days.json";

EmergenceModel model_of(const std::string& file) {
  const auto model = read_emergence_model(source_text(file), file);
  if (!model) FAIL(describe(model.error()));
  return *model;
}

/// One wrong thing in a good file and the place the refusal must name.
struct WrongThing {
  std::string what;
  std::string file;
  std::string part;
  std::string by;
  std::string place;
};

template <class Read>
void check_refusals(const std::vector<WrongThing>& things, Read&& read) {
  for (const WrongThing& thing : things) {
    INFO(thing.what);
    const auto result = read(exchanged(source_text(thing.file), thing.part, thing.by), thing.file);
    REQUIRE_FALSE(result);
    INFO(describe(result.error()));
    CHECK(result.error().family == Family::request);
    CHECK(result.error().where.file == thing.file);
    CHECK(result.error().where.json_pointer == thing.place);
  }
}

}  // namespace

TEST_CASE("every shipped emergence model loads and its check points come out") {
  for (const std::string& file : files_in("models/emergence")) {
    INFO(file);
    const EmergenceModel model = model_of(file);
    CHECK(file == "models/emergence/" + model.id + ".json");
    CHECK(model.id.starts_with(model.target));
    CHECK((model.form == Form::base_only) == model.check_points.empty());
  }
}

TEST_CASE("every shipped growth model and target loads") {
  for (const std::string& file : files_in("models/growth")) {
    const auto growth = read_growth_model(source_text(file), file);
    if (!growth) FAIL(describe(growth.error()));
  }
  for (const std::string& file : files_in("models/targets")) {
    const auto target = read_target(source_text(file), file);
    if (!target) FAIL(describe(target.error()));
  }
}

TEST_CASE("a model file with one thing wrong is refused at its place") {
  check_refusals(
      {
          {"unknown field", curve_file, "\"curve\":", "\"kurve\": 1, \"curve\":", "/kurve"},
          {"unknown form", curve_file, "\"thermal-curve\"", "\"thermal-kurve\"", "/form"},
          {"unknown curve", curve_file, "\"gompertz\"", "\"spline\"", "/curve"},
          {"parameters of another curve", curve_file, "\"gompertz\"", "\"logistic\"", "/parameters/x50"},
          {"missing unit", curve_file, "{\"value\": 158.7, \"unit\": \"C d\"}", "{\"value\": 158.7}",
           "/parameters/m/unit"},
          {"wrong unit", curve_file, "{\"value\": 158.7, \"unit\": \"C d\"}",
           "{\"value\": 158.7, \"unit\": \"F d\"}", "/parameters/m/unit"},
          {"number as text", curve_file, "\"value\": 158.7", "\"value\": \"158.7\"", "/parameters/m/value"},
          {"missing parameter", clock_file, "\"dry_speed\"", "\"dry_spede\"", "/parameters/dry_speed"},
          {"one parameter too many", curve_file, "\"parameters\": {", "\"parameters\": {\"lag\": 1, ",
           "/parameters/lag"},
          {"negative rate", curve_file, "\"value\": 0.0175", "\"value\": -0.0175", "/parameters/k"},
          {"no source", curve_file, "\"sources\": [", "\"sources\": [], \"notes_\": [", "/sources"},
          {"missing basis note", curve_file, "\"basis_note\"", "\"basis_nota\"", "/basis_note"},
          {"unknown basis", curve_file, "\"basis\": \"derived\"", "\"basis\": \"guessed\"", "/basis"},
          {"missed check point", curve_file, "\"expected\": 53.1993", "\"expected\": 54.1993",
           "/check_points/6/expected"},
          {"check point nobody can compute", curve_file, "\"quantity\": \"percent\"",
           "\"quantity\": \"height\"", "/check_points/0/quantity"},
          {"check point without origin", curve_file, "\"origin\"", "\"orign\"", "/check_points/0/origin"},
          {"check point without tolerance", curve_file, "\"tolerance\": 5e-05", "\"tolerance\": 0",
           "/check_points/0/tolerance"},
          {"date that does not exist half a year later", curve_file, "\"02-15\"", "\"02-30\"",
           "/scale/start"},
          {"unknown method of summing", curve_file, "\"daily-mean\"", "\"daily-meen\"", "/scale/method"},
          {"soil without depth", curve_file, "\"depth\":", "\"deph\":", "/scale/depth"},
          {"missing scale", curve_file, "\"scale\":", "\"skale\":", "/scale"},
          {"id that is not the file's name", curve_file, "\"DIGIS_maryland_25_75\"", "\"DIGIS_maryland\"",
           "/id"},
          {"target that is no code", curve_file, "\"target\": \"DIGIS\"", "\"target\": \"crabgrass\"",
           "/target"},
          {"spread that leaves the center out", clock_file, "\"low\": 0.8", "\"low\": 1.2",
           "/parameters/crossing_width/spread/low"},
          {"number published without its source", clock_file, "\"source\": \"taylor-2021\",\n      \"note\"",
           "\"note\"", "/parameters/crossing_temperature/source"},
          {"spread of an unknown kind", clock_file, "\"normal\"", "\"gamma\"",
           "/parameters/crossing_temperature/spread/kind"},
          {"limit that cuts the center off", clock_file, "\"least\": 0.55", "\"least\": 0.8",
           "/parameters/autumn_share/spread/least"},
          {"gate that closes before it opens", clock_file, "\"cold_full\": {\"value\": 10",
           "\"cold_full\": {\"value\": 4", "/parameters/cold_full"},
          {"ceiling out of order", release_file, "\"ceiling_half\": {\"value\": 20",
           "\"ceiling_half\": {\"value\": 26", "/parameters/ceiling_none"},
          {"missing date", release_file, "\"winter_to\"", "\"winter_too\"", "/dates/winter_to"},
          {"base of the scale unlike the model's", lag_file, "\"lower\": {\"value\": 9.6",
           "\"lower\": {\"value\": 10", "/scale/lower"},
          {"opposite of nothing", lag_file, "\"opposite_to\": \"onset_sum\"", "\"opposite_to\": \"onset\"",
           "/parameters/base_temperature/spread/opposite_to"},
          {"nothing to follow", lag_file, "\"follows\"", "\"folows\"", "/follows"},
          {"warmth where coolness is summed", cooling_file, "\"cooling\"", "\"average\"", "/scale/method"},
          {"box that ends before it begins", curve_file, "\"south\": 29", "\"south\": 59",
           "/validity/boxes/0/south"},
      },
      read_emergence_model);
}

TEST_CASE("broken JSON names line and column") {
  const auto result = read_emergence_model("{\n  \"id\": ,\n}", "x.json");
  REQUIRE_FALSE(result);
  CHECK(result.error().where.line == 2);
}

TEST_CASE("a growth model with one thing wrong is refused at its place") {
  const std::string file = "models/growth/POAAN_leaf_pace.json";
  check_refusals(
      {{"three to five tillers missing", file, "\"three_to_five_tillers_below\"", "\"five_tillers_below\"",
        "/stages/three_to_five_tillers_below"},
       {"two stages at one age", file, "\"two_tillers_below\": 5.5", "\"two_tillers_below\": 4.5",
        "/stages/two_tillers_below"},
       {"stages out of order", file, "\"two_tillers_below\": 5.5", "\"two_tillers_below\": 4",
        "/stages/two_tillers_below"},
       {"stages in days under a thermal clock", file, "\"unit\": \"phyllochron\"", "\"unit\": \"d\"",
        "/stages/unit"},
       {"missed check point", file, "\"expected\": 17.5", "\"expected\": 18.5", "/check_points/5/expected"},
       {"no base", file, "\"base\"", "\"bass\"", "/base"},
       {"unknown clock", file, "\"thermal time\"", "\"weeks\"", "/clock"}},
      read_growth_model);
}

TEST_CASE("a target with one thing wrong is refused at its place") {
  const std::string file = "models/targets/POAAN.json";
  check_refusals(
      {{"unknown rule of weight", file, "\"rule\": \"rest\"", "\"rule\": \"best\"", "/members/0/weight/rule"},
       {"share above the whole", file, "\"share\": 0.2", "\"share\": 1.2", "/members/2/weight/share"},
       {"shares above the whole together", file, "\"share\": 0.2", "\"share\": 0.9", "/members"},
       {"limits in the wrong order", file, "\"warmest_mean_full\": {\"value\": 22.5",
        "\"warmest_mean_full\": {\"value\": 19.5", "/single_window/warmest_mean_full"},
       {"name in capitals", file, "\"poa annua\"", "\"Poa annua\"", "/names"},
       {"unknown season", file, "\"fall\"", "\"autumn\"", "/season"}},
      read_target);
}

TEST_CASE("only practice and memory may come without a source") {
  const std::string file = "models/targets/ELEIN.json";
  const std::string text = source_text(file);
  const auto from = text.find("\"sources\": [");
  const auto to = text.find(']', from);
  const std::string bare = std::string{text}.replace(from, to - from + 1, "\"sources\": []");
  CHECK(read_target(bare, file));
  CHECK_FALSE(read_target(exchanged(bare, "\"basis\": \"common practice\"", "\"basis\": \"derived\""), file));
}

TEST_CASE("the large-crabgrass onset is what the Arkansas chambers gave") {
  // King & Oliver 1994, Weed Sci. 42:561-567 (abstract): 9-10 d at 15 C, 2-3 d at 30-35 C. Whatever the draw,
  // both hold to within a day, because sum and base are drawn opposite to each other.
  const EmergenceModel model = model_of(lag_file);
  for (const double u : {0.0001, 0.1, 0.25, 0.5, 0.75, 0.9, 0.9999}) {
    const ParameterValues values = drawn_parameters(model, [&](std::size_t) { return u; });
    const auto days = [&](double celsius) {
      return values.find("onset_sum")->second / (celsius - values.find("base_temperature")->second);
    };
    INFO("draw " << u);
    CHECK(days(15) == Approx(9.5).margin(1.0));
    CHECK(days(30) == Approx(2.5).margin(1.0));
  }
}

TEST_CASE("the Ohio sums are the printed Fahrenheit ones") {
  // Ohio extension column of 7 March 2019: 155 and 211 degree-days above 50 F.
  CHECK(model_of("models/emergence/DIGIS_ohio_onset.json").parameter("onset_sum") ==
        Approx(155 / 1.8).margin(1e-4));
  CHECK(model_of("models/emergence/DIGSA_ohio_onset.json").parameter("onset_sum") ==
        Approx(211 / 1.8).margin(1e-4));
}

TEST_CASE("a model barred outside its boxes says so") {
  const EmergenceModel ohio = model_of("models/emergence/DIGIS_ohio_onset.json");
  CHECK(ohio.validity.weight_zero_outside);
  CHECK(ohio.validity.contains({40.0, -83.0, {}}));
  CHECK_FALSE(ohio.validity.contains({35.6, -83.1, {}}));   // south of 38.5 N
  CHECK_FALSE(ohio.validity.contains({39.1, -96.6, {}}));   // the Plains
  CHECK_FALSE(ohio.validity.contains({-40.0, -83.0, {}}));  // the south
  CHECK(model_of("models/emergence/SETPU_base.json").validity.contains({53.4, -6.3, {}}));
}

TEST_CASE("a month-day falls into its season on both sides of the equator") {
  const Season north = season_of(make_day(2020, 10, 1), SeasonKind::fall, Hemisphere::north);
  const Season south = season_of(make_day(2021, 4, 1), SeasonKind::fall, Hemisphere::south);
  CHECK(iso(MonthDay{8, 1}.in(north)) == "2020-08-01");
  CHECK(iso(MonthDay{5, 15}.in(north)) == "2021-05-15");
  CHECK(iso(MonthDay{6, 21}.in(north)) == "2020-06-21");
  CHECK(iso(MonthDay{8, 1}.in(south)) == "2021-02-01");
  CHECK(iso(MonthDay{5, 15}.in(south)) == "2021-11-15");
  CHECK(iso(MonthDay{6, 21}.in(south)) == "2020-12-21");
  const Season summer = season_of(make_day(2021, 8, 1), SeasonKind::summer, Hemisphere::south);
  CHECK(iso(MonthDay{2, 15}.in(summer)) == "2021-08-15");
  CHECK_FALSE(MonthDay::parse("2-15"));
  CHECK_FALSE(MonthDay::parse("13-01"));
  CHECK_FALSE(MonthDay::parse("00-10"));
  CHECK_FALSE(MonthDay::parse("02-29"));
  CHECK(MonthDay::parse("02-15") == MonthDay{2, 15});
}

TEST_CASE("laws of drawing") {
  const EmergenceModel model = model_of(clock_file);
  rc::prop("a higher number never draws a lower value, and every value keeps its limits", [&] {
    const double low = static_cast<double>(*rc::gen::inRange(1, 999)) / 1000.0;
    const double high = static_cast<double>(*rc::gen::inRange(1, 999)) / 1000.0;
    for (const auto& [name, parameter] : model.parameters) {
      RC_ASSERT(parameter.drawn(std::min(low, high)) <= parameter.drawn(std::max(low, high)));
      if (parameter.spread.least) RC_ASSERT(parameter.drawn(low) >= *parameter.spread.least);
    }
  });
  rc::prop("every month-day lies within its season", [] {
    const MonthDay date{static_cast<unsigned>(*rc::gen::inRange(1, 13)),
                        static_cast<unsigned>(*rc::gen::inRange(1, 29))};
    const auto kind = *rc::gen::element(SeasonKind::fall, SeasonKind::summer);
    const auto side = *rc::gen::element(Hemisphere::north, Hemisphere::south);
    const Season season = season_of(make_day(2000, 1, 1) + Days{*rc::gen::inRange(0, 9000)}, kind, side);
    RC_ASSERT(season.days().contains(date.in(season)));
  });
}

}  // namespace soilclock::emergence
