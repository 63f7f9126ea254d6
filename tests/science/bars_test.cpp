// SPDX-License-Identifier: MIT
// The main job on measured records: what a turf manager must be told on given days. Numbers in the bars are
// either published (said beside them) or agreed marks of sense, since no seedling counts exist for these
// stations.
#include <catch2/catch.hpp>
#include <cmath>

#include "support/record_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::Action;
using advice::SiteAnswer;
using advice::TargetAnswer;

namespace {

Day day_2020(unsigned month, unsigned day) { return make_day(2020, month, day); }

/// The one target of an answer that must have been given.
TargetAnswer target_of(const SiteAnswer& answer) {
  for (const Problem& problem : answer.problems) FAIL(describe(problem));
  REQUIRE(answer.targets.size() == 1);
  REQUIRE(!answer.targets.front().refusal);
  return answer.targets.front();
}

TargetAnswer target_on(const std::string& bytes, Day on) { return target_of(answered(question(bytes, on))); }

TargetAnswer with_season(const std::string& bytes, Day on) {
  SiteRequest request = question(bytes, on);
  request.season_tables = true;
  return target_of(answered(request));
}

bool said(const std::vector<Remark>& remarks, const std::string& code) {
  for (const Remark& remark : remarks) {
    if (remark.code == code) return true;
  }
  return false;
}

double width(const Band<double>& band) { return band.high - band.low; }

}  // namespace

TEST_CASE("the transition zone is told what October looks like") {
  for (const std::string name : {"TN_Crossville_7_NW", "KY_Bowling_Green_21_NNE"}) {
    const auto file = station_text(name);
    CAPTURE(name);

    const TargetAnswer early = target_on(file, day_2020(9, 1));
    CHECK(early.decision.action != Action::treat);  // nothing presses before the wave
    CHECK(early.emerged_percent.middle < 10.0);

    const TargetAnswer rising = target_on(file, day_2020(10, 1));
    CHECK(rising.juvenile_percent.middle >= 80.0);

    const TargetAnswer october = target_on(file, day_2020(10, 20));
    CHECK(october.decision.kind == treatment::Kind::pre_post);
    CHECK(october.emerged_percent.middle > 35.0);
    CHECK(october.emerged_percent.middle < 85.0);
    // A percent without a band would claim a certainty nobody has.
    CHECK(width(october.emerged_percent) > 10.0);
    CHECK(width(october.emerged_percent) < 60.0);
    const auto& up = october.stages;
    CHECK(up.leaves_1_3 + up.to_one_tiller + up.two_tillers >= 0.5);
    const advice::Window& pre = october.windows.front();
    CHECK(pre.kind == treatment::Kind::pre);
    CHECK(*pre.closes.middle < day_2020(10, 20));

    const TargetAnswer winter = target_on(file, day_2020(12, 20));
    CHECK(winter.juvenile_percent.middle < 50.0);
  }
}

TEST_CASE("without a probe the transition zone gets the same October answer") {
  for (const std::string name : {"TN_Crossville_7_NW", "KY_Bowling_Green_21_NNE"}) {
    const auto file = station_text(name);
    CAPTURE(name);
    const TargetAnswer measured = target_on(file, day_2020(10, 20));
    const TargetAnswer estimated = target_on(air_only(file), day_2020(10, 20));
    CHECK(estimated.decision.kind == treatment::Kind::pre_post);
    CHECK(std::abs(estimated.emerged_percent.middle - measured.emerged_percent.middle) < 15.0);
    // Soil that was read leaves less open than soil that was estimated.
    CHECK(width(estimated.emerged_percent) >= width(measured.emerged_percent));
  }
}

TEST_CASE("near the Maryland trials most comes up in a week between mid-September and mid-October") {
  // Kaminski & Dernoeden 2007, Crop Sci 47:775-781: peak in early October, 50-70 % from late September to
  // mid-October.
  const auto file = station_text("PA_Avondale_2_N");
  const Day week = steepest_week(with_season(file, day_2020(12, 20)));
  CAPTURE(iso(week));
  CHECK(week >= day_2020(9, 17));
  CHECK(week + Days{6} <= day_2020(10, 15));
}

TEST_CASE("cool maritime places are told that no single window can be named, and why") {
  for (const std::string& name :
       at_hand({"CA_Bodega_6_WSW", "OR_Coos_Bay_8_SW", "WA_Quinault_4_NE", "WA_Darrington_21_NNE"})) {
    const auto file = station_text(name);
    CAPTURE(name);
    const TargetAnswer answer = target_on(file, day_2020(10, 20));
    CHECK(answer.decision.action == Action::no_single_week);
    CHECK(answer.windows.empty());
    CHECK(answer.milestones.empty());
    CHECK(std::isnan(answer.emerged_percent.middle));
    CHECK(all_reasons(answer).find("no single week can be named") != std::string::npos);
    CHECK(all_reasons(answer).find("warmest 30 days") != std::string::npos);
  }
}

