// SPDX-License-Identifier: MIT
// The documents and tables of season, inspect, soil, degree-days and models.
#include <catch2/catch.hpp>

#include "core/text.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

void check_document(const Json& json, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    CAPTURE(key);
    CHECK(json.contains(key));
  }
}

bool is_date(const Json& value) { return value.is_string() && parse_iso_day(value.get<std::string>()); }

std::vector<std::string> course(const Desk& desk, const std::string& command) {
  return with_place({command, "--weather", desk.sample("millrace_nine.csv"), "--on", "2026-10-15"});
}

}  // namespace

TEST_CASE("the day table of a season covers it, in all three forms") {
  const Desk desk;
  const Run run = desk.run(joined(course(desk, "season"), {"--format", "json"}));
  REQUIRE(run.code == 0);
  const Json season = run.json();
  CHECK(season.at("format") == "soilclock-season");
  CHECK(season.at("version") == 1);
  const Json& target = season.at("sites")[0].at("targets")[0];
  const Json& days = target.at("days");
  CHECK(target.at("season_start") == "2026-06-21");
  CHECK(days.front().at("date") == "2026-06-21");
  REQUIRE(days.size() == 365);
  double before = 0.0;
  for (const Json& day : days) {
    CHECK(is_date(day.at("date")));
    const double percent = day.at("emerged").at("percent").get<double>();
    CHECK(percent >= before);
    CHECK(percent <= 100.0);
    before = percent;
    const bool known = day.at("date") < "2026-10-15";
    CHECK((day.at("origin") == "outlook") != known);
  }
  const auto rows = csv_rows(desk.run(joined(course(desk, "season"), {"--format", "csv"})).out);
  REQUIRE(rows.size() == days.size() + 1);
  for (const auto& row : rows) CHECK(row.size() == rows.front().size());
  CHECK(rows[1][2] == "2026-06-21");
  CHECK(holds(desk.run(course(desk, "season")).out, "2026-06-21"));
}

TEST_CASE("the document of inspect has its keys, and its days on request") {
  const Desk desk;
  const std::string file = desk.sample("copper_heron.csv");
  const Json plain = desk.run({"inspect", file, "--format", "json"}).json();
  CHECK(plain.at("format") == "soilclock-inspection");
  CHECK(plain.at("version") == 1);
  const Json& reading = plain.at("files")[0];
  check_document(reading, {"file", "outcome", "first_date", "last_date", "days_with_data", "missing_days",
                           "partial_days", "step", "columns", "doubts"});
  CHECK(!reading.contains("days"));
  CHECK(reading.at("outcome") == "warn");
  CHECK(reading.at("first_date") == "2014-06-01");
  CHECK(reading.at("step") == "daily");
  REQUIRE(reading.at("columns").size() == 4);
  CHECK(reading.at("columns")[1] == Json{{"header", "High (F)"}, {"quantity", "tmax"}, {"unit", "F"}});
  for (const Json& doubt : reading.at("doubts")) check_document(doubt, {"line", "column", "text"});

  const Json days =
      desk.run({"inspect", file, "--format", "json", "--days"}).json().at("files")[0].at("days");
  check_document(days[0], {"date", "tmin_c", "tmax_c", "rain_mm", "quality"});
  CHECK(days[0].at("tmax_c").get<double>() == Approx((83.2 - 32.0) / 1.8).margin(0.006));
  CHECK(days[0].at("tmin_c").get<double>() == Approx((60.7 - 32.0) / 1.8).margin(0.006));
  const auto rows = csv_rows(desk.run({"inspect", file, "--format", "csv"}).out);
  REQUIRE(rows.size() == days.size() + 1);
  CHECK(rows[1][1] == "2014-06-01");
  CHECK(holds(desk.run({"inspect", file, "--days", "--units", "us"}).out, "83.2"));
  CHECK(holds(desk.run({"inspect", file, "--days"}).out, "28.4"));
}

TEST_CASE("one file that cannot be read does not hide the others from inspect") {
  const Desk desk;
  const Run run = desk.run({"inspect", desk.path("absent.csv"), desk.sample("millrace_nine.csv"),
                            desk.file("empty.csv", ""), "--format", "json"});
  CHECK(run.code == 3);
  CHECK(run.problems() == 2);
  CHECK(holds(run.err, "absent.csv"));
  REQUIRE(run.json().at("files").size() == 2);
  CHECK(run.json().at("files")[0].at("outcome") == "warn");
  CHECK(run.json().at("files")[1].at("outcome") == "error");
}

