// SPDX-License-Identifier: MIT
// Each model with its central numbers over measured soil near the places of the papers, beside what the
// papers report. Prints the whole table, agreeing or not; asserts only what agrees, with room for one station
// and one year.
#include <catch2/catch.hpp>
#include <cstdio>
#include <map>

#include "emergence/member_run.hpp"
#include "emergence/sum_curve.hpp"
#include "support/reference_station.hpp"
#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using namespace soilclock::emergence;

namespace {

/// A season of measured soil, air and rain at a station; days after 2020 are those a year before.
class MeasuredSeason {
 public:
  MeasuredSeason(const ReferenceStation& station, SeasonKind kind, double warmer_k = 0.0)
      : place_{station.place}, season_{season_of(make_day(2020, 8, 1), kind, Hemisphere::north)} {
    const auto at_5cm = short_gaps_filled(station.soil.at(5), 10);
    const auto at_10cm = short_gaps_filled(station.soil.at(10), 10);
    const auto air = short_gaps_filled(station.air_mean, 10);
    const TemperatureDelta warmer = TemperatureDelta::from_kelvin(warmer_k);
    Temperature last;
    for (Day day = season_.first - Days{lead_in_days}; day < season_.end(); day += Days{1}) {
      const Day source =
          std::max(day >= make_day(2020, 12, 30) ? day - Days{366} : day, make_day(2020, 1, 2));
      last = at_5cm.at(source).value_or(last);
      soil_.push_back(last + warmer);
      const Temperature deep = at_10cm.at(source).value_or(last);
      shallow_.push_back(last + (last - deep) * 0.5 + warmer);  // the line through both depths, to 2.5 cm
      air_.push_back(air.at(source).value_or(air_.empty() ? last : air_.back()) +
                     (air.at(source) ? warmer : TemperatureDelta{}));
      rain_.push_back(station.rain.at(source).value_or(Rain::unknown()));
    }
  }
  SeasonDrivers drivers() const {
    water_ = week_of_water(rain_, {true, 0.0}, 4);
    return {season_, {true, 0.0}, soil_, shallow_, air_, water_, {0.9}};
  }
  const Place& place() const { return place_; }
  const Season& season() const { return season_; }
  Day day(int season_day) const { return season_.first + Days{season_day}; }
  int day_number(unsigned month, unsigned day) const { return season_day({month, day}, season_); }
  EmergenceCurve run(const std::string& model) const {
    const EmergenceModel& found = shipped_catalogue().emergence.at(model);
    return run_member({&found, central_parameters(found)}, nullptr, drivers(), place_);
  }
  double week_soil_c(int season_day, bool shallow = false) const {
    return trailing_week(shallow ? shallow_ : soil_).at(static_cast<std::size_t>(season_day)).celsius();
  }

 private:
  Place place_;
  Season season_;
  std::vector<Temperature> soil_, shallow_, air_;
  std::vector<Rain> rain_;
  mutable std::vector<Rain> water_;
};

MeasuredSeason season_at(const std::string& name, SeasonKind kind, double warmer_k = 0.0) {
  return MeasuredSeason{reference_station(name), kind, warmer_k};
}

/// First day of the seven in which most comes up.
int fastest_week(const EmergenceCurve& curve) {
  int best = 0;
  for (int d = 0; d + 6 < static_cast<int>(curve.up.size()); ++d) {
    if (curve.at(d + 6) - curve.at(d - 1) > curve.at(best + 6) - curve.at(best - 1)) best = d;
  }
  return best;
}

void row(const char* what, const std::string& model, const std::string& got, const char* paper) {
  std::printf("  %-46s %-28s %-22s %s\n", what, model.c_str(), got.c_str(), paper);
}

std::string number(double value, int decimals = 1) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string date_of(std::optional<Day> day) { return day ? short_date(*day) : "never"; }

const std::vector<std::string> bluegrass_models{"POAAN_release", "POAAN_soil_crossing",
                                                "POAAN_cooling_degree_days", "POAAN_calendar_maryland"};

}  // namespace

TEST_CASE("annual bluegrass near the Maryland trials") {
  // Kaminski & Dernoeden 2007, Crop Sci 47:775-781. Avondale lies 100 km from the trials, had a cool
  // September in 2020.
  const auto avondale = season_at("PA_Avondale_2_N", SeasonKind::fall);
  std::printf("Annual bluegrass, Maryland trials; Avondale 2020, measured soil\n");
  for (const std::string& model : bluegrass_models) {
    const EmergenceCurve curve = avondale.run(model);
    const auto percent = [&](unsigned month, unsigned day) {
      return 100.0 * curve.at(avondale.day_number(month, day));
    };
    const double wave = percent(10, 15) - percent(9, 22);
    const double november = percent(11, 5);
    const Day week = avondale.day(fastest_week(curve));
    row("share 23 Sep-15 Oct, %", model, number(wave), "50-70");
    row("by 5 November, %", model, number(november), "76");
    row("fastest week begins", model, date_of(week), "early October");
    row("up on 31 August, %", model, number(percent(8, 31), 2), "begins in August");
    CAPTURE(model, wave, november, iso(week));
    CHECK(week >= make_day(2020, 9, 17));
    CHECK(week <= make_day(2020, 10, 12));
    if (model == "POAAN_soil_crossing" || model == "POAAN_calendar_maryland") {
      CHECK(wave >= 45.0);
      CHECK(wave <= 75.0);
    }
    if (model != "POAAN_cooling_degree_days") CHECK(november == Approx(76.0).margin(10.0));
    if (model == "POAAN_release") CHECK(percent(8, 31) > 1.0);
  }
  std::printf(
      "  known disagreement: the calendar has nothing up in August, where the paper saw the first "
      "seedlings;\n"
      "  the release member stays at the low side of 50-70.\n");
}