TEST_CASE("Dublin is told the same from its own station's file", "[records]") {
  const auto folder = record_folder("met_eireann");
  const TargetAnswer answer = target_on(whole_file(folder / "dly532.csv"), make_day(2019, 10, 1));
  CHECK(answer.decision.action == Action::no_single_week);
  CHECK(all_reasons(answer).find("no single week can be named") != std::string::npos);
}

TEST_CASE("on the Gulf coast emergence begins in October and its main wave comes in November") {
  // Louisiana: seedlings from September, flushes not until October or November (an extension observation).
  for (const std::string& name :
       at_hand({"LA_Lafayette_13_SE", "AL_Fairhope_3_NE", "GA_Newton_8_W", "GA_Newton_11_SW"})) {
    const auto file = station_text(name);
    const TargetAnswer answer = target_on(file, day_2020(12, 20));
    const DateBand begins = milestone(answer, 5);
    const DateBand half = milestone(answer, 50);
    CAPTURE(name, text_of(begins), text_of(half));
    CHECK(*begins.middle >= day_2020(9, 25));
    CHECK(*half.middle >= day_2020(11, 1));
    CHECK(*half.middle <= day_2020(11, 30));
  }
}

TEST_CASE("a dry spell holds emergence back where nobody irrigates, and rain lets it catch up") {
  const auto file = station_text("TN_Crossville_7_NW");
  const std::string dry = edited(file, [](StationLine& line) {
    if (line.day() >= day_2020(9, 10) && line.day() <= day_2020(10, 9)) line.set_rain(0.0);
    if (line.day() == day_2020(10, 10)) line.set_rain(25.0);
    return true;
  });
  const auto emerged = [](const std::string& bytes, Day on) {
    SiteRequest request = question(bytes, on);
    request.irrigation = emergence::Irrigation{false, 0.0};
    return target_of(answered(request)).emerged_percent.middle;
  };
  const double before_rain = emerged(dry, day_2020(10, 10));
  const double without_drought = emerged(file, day_2020(10, 10));
  const double week_later = emerged(dry, day_2020(10, 17));
  const double three_weeks_later = emerged(dry, day_2020(11, 1));
  CAPTURE(before_rain, without_drought, week_later, three_weeks_later);
  CHECK(before_rain < without_drought - 10.0);
  CHECK(week_later - before_rain > 15.0);  // what waited comes up within a week of the rain
  CHECK(std::abs(three_weeks_later - emerged(file, day_2020(11, 1))) < 8.0);
}

TEST_CASE("nothing measured on or after the day of the answer changes it") {
  for (const bool probe : {true, false}) {
    auto file = station_text("KY_Bowling_Green_21_NNE");
    if (!probe) file = air_only(file);
    const Day on = day_2020(10, 8);
    const std::string rewritten = edited(file, [&](StationLine& line) {
      if (line.day() >= on) {
        line.warm(-4.0);
        line.set_rain(9.0);
      }
      return true;
    });
    REQUIRE(rewritten != file);
    CHECK(json_of(answered(question(rewritten, on))) == json_of(answered(question(file, on))));
    // The same values one day earlier do change it: the comparison can fail.
    CHECK(json_of(answered(question(rewritten, on + Days{1}))) !=
          json_of(answered(question(file, on + Days{1}))));
  }
}

TEST_CASE("a southern year is answered as the northern one half a year away") {
  const auto file = station_text("TN_Crossville_7_NW");
  constexpr Days half_year{183};  // 21 June to 21 December 2020
  const std::string southern = edited(file, [&](StationLine& line) {
    line.move_to(line.day() + half_year);
    line.put(31, 37, -line.get(31, 37), 2);
    return true;
  });
  for (const Day on : {day_2020(9, 1), day_2020(10, 1), day_2020(10, 20), day_2020(12, 20)}) {
    const TargetAnswer north = target_on(file, on);
    const TargetAnswer south = target_on(southern, on + half_year);
    CAPTURE(iso(on), north.emerged_percent.middle, south.emerged_percent.middle);
    CHECK(south.season_start == make_day(2020, 12, 21));
    CHECK(south.decision.kind == north.decision.kind);
    // Soil is measured, so only what lies ahead (drawn differently) may move the share of the whole.
    CHECK(south.emerged_percent.middle == Approx(north.emerged_percent.middle).margin(4.0));
    CHECK(south.juvenile_percent.middle == Approx(north.juvenile_percent.middle).margin(5.0));
    const auto apart = *milestone(south, 25).middle - *milestone(north, 25).middle - half_year;
    CHECK(std::abs(apart.count()) <= 4);
  }
}

