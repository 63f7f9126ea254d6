// SPDX-License-Identifier: MIT
#include "report/hindcast_report.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "report/hindcast_chart.hpp"

using namespace soilclock;
using namespace soilclock::report;

namespace {

/// Four seasons judged on 1 September, three of them held; one rival could not forecast.
HindcastReport four_seasons() {
  advice::EventHindcast event{{"soil-crossing", "the soil cools & settles", true}, {}, {}};
  for (int i = 0; i < 4; ++i) {
    advice::HindcastCase one;
    one.year = 2001 + i;
    one.issue_date = make_day(2001 + i, 9, 1);
    if (i < 3) one.outcome = make_day(2001 + i, 10, 1 + i);
    one.issued = {make_day(2001 + i, 9, 25), make_day(2001 + i, 10, 2), make_day(2001 + i, 10, 9)};
    if (i < 3) one.days_off = 1 - i;
    one.held = i < 3;
    one.band_days = 15;
    one.crps_days = {2.0, 4.0, 5.0, std::numeric_limits<double>::quiet_NaN()};
    one.steps = {0.2 * i, 0.2 * i + 0.2};
    event.cases.push_back(one);
  }
  const double nan = std::numeric_limits<double>::quiet_NaN();
  event.scores.push_back(
      {{9, 1}, 4, 0.75, 15.0, 0.0, 2.0 / 3.0, 4, {2.0, 4.0, 5.0, nan}, {0.0, 0.5, 0.6, nan}});
  return {{true, 10, 200, 1}, 5, {{"a<b", "Course <A> & B", {event}, {}, {}}}};
}

}  // namespace

TEST_CASE("the text of a hindcast begins with one plain sentence and shows the rivals") {
  std::string text = hindcast_text(four_seasons());
  for (std::size_t at = 0; (at = text.find("\n  ")) != std::string::npos;)
    text.replace(at, 3, " ");  // unwrapped
  CHECK(text.starts_with(
      "Course <A> & B: for the day the soil cools & settles, the 80 percent band given on Sep 1"));
  CHECK(text.find("in 3 of") != std::string::npos);
  CHECK(text.find("4.0 (+50%)") != std::string::npos);
  CHECK(text.find("10 days from the issue date") != std::string::npos);
}

TEST_CASE("what is not put to the test stands before the figures") {
  HindcastReport report = four_seasons();
  report.sites[0].remarks.push_back({"no-counts", "Model dates, not counted plants."});
  const std::string text = hindcast_text(report);
  CHECK(text.starts_with("Model dates, not counted plants."));
  CHECK(text.find("not counted", 20) == std::string::npos);  // and once
}

TEST_CASE("where no season could be judged the text says what it takes") {
  HindcastReport report = four_seasons();
  report.sites[0].events[0].scores.clear();
  const std::string text = hindcast_text(report);
  CHECK(text.find("no season of the record could be judged") != std::string::npos);
  CHECK(text.find("5 earlier seasons") != std::string::npos);
}

TEST_CASE("the JSON of a hindcast holds scores, reliability and every case, and null for what is not known") {
  const auto json = nlohmann::json::parse(hindcast_json(four_seasons()));
  CHECK(json.at("format") == "soilclock-hindcast");
  CHECK(json.at("version") == 1);
  CHECK(json.at("known_ahead_days") == 10);
  const auto& event = json.at("sites").at(0).at("events").at(0);
  const auto& scores = event.at("scores").at(0);
  CHECK(scores.at("coverage_percent") == 75.0);
  CHECK(scores.at("crps_days").at("air_as_soil").is_null());
  CHECK(scores.at("gain_percent").at("past_dates") == 50.0);
  // Steps 0-0.2, 0.2-0.4, 0.4-0.6, 0.6-0.8: at 50 percent two whole cases and half of the third have come.
  CHECK(scores.at("reliability").at(4).at("came_percent") == 62.5);
  REQUIRE(event.at("cases").size() == 4);
  CHECK(event.at("cases").at(1).at("outcome") == "2002-10-02");
  CHECK(event.at("cases").at(3).at("outcome").is_null());
  CHECK(event.at("cases").at(3).at("days_off").is_null());
}

TEST_CASE("the CSV of a hindcast has one row for each season, blank where nothing is known") {
  const std::string csv = hindcast_csv(four_seasons());
  CHECK(std::count(csv.begin(), csv.end(), '\n') == 5);
  CHECK(csv.find("a<b,soil-crossing,2004,2004-09-01,,2004-09-25,2004-10-02,2004-10-09,,no,15,0,0.0,2.000,4."
                 "000,5.000,,\n") != std::string::npos);
}

TEST_CASE("the reliability picture is drawn without script and with names made safe") {
  const std::string svg = hindcast_chart(four_seasons());
  CHECK(svg.find("Course &lt;A&gt; &amp; B") != std::string::npos);
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("Sep 1: 4 seasons") != std::string::npos);
  CHECK(svg.find("nan") == std::string::npos);
  CHECK(svg.ends_with("</svg>\n"));
  CHECK(hindcast_chart({{}, 5, {}}).find("No season could be judged.") != std::string::npos);
}
