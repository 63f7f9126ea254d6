// SPDX-License-Identifier: MIT
// From noted counts to the answer: the way through the records, the pipeline and the JSON document.
#include <catch2/catch.hpp>

#include "records/entries/typed_record.hpp"
#include "site/site_log_entries.hpp"
#include "support/record_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const Day on = make_day(2020, 10, 12);

records::Record noted(std::vector<records::Given> fields) {
  fields.push_back({"site", {"record"}});
  auto record = records::make_record(records::RecordKind::count, fields);
  if (!record) FAIL(describe(record.error()));
  return *record;
}

SiteRequest scouted_request(const std::vector<records::Record>& entries) {
  SiteRequest request = question(air_only(station_text("KY_Bowling_Green_21_NNE")), on);
  request.log = site_log(entries, shipped_catalogue());
  return request;
}

std::vector<records::Given> plots_on(const std::string& date, const std::vector<std::string>& counts) {
  return {{"date", {date}}, {"target", {"POAAN"}}, {"plot_area", {"0.1m2"}}, {"count", counts}};
}

}  // namespace

TEST_CASE("a noted count reaches the log with everything that was said about it") {
  auto fields = plots_on("2020-10-05", {"3", "0", "7"});
  fields.push_back({"counted", {"new"}});
  fields.push_back({"stage", {"2 leaves"}});
  fields.push_back({"area", {"green 3"}});
  const auto log =
      site_log({noted(fields), noted({{"date", {"2020-10-06"}}, {"target", {"POAAN"}}, {"share", {"4%"}}})},
               shipped_catalogue());
  REQUIRE(log.counts.size() == 2);
  const advice::LoggedCount& count = log.counts.front();
  CHECK(count.day == make_day(2020, 10, 5));
  CHECK(count.target == "POAAN");
  CHECK(count.counts == std::vector<int>{3, 0, 7});
  CHECK(count.plot_area_m2.value() == Approx(0.1));
  CHECK(count.fresh);
  CHECK(count.stage == advice::SeenStage::leaves_1_3);
  CHECK(count.area == "green 3");
  CHECK(!log.counts.back().fresh);
  CHECK(log.counts.back().ground_share->percent() == Approx(4.0));
}

TEST_CASE("no plant found moves the dates later, and the answer keeps both curves and says so") {
  const auto plain = scouted_request({});
  const std::vector<std::string> none(20, "0");
  const auto scouted =
      scouted_request({noted(plots_on("2020-09-28", none)), noted(plots_on("2020-10-08", none))});
  const advice::SiteAnswer before = answered(plain);
  const advice::SiteAnswer after = answered(scouted);
  const advice::TargetAnswer& target = after.targets.front();
  REQUIRE(target.before_scouting);
  CHECK(target.emerged_percent.middle < before.targets.front().emerged_percent.middle);
  CHECK(*milestone(target, 50).middle > *milestone(before.targets.front(), 50).middle);
  CHECK(target.before_scouting->emerged_percent.middle == before.targets.front().emerged_percent.middle);
  CHECK(all_reasons(target).find("no plant in 40 plots") != std::string::npos);
  const std::string json = json_of(after);
  CHECK(json.find("\"before_scouting\"") != std::string::npos);
  CHECK(json_of(answered(scouted)) == json);
}

TEST_CASE("without a count that can be used the answer is the same to the byte") {
  const auto plain = scouted_request({});
  const std::string json = json_of(answered(plain));
  CHECK(json.find("before_scouting") == std::string::npos);
  auto other = plots_on("2020-10-05", {"4"});
  other[1] = {"target", {"DIGIS"}};
  const auto unused = scouted_request(
      {noted(plots_on("2020-10-12", {"9", "4"})), noted(plots_on("2019-10-05", {"9"})), noted(other)});
  CHECK(json_of(answered(unused)) == json);
}
