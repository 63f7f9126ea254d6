// SPDX-License-Identifier: MIT
// The records file and the tables it takes in.
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "fuzz/harnesses.hpp"
#include "records/advice_store.hpp"
#include "records/export.hpp"
#include "records/import_csv.hpp"
#include "records/service_calls.hpp"
#include "records/weather_store.hpp"
#include "support/temporary_folder.hpp"

namespace soilclock::fuzz {

namespace {

using records::Store;

const records::Stamp stamp{Instant{Days{20'000}}, "somebody"};

const TemporaryFolder& folder() {
  static const TemporaryFolder all;
  return all;
}

void write(const std::string& path, std::string_view bytes) {
  for (const char* beside : {"-wal", "-shm", "-journal"}) std::filesystem::remove(path + beside);
  std::ofstream{path, std::ios::binary} << bytes;
}

/// Making the tables anew takes longer than all the rest, so a blank file is made once.
const std::string& blank_records() {
  static const std::string bytes = [] {
    const std::string path = folder().file("blank.db");
    demand(Store::open(path, records::Access::create).has_value(), "a new file can be made");
    std::ifstream in{path, std::ios::binary};
    return std::string{std::istreambuf_iterator<char>{in}, {}};
  }();
  return bytes;
}

template <class Value>
void demand_good_unless_read(const Result<Value>& result) {
  if (!result) demand_good(result.error());
}

void read_weather_of(Store& store, const std::string& site) {
  records::WeatherStore weather{store};
  for (const auto part :
       {records::WeatherPart::history, records::WeatherPart::forecast, records::WeatherPart::members}) {
    const records::SeriesKey key{site,        "open-meteo",         part, "", {35.0, -85.0, {}},
                                 "UTC-05:00", "local standard time"};
    demand_good_unless_read(weather.read(key));
    demand_good_unless_read(weather.others(key));
    demand_good_unless_read(weather.sites_in_cell(key, key.place));
  }
}

void read_all(Store& store) {
  const auto entries = store.list({});
  if (!entries) {
    demand_good(entries.error());
  } else {
    (void)export_json(*entries);
    (void)export_csv(*entries);
    for (const records::Entry& entry : *entries) demand_good_unless_read(store.history(entry.id));
  }
  if (const auto sites = store.sites(true)) {
    for (const std::string& site : *sites) read_weather_of(store, site);
  } else {
    demand_good(sites.error());
  }
  records::AdviceStore advice{store};
  demand_good_unless_read(advice.latest_before("a", "POAAN", Day{Days{30'000}}));
  demand_good_unless_read(advice.announced("a", "POAAN", Day{Days{20'000}}));
  demand_good_unless_read(records::ServiceCalls{store}.since("open-meteo", Instant{}));
}

}  // namespace

void log_import(std::string_view bytes) {
  const std::string path = folder().file("import.db");
  write(path, blank_records());
  auto store = Store::open(path, records::Access::existing);
  demand(store.has_value(), "a blank file opens");
  const auto imported = records::import_csv(*store, bytes, "notes.csv", stamp);
  const auto entries = store->list({});
  demand(entries.has_value(), "what was taken in can be listed");
  if (!imported) {
    demand(!imported.error().empty() && entries->empty(), "all rows or none");
    for (const Problem& problem : imported.error()) demand_good(problem);
    return;
  }
  demand(entries->size() == imported->added.size(), "every entry was counted");
  if (entries->empty()) return;
  // Given out and taken in again, everything is there already.
  const auto again =
      records::import_csv(*store, export_csv(*entries), "again.csv", stamp, {{}, {true, true}, {}});
  demand(again.has_value(), "what was given out is taken in");
  demand(again->added.empty(), "what was given out is known");
}

void records_file(std::string_view bytes) {
  const std::string path = folder().file("records.db");
  write(path, bytes);
  auto store = Store::open(path, records::Access::existing);
  if (!store) {
    demand_good(store.error());
    return;
  }
  read_all(*store);
  records::ProbeReading reading;
  reading.site = "a";
  reading.date = Day{Days{20'000}};
  reading.depth = Depth::from_cm(5.0);
  reading.temperature = Temperature::from_celsius(12.0);
  demand_good_unless_read(store->add(reading, stamp));
}

}  // namespace soilclock::fuzz
