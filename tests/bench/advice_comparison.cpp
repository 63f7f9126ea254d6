// SPDX-License-Identifier: MIT
// The main job for one site: twelve past seasons, four targets; and the search over weeks and kinds in it
// alone.
#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "bench/comparison.hpp"
#include "core/random.hpp"
#include "pipeline.hpp"
#include "support/textbook_season.hpp"
#include "treatment/treatment_draw.hpp"

namespace soilclock::bench {

namespace {

constexpr int repeats = 5;
const std::string samples = SOILCLOCK_SOURCE_DIR "/weather_samples/";

std::string bytes_of(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

}  // namespace

const advice::Catalogue& catalogue() {
  static const advice::Catalogue loaded = [] {
    auto result = advice::load_catalogue(advice::built_in_files());
    if (!result) throw std::runtime_error{describe(result.error())};
    return *std::move(result);
  }();
  return loaded;
}

advice::SiteAnswer advised() {
  SiteRequest request;
  request.id = "copper-heron";
  request.name = "Copper Heron";
  request.place = Place{35.6, -83.1, 310.0};
  request.irrigation = emergence::Irrigation{true, 0.0};
  request.weather.push_back({"copper_heron.csv", bytes_of(samples + "copper_heron.csv"), false, {}});
  request.weather.push_back(
      {"copper_heron_forecast.csv", bytes_of(samples + "copper_heron_forecast.csv"), true, {}});
  request.on = make_day(2026, 10, 15);
  request.targets = {"POAAN", "DIGIS", "DIGSA", "ELEIN"};
  return answer_site(request, catalogue());
}

std::vector<Comparison> compare_advice() {
  Comparison row{"advise: 1 site, 12 seasons, 4 targets",
                 "python csv reading that file only",
                 0.0,
                 {},
                 "not run: no python3",
                 true};
  catalogue();  // loading it is no part of the job
  std::vector<double> times;
  for (int i = 0; i < repeats; ++i) {
    advice::SiteAnswer answer;
    times.push_back(seconds_of([&] { answer = advised(); }));
    if (answer.targets.size() != 4 || !answer.problems.empty()) {
      row.answers_agree = false;
      row.note = answer.problems.empty() ? "a target is missing" : describe(answer.problems.front());
    }
  }
  row.ours_s = middle(times);
  const std::string path = samples + "copper_heron.csv";
  const auto output =
      output_of("/usr/bin/python3 '" SOILCLOCK_SOURCE_DIR "/tests/bench/csv_reading.py' '" + path + "'");
  if (row.answers_agree && output) {
    int count = 0;
    double seconds = 0.0;
    std::istringstream{*output} >> count >> seconds;
    const std::string text = bytes_of(path);
    row.answers_agree = count == std::count(text.begin(), text.end(), '\n') - 1;
    row.other_s = seconds;
    row.note = row.answers_agree ? "the whole answer against reading alone" : "rows were lost";
  }
  return {row};
}

std::vector<Comparison> time_expected_control() {
  constexpr int member_count = 300;
  constexpr int weeks = 40;
  const RandomField field{20240607};
  const treatment::GrassControl& grass = catalogue().control_of("POAAN");
  const treatment::TreatmentRules rules{&grass, &catalogue().mixture, &catalogue().residual};
  const treatment::TreatmentParts parts = treatment::unnamed_parts(grass);
  const emergence::GrowthModel& growth = catalogue().growth.at("POAAN_leaf_pace");
  std::deque<treatment::TextbookSeason> seasons;
  for (std::uint64_t i = 0; i < member_count; ++i)
    seasons.emplace_back(growth, 4.0 * field.normal(99, i), 0.0, 60.0 + 30.0 * field.uniform(98, i));
  const Day start = monday_of(treatment::TextbookSeason::day(-60));
  std::vector<double> times;
  double sum = 0.0;
  for (int i = 0; i < repeats; ++i) {
    times.push_back(seconds_of([&] {
      sum = 0.0;
      for (std::uint64_t member = 0; member < member_count; ++member) {
        const treatment::SeasonCohorts cohorts = seasons[member].cohorts();
        const auto drawn = treatment::draw_treatment(field, member, parts, rules);
        const treatment::ExpectedControl control{cohorts, drawn, grass, catalogue().residual};
        for (int week = 0; week < weeks; ++week)
          sum += control.on(start + Days{7 * week})[treatment::index_of(treatment::Kind::pre_post)];
      }
    }));
  }
  return {{"expected control: 300 members x 40 weeks x 3",
           "nothing comparable",
           middle(times),
           {},
           fmt::format("mean pre+post {:.0f} percent", 100.0 * sum / (member_count * weeks)),
           true}};
}

}  // namespace soilclock::bench
