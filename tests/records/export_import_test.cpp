// SPDX-License-Identifier: MIT
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "records/entries/field.hpp"
#include "records/export.hpp"
#include "records/import_csv.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

Store opened(const TemporaryFolder& folder, const std::string& file = "records.db") {
  auto store = Store::open(folder.file(file), Access::create);
  REQUIRE(store);
  return std::move(*store);
}

std::vector<std::string> texts_of(const Record& record) {
  std::vector<std::string> texts{std::string{name(kind_of(record))}};
  for (const Field& field : fields_of(kind_of(record))) texts.push_back(cell_text(field.read(record)));
  return texts;
}

/// The problems of an import that must fail and must leave the store empty.
std::vector<Problem> refused(const std::string& text, std::optional<RecordKind> kind = std::nullopt) {
  const TemporaryFolder folder;
  Store store = opened(folder);
  const auto imported = import_csv(store, text, "table.csv", sample::stamp(), {kind, {}, {}});
  REQUIRE_FALSE(imported);
  CHECK(store.list({})->empty());
  return imported.error();
}

/// Text made of the pieces that break careless readers and writers.
rc::Gen<std::string> odd_text() {
  const auto piece = rc::gen::element<std::string>(
      ",", "\"", "\"\"", "\n", "\r\n", "\r", ";", "; ", " ", "\t", "=1+1", "+1", "-1", "@x", "007", "0.50",
      "1e5", "nan", "\U0001F33F", "\u00e9", "\xEF\xBB\xBF", "null", "a", "'", "\\", "-", "2,4-D");
  return rc::gen::map(rc::gen::container<std::vector<std::string>>(piece),
                      [](const std::vector<std::string>& pieces) {
                        std::string text;
                        for (const std::string& one : pieces) text += one;
                        return text.substr(0, 5000);
                      });
}

/// The same as one line of a record: no control characters, no blanks at the ends, short.
std::string odd_line() {
  std::string text = *odd_text();
  std::erase_if(text, [](char c) { return c == '\n' || c == '\r' || c == '\t'; });
  if (text.size() > 100) text = "long";
  return std::string{trimmed(text)};
}

double tenths(int least, int most) { return *rc::gen::inRange(least, most) / 10.0; }

Record odd_record() {
  const Day day = make_day(1980, 1, 1) + Days{*rc::gen::inRange(0, 80000)};
  std::string site = odd_line();
  if (site.empty()) site = "x";
  switch (*rc::gen::inRange(0, 6)) {
    case 0: {
      Application a = *rc::gen::arbitrary<bool>() ? sample::application() : Application{};
      a.groups = {*rc::gen::inRange(0, 100)};
      a.site = site;
      a.date = day;
      if (a.watering_date) a.watering_date = day;
      a.area = odd_line();
      a.registration = odd_line();
      a.amount = odd_line();
      a.re_entry = odd_line();
      a.air_temperature = Temperature::from_fahrenheit(tenths(-300, 1300));
      a.wind_m_per_s = tenths(0, 500) / 3.0;
      if (*a.wind_m_per_s > 60.0) a.wind_m_per_s.reset();
      if (*rc::gen::arbitrary<bool>()) a.units = {{"air_temperature", "F"}, {"wind", "mph"}};
      a.notes = *odd_text();
      return a;
    }
    case 1: {
      ScoutingCount c = sample::count();
      c.site = site;
      c.date = day;
      c.plots.reset();
      c.counts = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1000));
      if (c.counts.empty()) c.visual_share = Fraction::of(tenths(0, 11) / 1.1);
      c.notes = *odd_text();
      return c;
    }
    case 2: {
      ProbeReading r = sample::reading();
      r.site = site;
      r.date = day;
      r.depth = Depth::from_inches(tenths(2, 390));
      r.temperature = Temperature::from_fahrenheit(tenths(-300, 1300));
      if (*rc::gen::arbitrary<bool>()) r.units = {{"temperature", "F"}, {"depth", "in"}};
      r.notes = *odd_text();
      return r;
    }
    case 3: {
      FirstSeen f = sample::first_seen();
      f.site = site;
      f.date = day;
      f.seen_by = odd_line();
      f.notes = *odd_text();
      return f;
    }
    case 4: {
      StripCheck s = sample::strip();
      s.site = site;
      s.date = day;
      s.treated = *rc::gen::container<std::vector<int>>(3, rc::gen::inRange(0, 1000));
      s.notes = *odd_text();
      return s;
    }
    default:
      break;
  }
  EyeCheck k = sample::check();
  k.site = site;
  k.date = day;
  k.seen_by = odd_line();
  k.notes = *odd_text();
  return k;
}

}  // namespace

