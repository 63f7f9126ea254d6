// SPDX-License-Identifier: MIT
#include "records/entries/field.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <set>

#include "records/entries/codec.hpp"
#include "records/schema.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::records;
using tests::mentions;

namespace {

/// The message of the refusal, empty when the record is valid.
std::string refusal(const Record& record) {
  const Checked valid = validate(record);
  return valid ? "" : describe(valid.error());
}

}  // namespace

TEST_CASE("records that use every field are valid") {
  CHECK(refusal(sample::application()) == "");
  CHECK(refusal(sample::count()) == "");
  CHECK(refusal(sample::reading()) == "");
  CHECK(refusal(sample::check()) == "");
  CHECK(refusal(sample::first_seen()) == "");
  CHECK(refusal(sample::strip()) == "");
}

TEST_CASE("a strip check needs both sides, in counts or in cover") {
  StripCheck s = sample::strip();
  s.untreated_before.clear();
  CHECK(mentions(refusal(s), "field 'untreated_before'"));
  s.treated_before.clear();
  CHECK(refusal(s) == "");
  s.treated_share = Fraction::from_percent(4.0);
  CHECK(mentions(refusal(s), "counts and cover"));
  s.treated_share = {};
  s.treated.clear();
  CHECK(mentions(refusal(s), "field 'treated'"));
  s.untreated.clear();
  CHECK(mentions(refusal(s), "neither counts nor cover"));
  s.untreated_share = Fraction::from_percent(40.0);
  CHECK(mentions(refusal(s), "field 'treated_share'"));
  s.treated_share = Fraction::from_percent(0.0);
  CHECK(refusal(s) == "");
  s.treated_share_before = Fraction::from_percent(20.0);
  CHECK(mentions(refusal(s), "field 'untreated_share_before'"));
}

TEST_CASE("an application needs no more than site, date and one active or group") {
  Application a;
  a.site = "copper-heron";
  a.date = make_day(2026, 10, 14);
  CHECK(mentions(refusal(a), "field 'active'"));
  a.groups = {3};
  CHECK(refusal(a) == "");
  a.groups.clear();
  a.actives = {"prodiamine"};
  CHECK(refusal(a) == "");
}

TEST_CASE("a missing mandatory field is named") {
  auto without = [](auto record, auto&& change) {
    change(record);
    return refusal(record);
  };
  CHECK(mentions(without(sample::application(), [](Application& a) { a.site.clear(); }), "field 'site'"));
  CHECK(mentions(without(sample::application(), [](Application& a) { a.date = {}; }), "field 'date'"));
  CHECK(mentions(without(sample::count(), [](ScoutingCount& c) { c.target.clear(); }), "field 'target'"));
  CHECK(mentions(without(sample::reading(), [](ProbeReading& r) { r.temperature = {}; }),
                 "field 'temperature'"));
  CHECK(mentions(without(sample::reading(), [](ProbeReading& r) { r.depth = {}; }), "field 'depth'"));
  CHECK(mentions(without(sample::check(), [](EyeCheck& k) { k.state = {}; }), "field 'state'"));
}

TEST_CASE("values out of range or not a number are refused by field") {
  Application a = sample::application();
  a.humidity_percent = 101.0;
  CHECK(mentions(refusal(a), "field 'humidity'"));
  a = sample::application();
  a.wind_m_per_s = std::numeric_limits<double>::quiet_NaN();
  CHECK(mentions(refusal(a), "field 'wind'"));
  a = sample::application();
  a.rain_after = Rain::from_mm(-1.0);
  CHECK(mentions(refusal(a), "field 'rain_after'"));
  a = sample::application();
  a.soil_temperature = Temperature::from_celsius(68.0);  // a Fahrenheit value noted as Celsius
  CHECK(mentions(refusal(a), "field 'soil_temperature'"));
  a = sample::application();
  a.split_part = 3;
  CHECK(mentions(refusal(a), "field 'split_part'"));
  a = sample::application();
  a.start = ClockTime{24 * 60};
  CHECK(mentions(refusal(a), "field 'start'"));
  a = sample::application();
  a.date = make_day(1979, 12, 31);
  CHECK(mentions(refusal(a), "field 'date'"));
}

