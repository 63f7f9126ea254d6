// SPDX-License-Identifier: MIT
#include "records/store.hpp"

#include <catch2/catch.hpp>

#include "records/entries/field.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

Store opened_store(const TemporaryFolder& folder) {
  auto store = Store::open(folder.file("records.db"), Access::create);
  REQUIRE(store);
  return std::move(*store);
}

void check_same(const Record& a, const Record& b) {
  REQUIRE(kind_of(a) == kind_of(b));
  for (const Field& field : fields_of(kind_of(a))) {
    CAPTURE(field.name);
    CHECK(cell_text(field.read(a)) == cell_text(field.read(b)));
  }
}

std::vector<EntryId> ids(Store& store, const Selection& selection) {
  std::vector<EntryId> result;
  const auto entries = store.list(selection);
  REQUIRE(entries);
  for (const Entry& entry : *entries) result.push_back(entry.id);
  return result;
}

}  // namespace

TEST_CASE("every field of every kind comes back as it was noted") {
  const TemporaryFolder folder;
  const std::vector<Record> records{sample::application(), sample::count(),      sample::reading(),
                                    sample::check(),       sample::first_seen(), sample::strip()};
  std::vector<EntryId> noted;
  {
    Store store = opened_store(folder);
    for (const Record& record : records) noted.push_back(store.add(record, sample::stamp(3)).value());
  }
  Store store = opened_store(folder);
  for (std::size_t i = 0; i < records.size(); ++i) {
    const auto entry = store.entry(noted[i]);
    REQUIRE(entry);
    check_same(entry->record, records[i]);
    CHECK(entry->noted.by == "office");
    CHECK(entry->noted.at == sample::stamp(3).at);
  }
  // Some members looked at themselves, not through the field list.
  const auto a = std::get<Application>(store.entry(noted[0])->record);
  CHECK(a.registration == "000-0123");
  CHECK(a.soil_temperature->celsius() == 18.25);
  CHECK(a.rain_after->mm() == 0.0);
  CHECK(a.groups == std::vector<int>{3, 4});
  CHECK(std::get<ScoutingCount>(store.entry(noted[1])->record).counts == std::vector<int>{12, 0, 7});
  CHECK(std::get<ProbeReading>(store.entry(noted[2])->record).depth->cm() == Approx(7.0).epsilon(1e-12));
  CHECK(std::get<EyeCheck>(store.entry(noted[3])->record).state == TurfSeen::semi_dormant);
}

TEST_CASE("what was not noted comes back as not noted, and zero as zero") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  Application a;
  a.site = "x";
  a.date = make_day(2026, 10, 14);
  a.groups = {0};
  a.watering_in = Rain::from_mm(0.0);
  const auto back = std::get<Application>(store.entry(store.add(a, sample::stamp()).value())->record);
  CHECK(back.watering_in->mm() == 0.0);
  CHECK_FALSE(back.rain_after);
  CHECK_FALSE(back.start);
  CHECK(back.actives.empty());
  CHECK(back.groups == std::vector<int>{0});
}

TEST_CASE("entries are listed by site, kind and days") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId application = *store.add(sample::application(), sample::stamp());  // 14 October, copper-heron
  const EntryId count = *store.add(sample::count(), sample::stamp());              // 20 October, copper-heron
  const EntryId reading = *store.add(sample::reading(), sample::stamp());  // 12 October, millrace-nine
  const EntryId check = *store.add(sample::check(), sample::stamp());      // 20 January, saltmarsh-bell
  CHECK(ids(store, {}) == std::vector{reading, application, count, check});
  CHECK(ids(store, {"copper-heron", {}, {}}) == std::vector{application, count});
  CHECK(ids(store, {"copper-heron", RecordKind::count, {}}) == std::vector{count});
  CHECK(ids(store, {"Copper-Heron", {}, {}}).empty());
  CHECK(ids(store, {{}, {}, DayRange{make_day(2026, 10, 14), make_day(2026, 10, 20)}}) ==
        std::vector{application});
  CHECK(only<ProbeReading>(*store.list({})).size() == 1);
}

