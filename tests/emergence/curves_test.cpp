// SPDX-License-Identifier: MIT
#include "emergence/curves.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

namespace soilclock::emergence {

namespace {

struct Point {
  double x;
  double percent;
};

struct Row {
  std::string what;
  CurveForm form;
  std::vector<Point> points;  // percent to four decimals
};

// Worked by a script of its own from the formulas of the literature; the parameters of the first four are
// those of the model files, of the fifth a variant for Tennessee (weeks 40-43), of the others invented to
// test the forms.
const std::vector<Row> rows{
    {"smooth crabgrass, major emergence read as 25-75 %",
     Gompertz{0.0175, 158.7},
     {{0, 0.0},
      {42, 0.0449},
      {60, 0.3606},
      {78, 1.6487},
      {100, 6.1214},
      {140, 24.9787},
      {158.7, 36.7879},
      {185, 53.1993},
      {230, 75.0399},
      {300, 91.9107},
      {400, 98.5449}}},
    {"smooth crabgrass, 25-80 %",
     Gompertz{0.02030, 156.1},
     {{42, 0.0040}, {78, 0.7586}, {140, 24.9932}, {185, 57.3397}, {230, 80.0041}, {300, 94.7555}}},
    {"annual bluegrass, calendar of Maryland",
     TwoCohorts{0.76, 278, 5, 309, 500},
     {{227, 0.0028},
      {244, 0.0846},
      {258, 1.3670},
      {266, 6.3211},
      {271, 15.0340},
      {278, 38.0},
      {288, 66.9406},
      {298, 74.6330},
      {304, 75.5830},
      {309, 75.8461},
      {365, 83.0366},
      {411, 88.8168},
      {500, 100.0}}},
    {"annual bluegrass, cooling degree-days",
     LogLogistic{97, 4},
     {{10, 0.0113}, {55, 9.3680}, {97, 50.0}, {179, 92.0613}, {250, 97.7839}}},
    {"annual bluegrass, autumn cohort of Tennessee",
     Logistic{1.0 / 6.0, 287},
     {{264, 2.1179}, {271, 6.4969}, {280, 23.7458}, {287, 50.0}, {294, 76.2542}, {300, 89.7216}}},
    {"Gompertz written a exp(-b x) with a 16, b 0.0175",
     Gompertz{0.0175, std::log(16.0) / 0.0175},
     {{0, 0.0}, {100, 6.2015}, {158.4, 36.7663}, {200, 61.6832}, {300, 91.9468}}},
    {"Weibull with lag",
     WeibullLag{40, 120, 1.6},
     {{40, 0.0}, {100, 28.0988}, {160, 63.2121}, {280, 95.1754}}},
    {"Weibull written 1 - exp(-exp(-10) x^2)",
     WeibullLag{0, std::exp(5.0), 2},
     {{50, 10.7296}, {100, 36.4917}, {123.5621, 50.0}, {150, 63.9945}, {200, 83.7324}, {250, 94.1428}}},
    {"logistic",
     Logistic{0.03, 180},
     {{0, 0.4496}, {100, 8.3173}, {180, 50.0}, {250, 89.0903}, {350, 99.3940}}},
    {"log-logistic",
     LogLogistic{180, 4},
     {{0, 0.0}, {50, 0.5919}, {100, 8.6975}, {180, 50.0}, {250, 78.8184}, {350, 93.4619}}},
    {"Chapman-Richards",
     ChapmanRichards{0.015, 8},
     {{0, 0.0}, {100, 13.2674}, {170, 52.1843}, {250, 82.6637}, {350, 95.8783}}},
};

/// Any curve of any form with sensible parameters, around x = 100.
Curve any_curve() {
  const auto between = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
  const double m = between(50, 300);
  switch (*rc::gen::inRange(0, 6)) {
    case 0:
      return Curve{Gompertz{between(5, 60) / 1000.0, m}};
    case 1:
      return Curve{WeibullLag{between(0, 100), m, between(5, 40) / 10.0}};
    case 2:
      return Curve{Logistic{between(5, 100) / 1000.0, m}};
    case 3:
      return Curve{LogLogistic{m, between(5, 80) / 10.0}};
    case 4:
      return Curve{ChapmanRichards{between(5, 60) / 1000.0, between(5, 100) / 10.0}};
    default:
      return Curve{TwoCohorts{between(1, 100) / 100.0, m, between(2, 20), m + 30.0, m + 230.0}};
  }
}

}  // namespace

TEST_CASE("curves give the worked percentages of every form") {
  for (const Row& row : rows) {
    for (const Point& point : row.points) {
      INFO(row.what << " at " << point.x);
      CHECK(100.0 * Curve{row.form}.value(point.x) == Approx(point.percent).margin(5.01e-5));
    }
  }
}

TEST_CASE("the inverse gives the worked sums of smooth crabgrass") {
  const Curve curve{Gompertz{0.0175, 158.7}};
  const std::vector<Point> points{{71.43, 1},   {96.00, 5},   {111.04, 10}, {140.04, 25}, {179.64, 50},
                                  {229.89, 75}, {244.41, 80}, {287.29, 90}, {328.43, 95}};
  for (const Point& point : points) {
    INFO(point.percent << " %");
    CHECK(curve.inverse(point.percent / 100.0).value() == Approx(point.x).margin(0.00501));
  }
}

TEST_CASE("the calendar of Maryland meets what the paper reports") {
  // Kaminski & Dernoeden 2007, Crop Sci. 47:775-781 (abstract): 50-70 % between late September and
  // mid-October, peak in early October, 24 % from November to May.
  const Curve curve{TwoCohorts{0.76, 278, 5, 309, 500}};
  const double late_september_to_mid_october = curve.value(288) - curve.value(271);
  CHECK(late_september_to_mid_october > 0.50);
  CHECK(late_september_to_mid_october < 0.70);
  CHECK(1.0 - curve.value(309) == Approx(0.24).margin(0.01));
  double fastest = 0.0;
  int day_of_fastest = 0;
  for (int day = 200; day < 500; ++day) {
    const double rate = curve.value(day + 0.5) - curve.value(day - 0.5);
    if (rate > fastest) {
      fastest = rate;
      day_of_fastest = day;
    }
  }
  CHECK(day_of_fastest == 278);
}

TEST_CASE(
    "the Maryland curve has its first seedlings where the paper saw them, without having been fitted to it") {
  // Fidanza, Dernoeden & Zhang 1996, Crop Sci. 36:990-996 (abstract): first emergence at 42-78 degree-days.
  for (const Gompertz& reading : {Gompertz{0.0175, 158.7}, Gompertz{0.02030, 156.1}, Gompertz{0.02195, 161.7},
                                  Gompertz{0.01673, 189.9}}) {
    CHECK(Curve{reading}.value(42) < 0.001);
    CHECK(Curve{reading}.value(78) > 0.001);
    CHECK(Curve{reading}.value(78) < 0.02);
  }
}

TEST_CASE("the release ceiling gives the shares of the laboratory work") {
  // Standifer & Porche-Sorbet 1984 and Standifer & Wilson 1988 (abstracts): all at 5-15 C, about half at 20,
  // none at 25.
  const ReleaseCeiling ceiling{3, 5, 15, 20, 25};
  const std::vector<Point> points{{2, 0},       {4, 0.5},  {5, 1},     {15, 1}, {17, 0.80},
                                  {18.9, 0.61}, {20, 0.5}, {22, 0.30}, {25, 0}, {28, 0}};
  for (const Point& point : points) {
    INFO(point.x << " C");
    CHECK(releasable_share(ceiling, point.x) == Approx(point.percent).margin(1e-9));
  }
  CHECK(releasable_share(ceiling, 22, 4.0) == Approx(0.7));  // as 18 C: only the warm side moves
  CHECK(releasable_share(ceiling, 4, 4.0) == Approx(0.5));
}

TEST_CASE("parameters without meaning are named") {
  CHECK(problem_of(Gompertz{0.0, 100}).value() == "k must be above 0");
  CHECK(problem_of(WeibullLag{0, 10, -1}).value() == "shape must be above 0");
  CHECK(problem_of(LogLogistic{std::nan(""), 4}).value() == "x50 must be above 0");
  CHECK(problem_of(TwoCohorts{1.2, 278, 5, 309, 500}).value() == "autumn_share must be 0 to 1");
  CHECK(problem_of(TwoCohorts{0.76, 278, 5, 500, 309}).value() == "ramp_end must be above ramp_start");
  CHECK_FALSE(problem_of(Gompertz{0.0175, 158.7}));
}

TEST_CASE("every form can be made by name from its own parameters and no other") {
  for (const CurveFormInfo& info : curve_forms()) {
    INFO(info.name);
    std::vector<std::string> asked;
    const auto form = make_curve_form(info.name, [&](std::string_view name) {
      asked.emplace_back(name);
      return static_cast<double>(asked.size());
    });
    REQUIRE(form);
    REQUIRE(asked.size() == info.parameters.size());
    for (std::size_t i = 0; i < asked.size(); ++i) CHECK(asked[i] == info.parameters[i].name);
  }
  CHECK_FALSE(make_curve_form("spline", [](std::string_view) { return 1.0; }));
}

TEST_CASE("shares of nothing and everything have no place on a curve, and unknown stays unknown") {
  const Curve curve{Gompertz{0.0175, 158.7}};
  CHECK_FALSE(curve.inverse(0.0));
  CHECK_FALSE(curve.inverse(1.0));
  CHECK_FALSE(curve.inverse(std::nan("")));
  CHECK(std::isnan(curve.value(std::nan(""))));
}

TEST_CASE("laws of curves") {
  rc::prop("a curve never falls and stays within 0 and 1", [] {
    const Curve curve = any_curve();
    const double x = static_cast<double>(*rc::gen::inRange(-100, 700));
    const double step = static_cast<double>(*rc::gen::inRange(0, 200)) / 10.0;
    RC_ASSERT(curve.value(x) >= 0.0);
    RC_ASSERT(curve.value(x + step) <= 1.0);
    RC_ASSERT(curve.value(x + step) >= curve.value(x));
  });
  rc::prop("the inverse of the value is the x it came from", [] {
    const Curve curve = any_curve();
    const double x = static_cast<double>(*rc::gen::inRange(0, 5000)) / 10.0;
    const double share = curve.value(x);
    RC_PRE(share > 1e-4 && share < 0.999);
    RC_ASSERT(std::abs(curve.inverse(share).value() - x) < 1e-6);
  });
  rc::prop("cooler soil never releases less, down to where cold begins", [] {
    const ReleaseCeiling ceiling{3, 5, 15, 20, 25};
    const double warm = static_cast<double>(*rc::gen::inRange(50, 350)) / 10.0;
    const double cool = static_cast<double>(*rc::gen::inRange(50, 350)) / 10.0;
    RC_ASSERT(releasable_share(ceiling, std::min(warm, cool)) >=
              releasable_share(ceiling, std::max(warm, cool)));
  });
}

}  // namespace soilclock::emergence
