// SPDX-License-Identifier: MIT
#include "records/entries/typed_record.hpp"

#include "records/entry_line.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include "records/entries/field.hpp"
#include "support/sample_records.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::records;
using tests::mentions;

namespace {

std::string refusal(RecordKind kind, const std::vector<Given>& fields) {
  const auto record = make_record(kind, fields);
  return record ? "" : describe(record.error());
}

}  // namespace

TEST_CASE("an application is made from what was typed") {
  const auto record = make_record(RecordKind::application, {{"site", {"copper-heron"}},
                                                            {"date", {"2026-10-14"}},
                                                            {"group", {"3", "14,5"}},
                                                            {"active", {"prodiamine", "2,4-D, simazine"}},
                                                            {"purpose", {"pre+post"}},
                                                            {"watering-in", {"0.25in"}},
                                                            {"wind", {"10 mph"}},
                                                            {"wind-from", {"NW"}},
                                                            {"air-temperature", {"59F"}},
                                                            {"start", {"6:45"}}});
  REQUIRE(record);
  const auto& a = std::get<Application>(*record);
  CHECK(a.groups == std::vector<int>{3, 14, 5});
  CHECK(a.actives == std::vector<std::string>{"prodiamine", "2,4-D", "simazine"});
  CHECK(a.purpose == Purpose::pre_and_post);
  CHECK(a.watering_in->mm() == 6.35);
  CHECK(*a.wind_m_per_s == 4.4704);
  CHECK(*a.wind_from_degrees == 315.0);
  CHECK(a.air_temperature->celsius() == 15.0);
  CHECK(a.start->minute_of_day == 405);
}

TEST_CASE("counts, readings and checks are made from what was typed") {
  const auto count = make_record(RecordKind::count, {{"site", {"x"}},
                                                     {"date", {"2026-10-20"}},
                                                     {"target", {"poaan"}},
                                                     {"count", {"12", "0", "7"}},
                                                     {"plot-area", {"1ft2"}},
                                                     {"counted", {"new"}}});
  REQUIRE(count);
  CHECK(std::get<ScoutingCount>(*count).target == "POAAN");
  CHECK(std::get<ScoutingCount>(*count).counts == std::vector<int>{12, 0, 7});
  const auto share =
      make_record(RecordKind::count,
                  {{"site", {"x"}}, {"date", {"2026-10-20"}}, {"target", {"POAAN"}}, {"share", {"0%"}}});
  REQUIRE(share);
  CHECK(std::get<ScoutingCount>(*share).visual_share == Fraction::of(0.0));
  const auto reading =
      make_record(RecordKind::reading,
                  {{"site", {"x"}}, {"date", {"2026-10-20"}}, {"depth", {"2in"}}, {"temperature", {"50F"}}});
  REQUIRE(reading);
  CHECK(std::get<ProbeReading>(*reading).temperature->celsius() == 10.0);
  const auto check =
      make_record(RecordKind::check, {{"site", {"x"}}, {"date", {"2027-01-20"}}, {"state", {"dormant"}}});
  REQUIRE(check);
  CHECK(std::get<EyeCheck>(*check).state == TurfSeen::dormant);
}

TEST_CASE("a wrong request gets one clear message") {
  const std::vector<Given> good{{"site", {"x"}}, {"date", {"2027-01-20"}}, {"state", {"dormant"}}};
  auto with = [&](Given more) {
    std::vector<Given> fields = good;
    fields.push_back(std::move(more));
    return refusal(RecordKind::check, fields);
  };
  CHECK(refusal(RecordKind::check, good) == "");
  CHECK(mentions(with({"seen-buy", {"me"}}), "did you mean 'seen_by'?"));
  CHECK(mentions(with({"area", {"a", "b"}}), "more than once"));
  CHECK(mentions(refusal(RecordKind::check, {}), "field 'site'"));
  CHECK(mentions(refusal(RecordKind::reading, {{"temperature", {"55"}}}), "the unit is missing"));
  CHECK(mentions(refusal(RecordKind::application, {{"group", {"K1"}}}), "field 'group'"));
  CHECK(parse_kind("Reading").value() == RecordKind::reading);
  CHECK(parse_kind("aplication").error().remedy == "did you mean 'application'?");
}