TEST_CASE("any records come through CSV unchanged, and a second import adds nothing") {
  rc::prop("export then import", [] {
    const TemporaryFolder folder;
    Store from = opened(folder, "from.db");
    Store to = opened(folder, "to.db");
    for (Store* store : {&from, &to})
      store->database().execute("PRAGMA synchronous = OFF");  // a hundred times faster
    const int count = *rc::gen::inRange(1, 6);
    for (int i = 0; i < count; ++i) {
      const Record record = odd_record();
      const Stamp stamp{sample::stamp(i).at, odd_line()};
      const auto added = from.add(record, stamp);
      if (!added) RC_FAIL(describe(added.error()));
      if (*rc::gen::inRange(0, 4) == 0) RC_ASSERT(from.add(record, stamp).has_value());
    }
    const auto before = from.list({}).value();
    const std::string text = export_csv(before);
    // Odd names may differ in nothing but case and spacing; that is asked about elsewhere.
    const ImportRules rules{{}, {true, false}, {}};
    const auto imported = import_csv(to, text, "table.csv", sample::stamp(999), rules);
    if (!imported) RC_FAIL(describe(imported.error().front()));
    RC_ASSERT(imported->added.size() == before.size());
    const auto after = to.list({}).value();
    RC_ASSERT(after.size() == before.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
      RC_ASSERT(texts_of(after[i].record) == texts_of(before[i].record));
      RC_ASSERT(units_of(after[i].record) == units_of(before[i].record));
      RC_ASSERT(after[i].noted.at == before[i].noted.at);
      RC_ASSERT(after[i].noted.by == before[i].noted.by);
    }
    const auto again = import_csv(to, text, "table.csv", sample::stamp(), rules);
    RC_ASSERT(again.has_value());
    RC_ASSERT(again->added.empty());
    RC_ASSERT(again->duplicates.size() == before.size());
  });
}

TEST_CASE("the CSV of one entry reads as it should") {
  ProbeReading r = sample::reading();
  r.area = "=1+1";
  r.notes = "say \"17\", not 18";
  CHECK(export_csv({{7, sample::stamp(1), r}}) ==
        "id,kind,noted_at,noted_by,site,date,time,depth_cm,temperature_c,area,notes\n"
        "7,reading,2026-10-20T00:01:00Z,office,millrace-nine,2026-10-12,09:00,7,17.1,=1+1,"
        "\"say \"\"17\"\", not 18\"\n");
}

TEST_CASE("the JSON of entries holds numbers, lists and null for what was not noted") {
  Application a = sample::application();
  a.rain_after.reset();
  const std::string text = export_json({{1, sample::stamp(), a}, {2, sample::stamp(), sample::count()}});
  const auto read = read_json(text, "export.json", Family::data, [](const JsonObject& top) {
    CHECK(top.text("format") == "soilclock-records");
    CHECK(top.integer("version", 1, 1) == 1);
    const auto entries = top.objects("entries");
    CHECK(entries.size() == 2);
    const JsonObject& application = entries[0];
    CHECK(application.text("kind") == "application");
    CHECK(application.texts("active") == std::vector<std::string>{"prodiamine", "2,4-D"});
    CHECK(application.numbers("group") == std::vector<double>{3, 4});
    CHECK(application.number("air_temperature_c") == 16.5);
    CHECK(application.kind("rain_after_mm") == "null");
    CHECK(application.text("registration") == "000-0123");
    CHECK(application.text("notes") == "untreated strip on 4\nlook again in three weeks");
    CHECK(entries[1].numbers("count") == std::vector<double>{12, 0, 7});
    CHECK(entries[1].kind("share_percent") == "null");
    return 0;
  });
  CHECK(read);
  CHECK(export_json({}).find("\"entries\": []") != std::string::npos);
}