TEST_CASE("fields must agree with each other") {
  Application a = sample::application();
  a.end = ClockTime{6 * 60};
  CHECK(mentions(refusal(a), "field 'end'"));
  a.end = a.start;
  CHECK(refusal(a) == "");
  a.watering_date = *a.date - Days{1};
  CHECK(mentions(refusal(a), "field 'watering_date'"));
  a.watering_date = a.date;
  CHECK(refusal(a) == "");
  a.watering_in.reset();
  CHECK(mentions(refusal(a), "field 'watering_in'"));

  ScoutingCount c = sample::count();
  c.plots = 4;
  CHECK(mentions(refusal(c), "3 counts for 4 plots"));
  c.plots.reset();
  CHECK(refusal(c) == "");
  c.visual_share = Fraction::from_percent(20.0);
  CHECK(mentions(refusal(c), "cannot stand in one entry"));
  c.counts.clear();
  CHECK(refusal(c) == "");
  c.visual_share.reset();
  CHECK(mentions(refusal(c), "neither"));
}

TEST_CASE("text that could not be read back unchanged is refused") {
  Application a = sample::application();
  a.actives = {"prodiamine;simazine"};
  CHECK(mentions(refusal(a), "field 'active'"));
  a.actives = {"prodiamine,simazine"};
  CHECK_FALSE(refusal(a).empty());
  a.actives = {""};
  CHECK_FALSE(refusal(a).empty());
  a = sample::application();
  a.area = " fairway";
  CHECK(mentions(refusal(a), "field 'area'"));
  a.area = "fair\nway";
  CHECK(mentions(refusal(a), "field 'area'"));
  a.area = std::string(201, 'x');
  CHECK(mentions(refusal(a), "field 'area'"));
  a = sample::application();
  a.notes = "broken \xFF";
  CHECK(mentions(refusal(a), "field 'notes'"));
  a.notes = std::string("zero \0 byte", 11);
  CHECK(mentions(refusal(a), "field 'notes'"));
  a.notes = " \t=1+1\r\n\U0001F33F ";
  CHECK(refusal(a) == "");
  a.target = "poaan";
  CHECK_FALSE(refusal(a).empty());
}

TEST_CASE("a list is split at semicolons and commas, but not within a common name") {
  CHECK(split_list("prodiamine, simazine;2,4-D", false) ==
        std::vector<std::string>{"prodiamine", "simazine", "2,4-D"});
  CHECK(split_list("2,4-D,dicamba", false) == std::vector<std::string>{"2,4-D", "dicamba"});
  CHECK(split_list("12,0,7", true) == std::vector<std::string>{"12", "0", "7"});
}

TEST_CASE("UTF-8 is judged by the table of well-formed sequences") {
  // Unicode 15, table 3-7: first and last of each row, and their neighbors outside.
  for (const char* good :
       {"", "a", "\u0080", "\u07FF", "\u0800", "\uD7FF", "\uE000", "\uFFFF", "\U00010000", "\U0010FFFF"}) {
    CHECK(is_clean_utf8(good));
  }
  for (const char* bad : {"\x80", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                          "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xE2\x82", "a\xC3"}) {
    CHECK_FALSE(is_clean_utf8(bad));
  }
}

TEST_CASE("an instant is written and read to the second") {
  const Instant at = Instant{make_day(2026, 2, 28)} + std::chrono::seconds{86399};
  CHECK(iso(at) == "2026-02-28T23:59:59Z");
  CHECK(parse_iso_instant("2026-02-28T23:59:59Z") == at);
  for (const char* bad : {"2026-02-29T00:00:00Z", "2026-02-28 23:59:59Z", "2026-02-28T24:00:00Z",
                          "2026-02-28T23:59:60Z", "2026-02-28T23:59:59", "2026-02-28T23:59:59Z ", ""}) {
    CHECK_FALSE(parse_iso_instant(bad));
  }
}

TEST_CASE("the database has a column for every field and no other") {
  const TemporaryFolder folder;
  auto database = Database::open(folder.file("records.db"), records_schema(), Access::create);
  REQUIRE(database);
  for (const RecordKind kind : all_kinds) {
    CAPTURE(name(kind));
    std::multiset<std::string> columns;
    Statement rows =
        database->prepare("SELECT name FROM pragma_table_info('" + std::string{name(kind)} + "')");
    while (rows.step()) columns.insert(rows.text(0));
    std::multiset<std::string> wanted{"entry"};
    for (const Field& field : fields_of(kind)) wanted.insert(field.column);
    wanted.erase("site");
    wanted.erase("date");
    CHECK(columns == wanted);
    CHECK(fields_of(kind)[0].name == "site");
    CHECK(fields_of(kind)[1].name == "date");
  }
}