TEST_CASE("a correction takes the place of an entry and keeps its history") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId first = *store.add(sample::reading(), sample::stamp(0));
  ProbeReading better = sample::reading();
  better.temperature = Temperature::from_celsius(16.0);
  const EntryId second = *store.correct(first, better, sample::stamp(1));
  CHECK(second != first);
  CHECK(ids(store, {}) == std::vector{second});
  const auto old = store.entry(first);
  REQUIRE_FALSE(old);
  CHECK(old.error().family == Family::request);
  CHECK(old.error().what.find(std::to_string(second)) != std::string::npos);
  CHECK_FALSE(store.correct(first, better, sample::stamp(2)));
  const EntryId third = *store.remove(second, sample::stamp(3));
  CHECK(ids(store, {}).empty());
  for (const EntryId id : {first, second, third}) {
    const auto steps = store.history(id);
    REQUIRE(steps);
    REQUIRE(steps->size() == 3);
    CHECK(std::get<ProbeReading>(*(*steps)[0].record).temperature->celsius() == 17.1);
    CHECK(std::get<ProbeReading>(*(*steps)[1].record).temperature->celsius() == 16.0);
    CHECK_FALSE((*steps)[2].record);
    CHECK((*steps)[2].noted.at == sample::stamp(3).at);
  }
  CHECK_FALSE(store.remove(second, sample::stamp(4)));
  CHECK_FALSE(store.remove(third, sample::stamp(4)));
  CHECK_FALSE(store.correct(third, better, sample::stamp(4)));
}

TEST_CASE("an unknown entry, another kind and an invalid record are refused and change nothing") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId reading = *store.add(sample::reading(), sample::stamp());
  CHECK_FALSE(store.entry(99));
  CHECK_FALSE(store.history(99));
  CHECK_FALSE(store.remove(99, sample::stamp()));
  const auto other_kind = store.correct(reading, sample::check(), sample::stamp());
  REQUIRE_FALSE(other_kind);
  CHECK(other_kind.error().what.find("'reading'") != std::string::npos);
  CHECK_FALSE(store.add(ProbeReading{}, sample::stamp()));
  CHECK_FALSE(store.correct(reading, ProbeReading{}, sample::stamp()));
  CHECK_FALSE(store.add(sample::reading(), Stamp{sample::stamp().at, "two\nlines"}));
  CHECK_FALSE(store.add_missing({{sample::check(), sample::stamp()}, {ProbeReading{}, sample::stamp()}}));
  CHECK(ids(store, {}) == std::vector{reading});
}

TEST_CASE("a number once used is never used again") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId first = *store.add(sample::reading(), sample::stamp());
  const EntryId removal = *store.remove(first, sample::stamp());
  CHECK(*store.add(sample::reading(), sample::stamp()) > removal);
}

TEST_CASE("what the file holds already is not added again, but two equal counts stay two") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId held = *store.add(sample::count(), sample::stamp());
  const Noted same{sample::count(), sample::stamp(5)};
  const auto placed = store.add_missing({same, same});
  REQUIRE(placed);
  CHECK((*placed)[0].held);
  CHECK((*placed)[0].id == held);
  CHECK_FALSE((*placed)[1].held);
  CHECK(ids(store, {}).size() == 2);
  CHECK((*store.add_missing({same, same}))[1].held);
}

TEST_CASE("content that no version writes is refused by entry and not guessed at") {
  const TemporaryFolder folder;
  Store store = opened_store(folder);
  const EntryId id = *store.add(sample::check(), sample::stamp());
  store.database().execute("UPDATE \"check\" SET state = 'purple'");
  auto list = store.list({});
  REQUIRE_FALSE(list);
  CHECK(list.error().family == Family::data);
  CHECK(list.error().what.find("entry " + std::to_string(id)) != std::string::npos);
  store.database().execute("DELETE FROM \"check\"");
  const auto entry = store.entry(id);
  REQUIRE_FALSE(entry);
  CHECK(entry.error().family == Family::data);
}