TEST_CASE("a table made by hand is taken, with the units of its headings") {
  const TemporaryFolder folder;
  Store store = opened(folder);
  const auto imported = import_csv(store,
                                   "Site, Date ,depth_in,temperature_f,notes\r\n"
                                   "copper-heron,2026-10-12,2,62.6,\r\n"
                                   "copper-heron,2026-10-13,2,16C,\"in C, by the probe\"\r\n",
                                   "table.csv", sample::stamp(), {RecordKind::reading, {}, {}});
  REQUIRE(imported);
  const auto readings = only<ProbeReading>(store.list({}).value());
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].temperature->celsius() == 17.0);
  CHECK(readings[0].depth->cm() == Approx(5.08));
  CHECK(readings[0].notes.empty());
  CHECK(readings[1].temperature->celsius() == 16.0);
  CHECK(store.list({})->front().noted.by == "office");
}

TEST_CASE("duplicates are reported with their line and the entry they equal") {
  const TemporaryFolder folder;
  Store store = opened(folder);
  const EntryId held = *store.add(sample::check(), sample::stamp());
  const std::string text =
      export_csv({{1, sample::stamp(), sample::reading()}, {2, sample::stamp(), sample::check()}});
  const auto imported = import_csv(store, text, "table.csv", sample::stamp());
  REQUIRE(imported);
  CHECK(imported->added.size() == 1);
  REQUIRE(imported->duplicates.size() == 1);
  CHECK(imported->duplicates[0].line == 3);
  CHECK(imported->duplicates[0].same_as == held);
}

TEST_CASE("problems name line and column, and one bad row keeps all out") {
  const auto problems = refused(
      "kind,site,date,state,notes\n"
      "check,copper-heron,2027-01-20,dormant,\"two\nlines\"\n"
      "check,copper-heron,2027-02-30,dormant,\n"
      "check,copper-heron,2027-01-20,asleep,\n"
      "check,,2027-01-20,dormant,\n");
  REQUIRE(problems.size() == 3);
  CHECK(problems[0].family == Family::data);
  CHECK(problems[0].where.file == "table.csv");
  CHECK(problems[0].where.line == 4);
  CHECK(problems[0].where.column == 3);
  CHECK(problems[0].found == "2027-02-30");
  CHECK(problems[1].where.line == 5);
  CHECK(problems[1].where.column == 4);
  CHECK(problems[1].expected.find("semi-dormant") != std::string::npos);
  CHECK(problems[2].where.line == 6);
  CHECK(problems[2].what.find("'site'") != std::string::npos);
}

TEST_CASE("tables that cannot be meant are refused") {
  CHECK(refused("")[0].what == "the file is empty");
  CHECK(refused("site,date,state\nx,2027-01-20,dormant\n")[0].what.find("'kind'") != std::string::npos);
  CHECK(refused("kind,site,dait\n")[0].remedy == "did you mean 'date'?");
  CHECK(refused("kind,site,site,date\n")[0].what.find("twice") != std::string::npos);
  CHECK(refused("kind;site;date\n")[0].remedy.find("commas") != std::string::npos);
  CHECK(refused("kind,site,date,state\ncheck,x,2027-01-20\n")[0].what.find("cells") != std::string::npos);
  CHECK(refused("kind,site,date,state\nlook,x,2027-01-20,dormant\n")[0].what.find("kind") !=
        std::string::npos);
  CHECK(refused("kind,site,date,state,depth_cm\ncheck,x,2027-01-20,dormant,5\n")[0].what.find("no field") !=
        std::string::npos);
  CHECK(refused("kind,site,date,depth_cm,temperature\nreading,x,2027-01-20,5,17\n")[0].what.find("unit") !=
        std::string::npos);
  CHECK(refused("kind,noted_at,site,date,state\ncheck,yesterday,x,2027-01-20,dormant\n")[0].where.column ==
        2);
}

TEST_CASE("of many problems the first twenty are told") {
  std::string text = "kind,site,date,state\n";
  for (int i = 0; i < 50; ++i) text += "check,x,2027-01-20,asleep\n";
  CHECK(refused(text).size() == 20);
}