TEST_CASE("annual bluegrass as at Knoxville") {
  // Taylor et al. 2021, Scientific Reports 11: fastest in weeks 40-43 (28 Sep-25 Oct 2020), seven-day soil
  // mean 18.9 C; thesis 2021: first seedlings at 12 and 8 cooling units. Crossville lies 300 m higher: 2 C
  // are added.
  const auto knoxville = season_at("TN_Crossville_7_NW", SeasonKind::fall, 2.0);
  std::printf("Annual bluegrass, Tennessee trials; Crossville 2020 warmed by 2 C\n");
  const auto units =
      model_sum(shipped_catalogue().emergence.at("POAAN_cooling_degree_days"), knoxville.drivers());
  const int at_8 = *day_reaching(units, DegreeDays::from_celsius_days(8.0));
  const int at_12 = *day_reaching(units, DegreeDays::from_celsius_days(12.0));
  for (const std::string& model : bluegrass_models) {
    const EmergenceCurve curve = knoxville.run(model);
    const int week = fastest_week(curve);
    row("fastest week begins", model, date_of(knoxville.day(week)), "28 Sep-19 Oct (weeks 40-43)");
    row("soil of that week, C", model, number(knoxville.week_soil_c(week + 6)), "18.9");
    row("up at 8 and 12 cooling units, %", model,
        number(100.0 * curve.at(at_8), 2) + " and " + number(100.0 * curve.at(at_12), 2), "first seedlings");
    if (model != "POAAN_soil_crossing") continue;
    CAPTURE(date_of(knoxville.day(week)));
    CHECK(knoxville.day(week) >= make_day(2020, 9, 27));
    CHECK(knoxville.day(week) <= make_day(2020, 10, 19));
    CHECK(knoxville.week_soil_c(week + 6) == Approx(18.9).margin(2.5));
    CHECK(curve.at(at_12) > 0.0);
    CHECK(curve.at(at_12) < 0.06);
  }
  std::printf("  8 and 12 units on %s and %s (no dates published)\n", date_of(knoxville.day(at_8)).c_str(),
              date_of(knoxville.day(at_12)).c_str());
}

TEST_CASE("annual bluegrass on the Louisiana coast") {
  // State extension: seedlings from September, flushes not until October or November.
  const auto lafayette = season_at("LA_Lafayette_13_SE", SeasonKind::fall);
  std::printf("Annual bluegrass, Louisiana; Lafayette 2020, measured soil\n");
  for (const std::string model : {"POAAN_release", "POAAN_soil_crossing"}) {
    const EmergenceCurve curve = lafayette.run(model);
    const Day tenth = lafayette.day(*curve.first_day_reaching(0.10));
    row("10 % and 50 % up", model,
        date_of(tenth) + " and " + date_of(lafayette.day(*curve.first_day_reaching(0.5))),
        "flushes October or November");
    CHECK(tenth >= make_day(2020, 10, 1));
    CHECK(tenth <= make_day(2020, 11, 15));
  }
}

