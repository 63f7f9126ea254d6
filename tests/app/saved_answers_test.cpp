// SPDX-License-Identifier: MIT
// Saved answers that are another station's, another day's or nobody's.
#include <catch2/catch.hpp>

#include "support/fetch_answers.hpp"
#include "support/service_records.hpp"

using namespace soilclock;
using namespace soilclock::tests;

TEST_CASE("an answer of another station is not taken for the one that was named", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string other =
      desk.file("other.csv", summaries("USC00000002", make_day(2026, 9, 1), 30, 25.0, 11.0));
  const Run run =
      desk.run(one_course_fetch(desk, {"--service", "ncei:USC00000001", "--saved", other}, false));
  CHECK(run.code == 2);
  CHECK(holds(run.err, "the station asked for is not in the file"));
  const Run json = desk.run(one_course_fetch(
      desk,
      {"--service", "ncei:USC00000001", "--saved",
       desk.file("other.json", R"([{"STATION":"USC00000002","DATE":"2026-09-01","TMAX":"25","TMIN":"11"}])")},
      false));
  CHECK(json.code == 3);
  CHECK(holds(json.err, "is of another station"));
  CHECK(holds(json.err, "other.json"));
}

TEST_CASE("a table of the user's own is no answer of a service", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string own = desk.file("own.csv", made_up_weather(make_day(2026, 1, 1), 200));
  for (const std::string service : {"open-meteo", "nws", "power", "ncei:USC00000001"}) {
    CAPTURE(service);
    const Run run = desk.run(one_course_fetch(desk, {"--service", service, "--saved", own}, false));
    CHECK(run.code == 3);
    CHECK(holds(run.err, "own.csv: the answer of"));
    CHECK(holds(run.err, "among the weather of a site"));
  }
}

TEST_CASE("a saved answer cannot have been given in the future, nor long before its days", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2026, 9, 20), make_day(2026, 10, 25), 0, true));
  const auto take = [&](const std::string& day) {
    return desk.run(one_course_fetch(desk, {"--saved", saved, "--saved-on", day}, false));
  };
  CHECK(take("2026-10-16").code == 2);
  CHECK(holds(take("2062-11-25").err, "a day to come"));
  CHECK(holds(take("2016-10-14").err, "cannot have been given on 2016-10-14"));
  CHECK(take("2016-10-14").code == 2);
  CHECK(take("2026-10-14").code == 0);
  const Run answer =
      desk.run({"advise", "--service", "open-meteo", "--latitude", "35.6", "--longitude", "-83.1", "--name",
                "course", "--service-settings", desk.settings, "--format", "json"});
  CHECK(holds(answer.out, "\"from\": \"saved.json\""));
}

TEST_CASE("the day a saved answer was given is said where it is only that of its file", "[fetch]") {
  ServedDesk desk{stand_in};
  desk.now = Instant{make_day(2200, 1, 1)};  // later than any file on this machine was written
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2020, 1, 1), make_day(2020, 6, 1), 0, true));
  const Run run = desk.run(one_course_fetch(desk, {"--saved", saved, "--format", "json"}, false));
  REQUIRE(run.code == 0);
  const Json report = run.json();
  CHECK(remarked(report["sites"][0]["remarks"], "given-assumed"));
  const Run said = desk.run(
      one_course_fetch(desk, {"--saved", saved, "--saved-on", "2020-06-02", "--format", "json"}, false));
  const Json quiet = said.json();
  CHECK(!remarked(quiet["sites"][0]["remarks"], "given-assumed"));
}

TEST_CASE("an old grid answer of a forecast office counts from when it was made", "[records][fetch]") {
  const auto grid = recorded_answer("api_samples/nws/gridpoint_tae_2022-02-04.json");
  const ServedDesk desk{stand_in};
  const Run run =
      desk.run({"fetch", "--latitude", "30.02", "--longitude", "-84.98", "--time-zone", "America/New_York",
                "--service", "nws", "--name", "bay", "--service-settings", desk.settings, "--saved",
                desk.file("grid.json", grid), "--saved-on", "2026-10-14", "--format", "json"});
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  const Json report = run.json();
  CHECK(report["sites"][0]["parts"][0]["part"] == "forecast");
  CHECK(remarked(report["sites"][0]["remarks"], "stale-answer"));
}

TEST_CASE("options that would do nothing are refused", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string saved = desk.file("saved.json", "{}");
  using Words = std::vector<std::string>;
  const Words words = GENERATE_COPY(values<Words>({{"--saved-on", "2026-10-01"},
                                                   {"--units-in", "F"},
                                                   {"--saved", saved, "--years", "3"},
                                                   {"--saved", saved, "--no-members"},
                                                   {"--years", "twelve"},
                                                   {"--years", "1.5"}}));
  const Run run = desk.run(one_course_fetch(desk, words, false));
  CAPTURE(run.err);
  CHECK(run.code == 2);
  CHECK(holds(run.err, words.size() == 2 ? words[0] : words[2]));
}

TEST_CASE("days cut otherwise stay apart, are used while there are no others, and are told", "[fetch]") {
  const ServedDesk desk{stand_in};
  std::string days;
  std::string high;
  std::string low;
  for (int i = 0; i < 600; ++i) {
    const char* comma = i == 0 ? "" : ",";
    days += fmt::format("{}\"{}\"", comma, iso(make_day(2025, 2, 1) + Days{i}));
    high += fmt::format("{}{}", comma, 20 + i % 3);
    low += fmt::format("{}{}", comma, 8 + i % 4);
  }
  const std::string saved = desk.file(
      "daily.json",
      fmt::format(
          R"({{"latitude":35.6,"longitude":-83.1,"generationtime_ms":0.1,"utc_offset_seconds":0,"timezone":"GMT",)"
          R"("timezone_abbreviation":"GMT","elevation":300.0,"daily_units":{{"time":"iso8601",)"
          R"("temperature_2m_max":"°C","temperature_2m_min":"°C"}},"daily":{{"time":[{}],)"
          R"("temperature_2m_max":[{}],"temperature_2m_min":[{}]}}}})",
          days, high, low));
  const std::string own =
      desk.file("own.csv", "# days of local standard time\n" + made_up_weather(make_day(2016, 1, 1), 3500));
  const Run taken = desk.run(one_course_fetch(
      desk,
      {"--time-zone", "America/New_York", "--saved", saved, "--saved-on", "2026-10-10", "--format", "json"},
      false));
  CAPTURE(taken.err);
  REQUIRE(taken.code == 0);
  const Json report = taken.json();
  CHECK(remarked(report["sites"][0]["remarks"], "cut-otherwise"));
  CHECK(report["sites"][0]["parts"][0]["days"] == 600 - 0);
  const auto advise = [&] {
    return desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings, "--on",
                            "2026-09-20", "--time-zone", "America/New_York", "--format", "json"},
                           one_course({})));
  };
  CHECK(advise().json()["sites"][0]["weather"]["first"] == "2025-02-01");
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York"})).code == 0);
  CHECK(advise().json()["sites"][0]["weather"]["first"] == "2024-01-01");
}