TEST_CASE("days of a forecast count as known weather") {
  const auto file = station_text("KY_Bowling_Green_21_NNE");
  const Day on = day_2020(9, 28);
  const auto forecast_of = [&](double kelvin) {
    return edited(air_only(file), [&](StationLine& line) {
      line.warm(kelvin);
      return line.day() >= on && line.day() < on + Days{10};
    });
  };
  const SiteAnswer without = answered(question(air_only(file), on));
  const auto with = [&](double kelvin) {
    SiteRequest request = question(air_only(file), on);
    request.weather.push_back({"forecast.txt", forecast_of(kelvin), true, {}});
    return answered(request);
  };
  const SiteAnswer as_it_came = with(0.0);
  CHECK(!without.weather.last_forecast);
  CHECK(*as_it_came.weather.last_measured == on - Days{1});
  CHECK(*as_it_came.weather.last_forecast == on + Days{9});
  // A warm forecast puts the wave off, a cold one brings it on.
  const auto half = [](const SiteAnswer& answer) { return *milestone(target_of(answer), 50).middle; };
  CAPTURE(iso(half(without)), iso(half(with(-5.0))), iso(half(as_it_came)), iso(half(with(5.0))));
  CHECK(half(with(-5.0)) < half(with(5.0)));
  // And ten days less to guess make the date surer.
  const DateBand open = milestone(target_of(without), 50);
  const DateBand known = milestone(target_of(as_it_came), 50);
  CHECK(*known.high - *known.low <= *open.high - *open.low);
}

TEST_CASE("a hole of more than ten days in the season is refused and the lack named") {
  const auto file = station_text("TN_Crossville_7_NW");
  const auto without = [&](Day from, int days) {
    return edited(file,
                  [&](StationLine& line) { return line.day() < from || line.day() >= from + Days{days}; });
  };
  const SiteAnswer refused = answered(question(without(day_2020(8, 5), 11), day_2020(10, 20)));
  REQUIRE(refused.targets.size() == 1);
  REQUIRE(refused.targets.front().refusal);
  const Problem& problem = *refused.targets.front().refusal;
  CHECK(problem.family == Family::data);
  CHECK(problem.what.find("hole") != std::string::npos);
  CHECK(problem.what.find("2020-08-15") != std::string::npos);  // the last day of the hole
  CHECK(problem.expected.find("every day") != std::string::npos);
  CHECK(refused.problems.size() == 1);
  CHECK(refused.weather.missing_days == 11);

  const SiteAnswer filled = answered(question(without(day_2020(8, 5), 10), day_2020(10, 20)));
  CHECK(target_of(filled).decision.kind == treatment::Kind::pre_post);
  CHECK(filled.weather.filled_days == 10);
  CHECK(filled.weather.missing_days == 0);
  CHECK(said(filled.remarks, "filled-from-normals"));

  const SiteAnswer short_hole = answered(question(without(day_2020(8, 5), 3), day_2020(10, 20)));
  CHECK(short_hole.weather.filled_days == 3);
  CHECK(!said(short_hole.remarks, "filled-from-normals"));
}

TEST_CASE("guessed days make the answer less sure") {
  const auto file = station_text("KY_Bowling_Green_21_NNE");
  const std::string whole = air_only(file);
  const std::string holed = edited(
      whole, [](StationLine& line) { return line.day() < day_2020(9, 26) || line.day() >= day_2020(10, 6); });
  // Of the soil, where the guess acts: in the percent the difference between the component models hides it.
  const auto soil_spread = [&](const std::string& text) {
    SiteRequest request = question(text, day_2020(10, 8));
    request.season_tables = true;
    const SiteAnswer answer = answered(request);
    for (const advice::SeasonDay& row : target_of(answer).season) {
      if (row.day == day_2020(10, 4)) return (row.soil_high - row.soil_low).kelvin();
    }
    return 0.0;
  };
  CAPTURE(soil_spread(whole), soil_spread(holed));
  CHECK(soil_spread(holed) > soil_spread(whole) + 0.2);
}

TEST_CASE("knowing more days never makes a past day less sure") {
  const auto file = station_text("KY_Bowling_Green_21_NNE");
  const std::string record = air_only(file);
  const int past = static_cast<int>((day_2020(9, 28) - day_2020(6, 21)).count());
  double before = 1e9;
  for (const Day on :
       {day_2020(9, 29), day_2020(10, 10), day_2020(10, 20), day_2020(11, 20), day_2020(12, 20)}) {
    const TargetAnswer answer = with_season(record, on);
    const double now = width(answer.season[static_cast<std::size_t>(past)].emerged_percent);
    CAPTURE(iso(on), before, now);
    CHECK(now <= before + 2.0);  // 400 members leave about two points of chance in a band's ends
    before = now;
  }
}