TEST_CASE("a correction changes the given fields only, and an empty value takes one away") {
  const auto changed =
      changed_record(sample::application(), {{"area", {"greens"}}, {"notes", {""}}, {"group", {"29"}}});
  REQUIRE(changed);
  const auto& a = std::get<Application>(*changed);
  CHECK(a.area == "greens");
  CHECK(a.notes.empty());
  CHECK(a.groups == std::vector<int>{29});
  CHECK(a.actives == sample::application().actives);
  CHECK(a.air_temperature == sample::application().air_temperature);
  CHECK_FALSE(changed_record(sample::application(), {{"site", {""}}}));
}

TEST_CASE("an entry is told in one line") {
  CHECK(
      one_line({7, sample::stamp(), sample::reading()}) ==
      "7  2026-10-12  millrace-nine  reading  time 09:00; depth 7 cm; temperature 17.1 C (62.8 F); area tee "
      "2; notes "
      "sunny");
  CHECK(one_line({9, sample::stamp(), sample::count()}).find("; count 12, 0, 7; counted new;") !=
        std::string::npos);
  CHECK(one_line({8, sample::stamp(), sample::application()}).find('\n') == std::string::npos);
}

TEST_CASE("a value is shown in the unit it was noted in, whatever it is kept in") {
  const auto line = [](const Record& record) { return one_line({1, sample::stamp(), record}); };
  const auto made =
      make_record(RecordKind::reading,
                  {{"site", {"x"}}, {"date", {"2026-10-12"}}, {"depth", {"2in"}}, {"temperature", {"62F"}}});
  REQUIRE(made);
  CHECK(mentions(line(*made), "depth 2 in; temperature 62 F"));
  // 50 F is 10 C to the last digit and is shown as 50 F all the same.
  const auto even = changed_record(*made, {{"temperature", {"50F"}}});
  CHECK(mentions(line(*even), "depth 2 in; temperature 50 F"));
  const auto mixed = changed_record(*even, {{"temperature", {"10C"}}});
  CHECK(mentions(line(*mixed), "depth 2 in; temperature 10 C (50.0 F)"));
  const auto spray = make_record(RecordKind::application, {{"site", {"x"}},
                                                           {"date", {"2026-10-12"}},
                                                           {"group", {"3"}},
                                                           {"watering_in", {"0.25in"}},
                                                           {"wind", {"8mph"}},
                                                           {"humidity", {"40%"}},
                                                           {"air_temperature", {"71.5 F"}}});
  REQUIRE(spray);
  for (const char* part : {"watering_in 0.25 in", "wind 8 mph", "humidity 40%", "air_temperature 71.5 F"})
    CHECK(mentions(line(*spray), part));
  CHECK(units_of(*changed_record(*spray, {{"wind", {""}}})).count("wind") == 0);
}

TEST_CASE("no text typed for any field can break anything, and what is taken is valid") {
  rc::prop("typed anything", [] {
    const RecordKind kind =
        *rc::gen::elementOf(std::vector<RecordKind>(std::begin(all_kinds), std::end(all_kinds)));
    std::vector<Given> fields;
    for (const Field& field : fields_of(kind)) {
      if (!field.required && *rc::gen::arbitrary<bool>()) continue;
      fields.push_back(
          {field.name,
           {*rc::gen::oneOf(rc::gen::element<std::string>("x", "2026-10-14", "POAAN", "5cm", "10C", "3",
                                                          "06:00", "dormant", "pre", "1;2", "6mm", "50%"),
                            rc::gen::string<std::string>())}});
    }
    const auto record = make_record(kind, fields);
    if (record) RC_ASSERT(validate(*record).has_value());
    RC_CLASSIFY(record.has_value(), "taken");
  });
}