TEST_CASE("the document of soil has its keys and a score that its days bear out") {
  const Desk desk;
  const std::vector<std::string> probed{"soil",
                                        "--weather",
                                        desk.sample("copper_heron.csv"),
                                        "--probe",
                                        desk.sample("copper_heron_probe.csv"),
                                        "--latitude",
                                        "35.6",
                                        "--longitude",
                                        "-83.1",
                                        "--from",
                                        "2026-01-01"};
  const Run run = desk.run(joined(probed, {"--format", "json"}));
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  const Json soil = run.json();
  CHECK(soil.at("format") == "soilclock-soil");
  CHECK(soil.at("version") == 1);
  CHECK(soil.at("depth_cm") == 5.0);
  int n = 0;
  double squares = 0.0;
  for (const Json& day : soil.at("days")) {
    check_document(day, {"date", "air_mean_c", "estimate_c", "reading_c"});
    CHECK(is_date(day.at("date")));
    if (!day.at("reading_c").is_number() || !day.at("estimate_c").is_number()) continue;
    ++n;
    squares += std::pow(day.at("estimate_c").get<double>() - day.at("reading_c").get<double>(), 2);
  }
  // The probe was read about once a week; every such day before today is a reading.
  CHECK(n == 41);
  CHECK(soil.at("score").at("n") == n);
  CHECK(soil.at("score").at("rmse_c").get<double>() == Approx(std::sqrt(squares / n)).margin(0.002));
  CHECK(soil.at("score").contains("bias_c"));
  const auto rows = csv_rows(desk.run(joined(probed, {"--format", "csv"})).out);
  CHECK(rows.size() == soil.at("days").size() + 1);
  CHECK(holds(desk.run(joined(probed, {"--units", "us"})).out, "air F"));
}

TEST_CASE("the estimate of the soil never looks at the readings") {
  const Desk desk;
  const std::string weather = desk.sample("copper_heron.csv");
  const auto estimates = [&](const std::vector<std::string>& probe) {
    std::vector<double> values;
    const Json document =
        desk.run(
                joined(with_place({"soil", "--weather", weather, "--from", "2026-03-01", "--format", "json"}),
                       probe))
            .json();
    for (const Json& day : document.at("days")) {
      values.push_back(day.at("estimate_c").is_number() ? day.at("estimate_c").get<double>() : -99.0);
    }
    return values;
  };
  CHECK(estimates({}) == estimates({"--probe", desk.sample("copper_heron_probe.csv")}));
}

TEST_CASE("the document of degree-days has its keys and its sum is that of its days") {
  const Desk desk;
  const std::vector<std::string> asked = joined(
      course(desk, "degree-days"), {"--lower", "50F", "--upper", "86F", "--method", "clamped", "--cutoff",
                                    "horizontal", "--from", "2026-03-01", "--to", "2026-03-31"});
  const Run run = desk.run(joined(asked, {"--format", "json"}));
  REQUIRE(run.code == 0);
  const Json sum = run.json();
  CHECK(sum.at("format") == "soilclock-degree-days");
  check_document(sum, {"version", "method", "lower_c", "upper_c", "cutoff", "from", "to", "total",
                       "missing_days", "days"});
  CHECK(sum.at("lower_c") == 10.0);
  CHECK(sum.at("upper_c") == 30.0);
  CHECK(sum.at("from") == "2026-03-01");
  CHECK(sum.at("to") == "2026-03-31");
  REQUIRE(sum.at("days").size() == 31);
  double total = 0.0;
  for (const Json& day : sum.at("days")) {
    total += day.at("value").is_number() ? day.at("value").get<double>() : 0.0;
    CHECK(day.at("sum").get<double>() == Approx(total).margin(1e-4));
  }
  CHECK(sum.at("total").get<double>() == Approx(total).margin(1e-4));
  CHECK(csv_rows(desk.run(joined(asked, {"--format", "csv"})).out).size() == 32);
  CHECK(holds(desk.run(joined(asked, {"--units", "metric"})).out, "C degree-days"));
  CHECK(holds(desk.run(asked).out, "F degree-days"));  // the place lies in the US
  for (const char* method : {"average", "triangle", "sine", "double-triangle", "double-sine", "four-case"}) {
    CAPTURE(method);
    CHECK(desk.run(joined(course(desk, "degree-days"), {"--method", method})).code == 0);
  }
}

TEST_CASE("an hourly sum of daily weather is refused instead of being nought") {
  const Desk desk;
  const Run run = desk.run(joined(course(desk, "degree-days"), {"--method", "hourly"}));
  CHECK(run.code == 3);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, "no hourly readings"));
  CHECK(run.out.empty());
}

TEST_CASE("every model says its target, source and check points") {
  const Desk desk;
  const Json models = desk.run({"models", "--format", "json"}).json();
  CHECK(models.at("format") == "soilclock-models");
  CHECK(models.at("version") == 1);
  CHECK(models.at("targets").size() >= 6);
  for (const Json& target : models.at("targets")) {
    for (const Json& id : target.at("members")) {
      CAPTURE(id);
      const Run one = desk.run({"models", id.get<std::string>()});
      CHECK(one.code == 0);
      CHECK(holds(one.out, id.get<std::string>()));
      CHECK(holds(lowered(one.out), "source"));
    }
  }
  CHECK(holds(desk.run({"models"}).out, "Annual bluegrass"));
}