namespace {

/// One of several years of public weather, without any soil; asked on 20 October or, in spring, for
/// crabgrass.
SiteRequest city_question(const std::string& bytes, const std::string& station, Place place, Day on) {
  SiteRequest request = question(bytes, on);
  request.place = place;
  request.weather.front().reading.station = station;
  request.season_tables = true;
  return request;
}

/// A season as it must look whatever the weather: a share that never falls, ends at the whole, within its
/// band.
void check_season(const TargetAnswer& target) {
  REQUIRE(target.season.size() >= 365);
  double before = 0.0;
  for (const advice::SeasonDay& day : target.season) {
    const Band<double>& share = day.emerged_percent;
    const bool sound = share.middle >= before - 1e-9 && share.low <= share.middle &&
                       share.middle <= share.high && share.low >= 0.0 && share.high <= 100.0 + 1e-9;
    if (!sound) FAIL("season breaks on " << iso(day.day));
    before = share.middle;
  }
  CHECK(before == Approx(100.0).margin(1e-6));
}

const Place new_york{40.78, -73.97, {}};
const Place seattle{47.45, -122.31, {}};

}  // namespace

TEST_CASE("four New York seasons have their wave in autumn and crabgrass in spring", "[records]") {
  const auto folder = record_folder("vega_noaa");
  const std::string bytes = whole_file(folder / "weather.csv");
  for (const int year : {2012, 2013, 2014, 2015}) {
    SiteRequest request = city_question(bytes, "New York", new_york, make_day(year, 10, 20));
    const TargetAnswer fall = target_of(answered(request));
    const DateBand half = milestone(fall, 50);
    CAPTURE(year, text_of(half), fall.emerged_percent.middle);
    check_season(fall);
    CHECK(fall.decision.kind == treatment::Kind::pre_post);
    CHECK(*half.middle >= make_day(year, 9, 25));
    CHECK(*half.middle <= make_day(year, 10, 25));

    // Crabgrass of the mid-Atlantic: Fidanza et al. 1996, Crop Sci 36:990-996, counted from April to August.
    request.on = make_day(year, 6, 15);
    request.targets = {"DIGIS"};
    const TargetAnswer crabgrass = target_of(answered(request));
    check_season(crabgrass);
    CAPTURE(text_of(milestone(crabgrass, 5)), text_of(milestone(crabgrass, 90)));
    CHECK(*milestone(crabgrass, 5).middle >= make_day(year, 4, 1));
    CHECK(*milestone(crabgrass, 90).middle <= make_day(year, 8, 31));
  }
}

TEST_CASE("four Seattle seasons of a public record are answered without a forced date", "[npm]") {
  const std::string bytes = whole_file(SOILCLOCK_SEATTLE_CSV);
  REQUIRE_FALSE(bytes.empty());
  for (const int year : {2012, 2013, 2014, 2015}) {
    const SiteRequest request = city_question(bytes, "", seattle, make_day(year, 10, 20));
    const SiteAnswer answer = answered(request);
    const TargetAnswer target = target_of(answer);
    CAPTURE(year, name(target.decision.action), text_of(milestone(target, 50)));
    check_season(target);
    // Summers there are cool and the soil estimate was made elsewhere: no window, or one that comes with both
    // warnings, late in summer or in autumn, and is a month wide.
    if (target.decision.action != Action::no_single_week) {
      const DateBand half = milestone(target, 50);
      CHECK(said(target.remarks, "outside-validity"));
      CHECK(said(answer.remarks, "soil-probe-needed"));
      CHECK(*half.middle >= make_day(year, 8, 15));
      CHECK(*half.middle <= make_day(year, 10, 20));
      CHECK(*half.high - *half.low >= Days{30});
    }
    // The same question twice gives the same bytes, another seed moves the guesses.
    CHECK(json_of(answered(request)) == json_of(answer));
    SiteRequest reseeded = request;
    reseeded.seed = 2;
    if (target.decision.action != Action::no_single_week)
      CHECK(json_of(answered(reseeded)) != json_of(answer));
  }
}

TEST_CASE("a record that ended weeks ago is not answered for today") {
  const auto file = station_text("TN_Crossville_7_NW");
  const std::string stale = edited(file, [](StationLine& line) { return line.day() < day_2020(10, 9); });
  const SiteAnswer late = answered(question(stale, day_2020(10, 20)));
  CHECK(late.targets.empty());
  REQUIRE(late.problems.size() == 1);
  CHECK(late.problems.front().what.find("2020-10-08") != std::string::npos);
  const SiteAnswer just_in_time = answered(question(stale, day_2020(10, 19)));
  CHECK(target_of(just_in_time).decision.kind == treatment::Kind::pre_post);
}
