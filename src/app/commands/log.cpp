// SPDX-License-Identifier: MIT
#include "app/commands/log.hpp"

#include <algorithm>
#include <chrono>
#include <istream>
#include <ostream>

#include "advice/site/probe_readings.hpp"
#include "app/local_files.hpp"
#include "app/log_remarks.hpp"
#include "app/records_file.hpp"
#include "app/site_options.hpp"
#include "app/site_requests.hpp"
#include "core/text.hpp"
#include "records/entries/codec.hpp"
#include "records/entries/field.hpp"
#include "records/entry_line.hpp"
#include "records/export.hpp"
#include "site/strip_checks.hpp"

namespace soilclock::app {

using records::Access;
using records::Entry;
using records::EntryId;
using records::Given;
using records::Record;
using records::Store;

namespace {

const std::vector<std::string> actions{"add", "list", "show", "correct", "remove", "export", "import"};

/// Makes an option that starts with dashes of a field name: "air_temperature" -> "--air-temperature".
std::string option_of(std::string name) {
  std::replace(name.begin(), name.end(), '_', '-');
  return "--" + name;
}

void remark(const std::string& text, Streams& streams) { streams.err << "remark: " << text << "\n"; }

void write_remarks(const std::vector<Record>& noted, const std::vector<Entry>& before, Streams& streams) {
  const auto catalogue = load_models({}, {});
  if (!catalogue) return;
  for (const std::string& text : remarks_on(noted, before, streams.today, *catalogue)) remark(text, streams);
}

/// Why a strip check cannot be judged, by the numbers the program was built with.
std::optional<Problem> problem_of_strip(const Record& record) {
  if (records::kind_of(record) != records::RecordKind::strip) return std::nullopt;
  const auto catalogue = load_models({}, {});
  return catalogue ? strip_problem(record, catalogue->scouting.counts) : std::optional{catalogue.error()};
}

/// One entry a line, a strip check with the control it shows.
std::optional<Problem> write_lines(const std::vector<Entry>& entries, Streams& streams) {
  const bool strips = std::any_of(entries.begin(), entries.end(), [](const Entry& entry) {
    return records::kind_of(entry.record) == records::RecordKind::strip;
  });
  Result<advice::Catalogue> catalogue = strips ? load_models({}, {}) : Result<advice::Catalogue>{};
  if (!catalogue) return catalogue.error();
  for (const Entry& entry : entries) {
    const std::string control = strip_words(entry.record, catalogue->scouting.counts);
    streams.out << records::one_line(entry) << (control.empty() ? "" : "; " + control) << "\n";
  }
  return std::nullopt;
}

/// The code of a target's plain name; other words as they are.
std::string target_code(const advice::Catalogue& catalogue, const std::string& word) {
  const auto* target = catalogue.find_target(word);
  return target != nullptr ? target->code : word;
}

/// When a probe is best read, from the numbers the program was built with.
std::string best_hours() {
  const auto rules = advice::built_in_probe_rules();
  if (!rules) return "";
  return "without it a reading is taken as the mean of its day, which it is near " +
         advice::hours_without_correction(*rules);
}

/// The entries but the given ones.
std::vector<Entry> without(std::vector<Entry> entries, const std::vector<EntryId>& ids) {
  std::erase_if(entries,
                [&](const Entry& entry) { return std::find(ids.begin(), ids.end(), entry.id) != ids.end(); });
  return entries;
}

}  // namespace

std::string LogCommand::examples() const {
  return "  soilclock log add application --site copper-heron --date 2026-10-14 --group 3 --active "
         "prodiamine "
         "--purpose pre+post\n"
         "  soilclock log add count --site copper-heron --date 2026-10-20 --target POAAN --count 12 --count "
         "0 --count 7\n"
         "  soilclock log add reading --site copper-heron --date 2026-10-12 --time 06:10 --depth 2in "
         "--temperature 62F\n"
         "  soilclock log add first-seen --site copper-heron --date 2026-09-20 --target POAAN\n"
         "  soilclock log add check --site copper-heron --date 2027-01-20 --state dormant\n"
         "  soilclock log add strip --site copper-heron --date 2026-11-20 --target POAAN --untreated 12 "
         "--untreated 8 --treated 2 --treated 0\n"
         "  soilclock log list --site copper-heron --from 2026-08-01\n"
         "  soilclock log correct 1 --watering-in 0.25in\n"
         "  soilclock log show 1\n"
         "  soilclock log remove 2\n"
         "  soilclock log export --format csv\n"
         "  soilclock log import counts.csv --kind count\n";
}

void LogCommand::declare(Options& options) {
  options.positional("ACTION", words_, "add KIND, list, show ID, correct ID, remove ID, export, import FILE");
  options.under(Heading::answer);
  options.text(
      "--kind KIND", kind_,
      "list, export, import: only this kind (application, count, reading, check, first-seen, strip)");
  options.text("--from DAY", from_, "list, export: first day, YYYY-MM-DD");
  options.text("--to DAY", to_, "list, export: last day, YYYY-MM-DD");
  options.choice("--format FORM", format_, {"text", "csv", "json"}, "list, export: form of the answer");
  options.under(Heading::advanced);
  options.text("--records FILE", records_, records_help);
  options.text("--by NAME", by_, "who notes it");
  options.flag("--new-site", answered_.new_site,
               "add, correct, import: a site whose id differs from another only in case or spacing is meant");
  options.flag("--again", answered_.again, "add, import: note a second count of the same place and day");
  options.under(Heading::site);
  for (const records::RecordKind kind : records::all_kinds) {
    for (const records::Field& field : records::fields_of(kind)) {
      if (fields_.contains(field.name)) continue;
      std::string help = field.meaning + ": " + field.expected;
      if (kind == records::RecordKind::reading && field.name == "time") help += "; " + best_hours();
      const std::string name = option_of(field.name) + " VALUE";
      // All are read as lists, so that a value given twice is refused by the name of its field.
      options.texts(name, fields_[field.name], help, field.is_list);
    }
  }
}

int LogCommand::run(Streams& streams) {
  const std::string action = words_.empty() ? "" : words_.front();
  if (std::find(actions.begin(), actions.end(), action) == actions.end()) {
    const auto near = nearest(action, actions);
    return report({Family::request,
                   "what to do with the log is not said",
                   {},
                   action,
                   "one of " + listed(actions),
                   near ? "did you mean '" + *near + "'?" : "see soilclock log --help"},
                  streams);
  }
  if (const auto stray = stray_option()) return report(*stray, streams);
  if (action == "add") return add(streams);
  if (action == "list") return list(streams, "text");
  if (action == "export") return list(streams, "csv");
  if (action == "show") return show(streams);
  if (action == "correct") return correct(streams);
  if (action == "remove") return remove(streams);
  return import(streams);
}

std::optional<Problem> LogCommand::stray_option() const {
  const std::string& action = words_.front();
  const bool looks = action == "list" || action == "export";
  const bool writes = action == "add" || action == "correct";
  const std::size_t words = looks ? 1 : 2;
  if (words_.size() != words) {
    const std::string second = action == "add" ? " KIND" : (action == "import" ? " FILE" : " ID");
    return Problem{Family::request, "the words of the request are not complete or too many", {},
                   listed(words_),  "soilclock log " + action + (looks ? "" : second),       {}};
  }
  const auto stray = [&](const std::string& option) {
    return Problem{Family::request, option + " means nothing to 'log " + action + "'", {}, {}, {},
                   "leave it out"};
  };
  for (const auto& [name, values] : fields_) {
    if (!values.empty() && !writes && !(looks && name == "site")) return stray(option_of(name));
  }
  if (!looks && !(from_ + to_).empty()) return stray(from_.empty() ? "--to" : "--from");
  if (!looks && !format_.empty()) return stray("--format");
  if (!looks && action != "import" && !kind_.empty()) return stray("--kind");
  if ((looks || action == "show") && !by_.empty()) return stray("--by");
  const bool adds = action == "add" || action == "import";
  if (answered_.new_site && !adds && action != "correct") return stray("--new-site");
  if (answered_.again && !adds) return stray("--again");
  return std::nullopt;
}

Result<std::vector<Given>> LogCommand::given() const {
  std::vector<Given> fields;
  for (const auto& [name, values] : fields_) {
    if (values.empty()) continue;
    fields.push_back({name, values});
    if (name != "target" || values.size() != 1 || values[0].empty()) continue;
    const auto catalogue = load_models({}, {});
    if (!catalogue) return fail(catalogue.error());
    fields.back().values = {target_code(*catalogue, values[0])};
  }
  return fields;
}

Result<records::Selection> LogCommand::selection() const {
  records::Selection selection;
  const auto site = fields_.find("site");
  if (site != fields_.end() && site->second.size() > 1) {
    return fail({Family::request, "only one site can be listed at a time", {}, listed(site->second), {}, {}});
  }
  if (site != fields_.end() && !site->second.empty()) selection.site = site->second.front();
  if (!kind_.empty()) {
    const auto kind = records::parse_kind(kind_);
    if (!kind) return fail(kind.error());
    selection.kind = *kind;
  }
  if (!(from_ + to_).empty()) {
    const auto days = day_range(from_, to_);
    if (!days) return fail(days.error());
    selection.days = *days;
  }
  return selection;
}

Result<EntryId> LogCommand::entry_id() const {
  const auto number = parse_number(words_[1]);
  if (!number || *number < 1.0 || *number > 1e15 ||
      *number != static_cast<double>(static_cast<EntryId>(*number))) {
    return fail({Family::request,
                 "this is no number of an entry",
                 {},
                 words_[1],
                 "a number that 'log list' shows in front",
                 {}});
  }
  return static_cast<EntryId>(*number);
}

records::Stamp LogCommand::stamp() const {
  return {date::floor<std::chrono::seconds>(std::chrono::system_clock::now()), by_};
}

int LogCommand::add(Streams& streams) {
  const auto kind = records::parse_kind(words_[1]);
  if (!kind) return report(kind.error(), streams);
  const auto fields = given();
  if (!fields) return report(fields.error(), streams);
  const auto record = records::make_record(*kind, *fields);
  if (!record) return report(record.error(), streams);
  if (const auto problem = problem_of_strip(*record)) return report(*problem, streams);
  auto store = open_records(records_, Access::create);
  if (!store) return report(store.error(), streams);
  const auto before = store->list({});
  if (!before) return report(before.error(), streams);
  const auto sites = store->sites(true);
  if (!sites) return report(sites.error(), streams);
  if (const auto question = records::question_about(*record, *before, *sites, answered_))
    return report(*question, streams);
  const auto id = store->add(*record, stamp());
  if (!id) return report(id.error(), streams);
  streams.out << "noted: " << records::one_line({*id, stamp(), *record}) << "\n";
  streams.out.flush();
  write_remarks({*record}, *before, streams);
  return 0;
}

int LogCommand::list(Streams& streams, const std::string& default_format) {
  const auto wanted = selection();
  if (!wanted) return report(wanted.error(), streams);
  auto store = open_records(records_, Access::reading);
  if (!store) return report(store.error(), streams);
  if (wanted->site) {
    const auto sites = store->sites();
    if (!sites) return report(sites.error(), streams);
    if (auto question = records::question_about_site(*wanted->site, *sites)) {
      question->remedy = "use that id";
      return report(*question, streams);
    }
  }
  const auto entries = store->list(*wanted);
  if (!entries) return report(entries.error(), streams);
  const std::string format = format_.empty() ? default_format : format_;
  if (format == "csv") {
    streams.out << records::export_csv(*entries);
  } else if (format == "json") {
    streams.out << records::export_json(*entries);
  } else {
    if (const auto problem = write_lines(*entries, streams)) return report(*problem, streams);
    if (entries->empty()) streams.err << "nothing is noted there\n";
  }
  return 0;
}

int LogCommand::show(Streams& streams) {
  const auto id = entry_id();
  if (!id) return report(id.error(), streams);
  auto store = open_records(records_, Access::reading);
  if (!store) return report(store.error(), streams);
  const auto steps = store->history(*id);
  if (!steps) return report(steps.error(), streams);
  for (const records::HistoryStep& step : *steps) {
    streams.out << iso(step.noted.at) << (step.noted.by.empty() ? "" : " by " + step.noted.by) << ": "
                << (step.record ? records::one_line({step.id, step.noted, *step.record})
                                : std::to_string(step.id) + "  taken out")
                << "\n";
  }
  return 0;
}

int LogCommand::correct(Streams& streams) {
  const auto id = entry_id();
  if (!id) return report(id.error(), streams);
  const auto fields = given();
  if (!fields) return report(fields.error(), streams);
  if (fields->empty()) {
    return report({Family::request, "nothing to correct is given", {}, {}, "a field such as --notes", {}},
                  streams);
  }
  auto store = open_records(records_, Access::existing);
  if (!store) return report(store.error(), streams);
  const auto entry = store->entry(*id);
  if (!entry) return report(entry.error(), streams);
  const auto record = records::changed_record(entry->record, *fields);
  if (!record) return report(record.error(), streams);
  if (const auto problem = problem_of_strip(*record)) return report(*problem, streams);
  const auto all = store->list({});
  if (!all) return report(all.error(), streams);
  const std::vector<Entry> others = without(*all, {*id});
  if (!answered_.new_site) {
    std::vector<std::string> sites;
    sites.reserve(others.size());
    for (const Entry& other : others) sites.push_back(records::site_of(other.record));
    if (const auto question = records::question_about_site(records::site_of(*record), sites))
      return report(*question, streams);
  }
  const auto corrected = store->correct(*id, *record, stamp());
  if (!corrected) return report(corrected.error(), streams);
  streams.out << "entry " << *id << " is now: " << records::one_line({*corrected, stamp(), *record}) << "\n";
  streams.out.flush();
  write_remarks({*record}, others, streams);
  return 0;
}

int LogCommand::remove(Streams& streams) {
  const auto id = entry_id();
  if (!id) return report(id.error(), streams);
  auto store = open_records(records_, Access::existing);
  if (!store) return report(store.error(), streams);
  const auto removal = store->remove(*id, stamp());
  if (!removal) return report(removal.error(), streams);
  streams.out << "entry " << *id << " is taken out; 'log show " << *id << "' still shows it\n";
  return 0;
}

int LogCommand::import(Streams& streams) {
  std::optional<records::RecordKind> kind;
  if (!kind_.empty()) {
    const auto parsed = records::parse_kind(kind_);
    if (!parsed) return report(parsed.error(), streams);
    kind = *parsed;
  }
  const std::string& file = words_[1];
  const auto text = file == "-" ? read_stream(streams.in, "standard input") : read_file(file);
  if (!text) return report(text.error(), streams);
  auto store = open_records(records_, Access::create);
  if (!store) return report(store.error(), streams);
  const auto catalogue = load_models({}, {});
  if (!catalogue) return report(catalogue.error(), streams);
  const auto code_of = [&](const std::string& word) { return target_code(*catalogue, word); };
  const auto imported = records::import_csv(*store, *text, file == "-" ? "standard input" : file, stamp(),
                                            {kind, answered_, code_of});
  if (!imported) {
    int worst = 0;
    for (const Problem& problem : imported.error()) worst = std::max(worst, report(problem, streams));
    streams.err << "soilclock: nothing of " << file << " was taken in\n";
    return worst;
  }
  streams.out << imported->added.size() << " entries added\n";
  for (const records::Duplicate& duplicate : imported->duplicates) {
    remark("line " + std::to_string(duplicate.line) + " equals entry " + std::to_string(duplicate.same_as) +
               " and was not added again",
           streams);
  }
  const auto entries = store->list({});
  if (!entries) return report(entries.error(), streams);
  std::vector<Record> added;
  for (const EntryId id : imported->added) {
    const auto entry = store->entry(id);
    if (entry) added.push_back(entry->record);
  }
  write_remarks(added, without(*entries, imported->added), streams);
  return 0;
}

}  // namespace soilclock::app
