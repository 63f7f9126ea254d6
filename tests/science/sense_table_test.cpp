// SPDX-License-Identifier: MIT
// One line for every measured station, to be read by people: do the dates make sense from the Gulf to the
// northern plains? Printed with each run; what is checked is only what must hold everywhere.
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>

#include "support/record_answers.hpp"

using namespace soilclock;

namespace {

/// The answer for a station's file as it lies, on a day.
advice::SiteAnswer answer_for_file(const std::filesystem::path& file, Day on) {
  return tests::answered(tests::question(tests::whole_file(file), on));
}

/// "8 Aug / 8 Sep / 24 Sep": the season is in the heading.
std::string dates_of(const DateBand& band) {
  const auto day = [](const std::optional<Day>& d) { return d ? short_date(*d) : std::string{"-"}; };
  return day(band.low) + " / " + day(band.middle) + " / " + day(band.high);
}

/// "treat pre+post".
std::string words_of(const advice::Decision& decision) {
  std::string words{advice::name(decision.action)};
  if (decision.kind) words += " " + std::string{treatment::name(*decision.kind)};
  return words;
}

}  // namespace

TEST_CASE("the ensemble makes sense at every measured station", "[statistics]") {
  std::printf("%-30s %6s  %-17s %-28s %-28s %-28s %s\n", "station, season 2020", "north", "said on 20 Oct",
              "5 % up", "25 % up", "50 % up", "main wave over");
  int stations = 0;
  int without_window = 0;
  for (const auto& [name, file] : tests::reference_files()) {
    const advice::SiteAnswer site = answer_for_file(file, make_day(2020, 12, 31));
    const advice::SiteAnswer october = answer_for_file(file, make_day(2020, 10, 20));
    INFO(name);
    REQUIRE(site.targets.size() == 1);
    const advice::TargetAnswer& answer = site.targets.front();
    ++stations;
    if (answer.refusal) {
      std::printf("%-30s refused: %s\n", name.c_str(), answer.refusal->what.c_str());
      continue;
    }
    const std::string said = october.targets.empty() ? "-" : words_of(october.targets.front().decision);
    if (answer.decision.action == advice::Action::no_single_week) {
      ++without_window;
      CHECK_FALSE(answer.reasons.empty());
      std::printf("%-30s %6.2f  %-17s\n", name.c_str(), site.place.latitude_deg, said.c_str());
      continue;
    }
    std::printf("%-30s %6.2f  %-17s %-28s %-28s %-28s %s\n", name.c_str(), site.place.latitude_deg,
                said.c_str(), dates_of(tests::milestone(answer, 5)).c_str(),
                dates_of(tests::milestone(answer, 25)).c_str(),
                dates_of(tests::milestone(answer, 50)).c_str(), dates_of(answer.main_wave_over).c_str());
    // In order within a season, and never before seed leaves its summer rest.
    CHECK(tests::milestone(answer, 5).middle <= tests::milestone(answer, 25).middle);
    CHECK(tests::milestone(answer, 25).middle <= tests::milestone(answer, 50).middle);
    CHECK(*tests::milestone(answer, 5).low >= make_day(2020, 8, 1));
    // The far south comes last: half up not before November below 31 degrees, not after October above 37.
    if (site.place.latitude_deg < 31.0) CHECK(*tests::milestone(answer, 50).middle >= make_day(2020, 11, 1));
    if (site.place.latitude_deg > 39.0) CHECK(*tests::milestone(answer, 50).middle <= make_day(2020, 10, 31));
  }
  std::printf("%d stations, %d without a single window\n", stations, without_window);
  CHECK(stations == (tests::have_record_folder() ? 75 : 6));
  CHECK(without_window >= (tests::have_record_folder() ? 5 : 1));
}