TEST_CASE("smooth crabgrass of the Maryland trials") {
  // Fidanza et al. 1996, Crop Sci 36:990-996: first seedlings at 42-78, major emergence at 140-230
  // degree-days above 12 C at 2.5 cm; seven-day soil means before the first seedlings 13.9-17.5 C; large
  // numbers above 22.8 C.
  std::printf("Smooth crabgrass, Maryland trials\n");
  for (const std::string model :
       {"DIGIS_maryland_25_75", "DIGIS_maryland_20_80", "DIGIS_maryland_25_80", "DIGIS_maryland_10_60"}) {
    const EmergenceModel& found = shipped_catalogue().emergence.at(model);
    const Curve curve = *response_curve(found, central_parameters(found));
    row("up at 42 and 78 degree-days, %", model,
        number(100.0 * curve.value(42.0), 2) + " and " + number(100.0 * curve.value(78.0), 2),
        "first seedlings");
    row("up at 140 and 230 degree-days, %", model,
        number(100.0 * curve.value(140.0)) + " and " + number(100.0 * curve.value(230.0)), "major emergence");
    CHECK(curve.value(42.0) < 0.001);
    CHECK(curve.value(78.0) > 0.001);
    CHECK(curve.value(78.0) < 0.02);
  }
  std::vector<double> first;
  std::vector<double> large;
  std::printf("  %-26s  42 d-d on      at C    140 d-d on     at C\n", "2020, soil at 2.5 cm");
  for (const std::string& name :
       at_hand({"PA_Avondale_2_N", "VA_Charlottesville_2_SSE", "KY_Bowling_Green_21_NNE",
                "KS_Manhattan_6_SSW", "RI_Kingston_1_NW", "NC_Durham_11_W"})) {
    const auto season = season_at(name, SeasonKind::summer);
    const auto sum = model_sum(shipped_catalogue().emergence.at("DIGIS_maryland_25_75"), season.drivers());
    const int begins = *day_reaching(sum, DegreeDays::from_celsius_days(42.0));
    const int major = *day_reaching(sum, DegreeDays::from_celsius_days(140.0));
    first.push_back(season.week_soil_c(begins, true));
    large.push_back(season.week_soil_c(major, true));
    std::printf("  %-26s  %-12s %6.1f    %-12s %6.1f\n", name.c_str(), date_of(season.day(begins)).c_str(),
                first.back(), date_of(season.day(major)).c_str(), large.back());
  }
  std::sort(first.begin(), first.end());
  CHECK(first[first.size() / 2] >= 12.5);
  CHECK(first[first.size() / 2] <= 18.5);
  std::printf(
      "  paper: 13.9-17.5 C before the first seedlings; known disagreement: above 22.8 C for large numbers,\n"
      "  which soil has not reached at 140 degree-days.\n");
}

TEST_CASE("the Ohio air sum beside the Maryland soil sum") {
  // First smooth crabgrass at 155 F degree-days above 50 F from 1 January (Ohio extension column 2019;
  // Cardina et al. 2011, Weed Technol 25:141-150), 86.1 C d. The two rules agree within two weeks in the
  // Northeast and around the Great Lakes and part in the South, where winter warm spells fill an air sum.
  enum class Region { north_east, plains, south };
  struct Place2020 {
    std::string name;
    Region region;
    Day air;  ///< worked by another script from the same records
  };
  const auto day = [](unsigned month, unsigned day_of_month) { return make_day(2020, month, day_of_month); };
  const std::vector<Place2020> places{{"PA_Avondale_2_N", Region::north_east, day(5, 15)},
                                      {"IL_Shabbona_5_NNE", Region::north_east, day(5, 21)},
                                      {"NY_Ithaca_13_E", Region::north_east, day(5, 27)},
                                      {"RI_Kingston_1_NW", Region::north_east, day(5, 28)},
                                      {"WV_Elkins_21_ENE", Region::north_east, day(5, 24)},
                                      {"KS_Manhattan_6_SSW", Region::plains, day(4, 11)},
                                      {"KY_Bowling_Green_21_NNE", Region::south, day(3, 28)},
                                      {"VA_Charlottesville_2_SSE", Region::south, day(3, 29)},
                                      {"TN_Crossville_7_NW", Region::south, day(3, 28)},
                                      {"NC_Durham_11_W", Region::south, day(3, 3)}};
  std::printf("Smooth crabgrass, first seedlings 2020: Ohio air sum and Maryland soil sum\n");
  const EmergenceModel& ohio = shipped_catalogue().emergence.at("DIGIS_ohio_onset");
  const EmergenceModel& maryland = shipped_catalogue().emergence.at("DIGIS_maryland_25_75");
  for (const Place2020& place : places) {
    if (!reference_files().contains(place.name)) continue;
    const auto season = season_at(place.name, SeasonKind::summer);
    const int air_day = *day_reaching(model_sum(ohio, season.drivers()),
                                      DegreeDays::from_celsius_days(ohio.parameter("onset_sum")));
    const Day air = season.day(air_day);
    const Day soil =
        season.day(*day_reaching(model_sum(maryland, season.drivers()), DegreeDays::from_celsius_days(42.0)));
    const auto apart = (soil - air).count();
    const double soil_c = season.week_soil_c(air_day);
    std::printf("  %-26s air %-8s (soil %4.1f C)  soil %-8s  %+d d\n", place.name.c_str(),
                date_of(air).c_str(), soil_c, date_of(soil).c_str(), static_cast<int>(apart));
    CAPTURE(place.name, iso(air), iso(soil), soil_c);
    // A degree-day is worth a day in May and several in February.
    CHECK(std::abs((air - place.air).count()) <= (place.region == Region::south ? 7 : 2));
    if (place.region == Region::north_east) CHECK(std::abs(apart) <= 16);
    if (place.region == Region::plains) CHECK(apart >= 14);
    if (place.region == Region::south) CHECK((air < day(4, 1) && apart > 0));
    CHECK(ohio.validity.contains(season.place()) == (place.region == Region::north_east));
  }
}
