// SPDX-License-Identifier: MIT
#include "records/database.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <optional>
#include <sstream>
#include <system_error>
#include <thread>

namespace soilclock::records {

namespace {

constexpr int busy_timeout_ms =
    5000;  // invented: longer than any write of ours, shorter than a user's patience

Problem problem_of(int code, const std::string& message, const std::string& path) {
  const auto problem = [&](Family family, std::string what, std::string remedy) {
    return Problem{family,           fmt::format("{} ({})", what, message), {path, {}, {}, {}}, {}, {},
                   std::move(remedy)};
  };
  switch (code & 0xFF) {
    case SQLITE_NOTADB:
      return problem(Family::data, "this is not a records file", "name another file with --records");
    case SQLITE_CORRUPT:
      return problem(Family::data, "the records file is damaged", "put a copy of it back in its place");
    case SQLITE_FULL:
      return problem(Family::environment, "there is no room left to write; nothing of this request was kept",
                     "free some space and try again; all that was confirmed before is safe");
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return problem(Family::environment, "another program holds the records file",
                     "try again when it is done");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return problem(Family::environment, "the records file must not be written",
                     "check its permissions and its folder's");
    case SQLITE_CANTOPEN:
      return problem(Family::environment, "the records file cannot be opened",
                     "check that its folder is there and may be written");
    case SQLITE_ERROR:
      // What this program asks for is well formed; a table or column that is not there is the file's fault.
      if (message.starts_with("no such ") || message.starts_with("malformed "))
        return problem(Family::data, "the records file is damaged", "put a copy of it back in its place");
      break;
    case SQLITE_IOERR:
      return problem(Family::environment,
                     "reading or writing the records file failed; nothing of this request was kept",
                     "check the disk and try again; all that was confirmed before is safe");
    default:
      break;
  }
  return problem(Family::fault, "the database refused a request of ours", "");
}

[[noreturn]] void refuse_file(const std::string& path, std::string what, std::string remedy) {
  throw StorageProblem{{Family::data, std::move(what), {path, {}, {}, {}}, {}, {}, std::move(remedy)}};
}

/// Throws unless the code says that all is well.
void check(int code, sqlite3* handle, const std::string& path) {
  if (code == SQLITE_OK || code == SQLITE_ROW || code == SQLITE_DONE) return;
  throw StorageProblem{problem_of(code, sqlite3_errmsg(handle), path)};
}

/// SQLite keeps ":memory:" in memory and may read "file:x?mode=memory" as an address; to us every name is
/// that of a file.
std::string as_file_name(const std::string& path) {
  return path.starts_with(':') || path.starts_with("file:") ? "./" + path : path;
}

/// The columns of all tables of a database, "table.column" line by line.
std::string columns_of(Database& database) {
  const SqlValue listed = database.single(
      "SELECT group_concat(m.name || '.' || c.name, char(10)) FROM sqlite_master AS m "
      "JOIN pragma_table_info(m.name) AS c WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%'");
  const auto* text = std::get_if<std::string>(&listed);
  return text == nullptr ? "" : *text;
}

std::optional<Problem> missing_file(const std::string& path, Access access) {
  std::error_code error;
  if (path.empty())
    return Problem{Family::request, "the records file has no name", {}, {}, "a file name", {}};
  if (access == Access::create || std::filesystem::exists(path, error)) return std::nullopt;
  return Problem{Family::request,
                 "there is no records file here yet",
                 {path, {}, {}, {}},
                 {},
                 {},
                 "note or fetch something first, or name another file with --records"};
}

/// A file as an address that SQLite opens for reading only. `whole` says that all is in the file itself and
/// no other program is writing it: SQLite then looks for neither a journal nor shared memory.
std::string reading_address(const std::string& path, bool whole) {
  std::string address = "file:";
  for (const char c : as_file_name(path)) {
    const bool plain = c != '%' && c != '?' && c != '#';
    address += plain ? std::string{c} : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return address + (whole ? "?immutable=1" : "?mode=ro");
}

/// Changes that are confirmed and not yet in the file itself: a process that wrote it was stopped, or still
/// writes.
bool has_journal(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(as_file_name(path) + "-wal", error);
  return !error && size > 0;
}

/// Makes a new file that only its owner reads; SQLite gives its journal the same rights. Where this fails,
/// opening it says why.
void make_private_file(const std::string& path) {
  const int handle = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (handle >= 0) ::close(handle);
}

}  // namespace

Statement::~Statement() { sqlite3_finalize(handle_); }

Statement& Statement::bind(const std::vector<SqlValue>& values) {
  int index = 0;
  for (const SqlValue& value : values) {
    ++index;
    int code = SQLITE_OK;
    if (const auto* text = std::get_if<std::string>(&value)) {
      code = sqlite3_bind_text64(handle_, index, text->data(), text->size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } else if (const auto* number = std::get_if<double>(&value)) {
      code = sqlite3_bind_double(handle_, index, *number);
    } else if (const auto* whole = std::get_if<std::int64_t>(&value)) {
      code = sqlite3_bind_int64(handle_, index, *whole);
    } else {
      code = sqlite3_bind_null(handle_, index);
    }
    check(code, sqlite3_db_handle(handle_), *path_);
  }
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(handle_);
  check(code, sqlite3_db_handle(handle_), *path_);
  return code == SQLITE_ROW;
}

void Statement::run() {
  while (step()) {
  }
  sqlite3_reset(handle_);
}

SqlValue Statement::value(int column) const {
  switch (sqlite3_column_type(handle_, column)) {
    case SQLITE_INTEGER:
      return std::int64_t{sqlite3_column_int64(handle_, column)};
    case SQLITE_FLOAT:
      return sqlite3_column_double(handle_, column);
    case SQLITE_TEXT:
      return text(column);
    default:
      break;
  }
  return std::monostate{};
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(handle_, column); }

std::string Statement::text(int column) const {
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(handle_, column));
  return bytes == nullptr
             ? std::string{}
             : std::string(bytes, static_cast<std::size_t>(sqlite3_column_bytes(handle_, column)));
}

bool Statement::is_null(int column) const { return sqlite3_column_type(handle_, column) == SQLITE_NULL; }

Database::Database(sqlite3* handle, std::string path)
    : handle_{handle}, path_{std::make_unique<const std::string>(std::move(path))} {}

Database::Database(Database&& other) noexcept
    : handle_{std::exchange(other.handle_, nullptr)}, path_{std::move(other.path_)} {}

Database& Database::operator=(Database&& other) noexcept {
  std::swap(handle_, other.handle_);
  std::swap(path_, other.path_);
  return *this;
}

Database::~Database() { sqlite3_close(handle_); }

Result<Database> Database::open(const std::string& path, const Schema& schema, Access access) {
  if (auto missing = missing_file(path, access)) return fail(*missing);
  auto database = open_file(path, schema, access);
  if (database || access != Access::reading || database.error().family != Family::environment)
    return database;
  auto copy = open_copy(path, schema);
  // Where not even that is to be had, the first problem says why.
  return copy || copy.error().family == Family::data ? std::move(copy) : std::move(database);
}

Result<Database> Database::open_copy(const std::string& path, const Schema& schema) {
  sqlite3* handle = nullptr;
  const int code = sqlite3_open(":memory:", &handle);
  Database database{handle, path};
  return guarded([&] {
    check(code, handle, path);
    database.read_from(path);
    database.configure();
    database.recognize(schema);
    database.migrate(schema);
    database.check_tables(schema);
    database.execute("PRAGMA query_only = ON");
    return std::move(database);
  });
}

/// Takes the contents of a file that cannot be written into this database.
void Database::read_from(const std::string& path) {
  for (const bool whole : {false, true}) {
    sqlite3* handle = nullptr;
    const int opened = sqlite3_open_v2(reading_address(path, whole).c_str(), &handle,
                                       SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, nullptr);
    const Database source{handle, path};
    check(opened, handle, path);
    sqlite3_backup* copying = sqlite3_backup_init(handle_, "main", handle, "main");
    check(copying == nullptr ? sqlite3_errcode(handle_) : SQLITE_OK, handle_, path);
    constexpr int all_pages = -1;
    (void)sqlite3_backup_step(copying, all_pages);
    const int code = sqlite3_backup_finish(copying);
    // A journal beside it can only be read with memory that is shared by way of a file; without one, none is
    // needed.
    if (code != SQLITE_OK && !whole && !has_journal(path)) continue;
    check(code, handle_, path);
    return;
  }
}

Result<Database> Database::open_file(const std::string& path, const Schema& schema, Access access) {
  const int flags = SQLITE_OPEN_READWRITE | (access == Access::create ? SQLITE_OPEN_CREATE : 0);
  if (access == Access::create) make_private_file(as_file_name(path));
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(as_file_name(path).c_str(), &handle, flags, nullptr);
  Database database{handle, path};
  return guarded([&] {
    check(code, handle, path);
    database.configure();
    database.recognize(schema);
    database.keep_journal();
    database.migrate(schema);
    database.check_tables(schema);
    return std::move(database);
  });
}

void Database::configure() {
  sqlite3_extended_result_codes(handle_, 1);
  check(sqlite3_busy_timeout(handle_, busy_timeout_ms), handle_, *path_);
  execute("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL;");
  single("SELECT count(*) FROM sqlite_master");  // the first read: refuses what is no SQLite file
}

void Database::recognize(const Schema& schema) {
  std::int64_t id = 0;
  std::int64_t tables = 0;
  std::int64_t version = 0;
  {
    // One state of the file: between two of these reads another process may have made its tables.
    const Transaction reading{*this, false};
    id = pragma("application_id");
    tables = std::get<std::int64_t>(single("SELECT count(*) FROM sqlite_master"));
    version = pragma("user_version");
  }
  const bool blank = id == 0 && version == 0 && tables == 0;
  if (!blank && id != schema.application_id) {
    refuse_file(*path_, "this database was made by another program", "name another file with --records");
  }
  const auto known = static_cast<std::int64_t>(schema.migrations.size());
  if (version < 0 || (version == 0 && !blank)) {
    refuse_file(*path_, fmt::format("this records file is damaged: it says version {}", version),
                "put a copy of it back in its place");
  }
  if (version > known) {
    refuse_file(*path_,
                fmt::format("this records file is of version {}, this program knows versions up to {}",
                            version, known),
                "use the newer soilclock that wrote it");
  }
}

void Database::keep_journal() {
  // Two processes that make the same file at once may get "busy" here without the usual waiting.
  for (int tried = 0;; ++tried) {
    try {
      single("PRAGMA journal_mode = WAL");
      return;
    } catch (const StorageProblem&) {
      if (tried == 50) throw;
      std::this_thread::sleep_for(std::chrono::milliseconds{busy_timeout_ms / 50});
    }
  }
}

void Database::migrate(const Schema& schema) {
  const auto wanted = static_cast<std::int64_t>(schema.migrations.size());
  if (pragma("user_version") >= wanted) return;
  // A table others refer to can only be made anew while nobody looks at the references; the setting cannot be
  // changed within a transaction.
  execute("PRAGMA foreign_keys = OFF");
  while (pragma("user_version") < wanted) {
    Transaction transaction{*this, true};
    // Read again under the lock: another process may have done this step meanwhile.
    const std::int64_t version = pragma("user_version");
    if (version >= wanted) break;
    try {
      execute(schema.migrations[static_cast<std::size_t>(version)]);
    } catch (const StorageProblem& refused) {
      if (refused.problem.family != Family::fault) throw;
      refuse_file(
          *path_,
          fmt::format("this records file is damaged: its tables are not those of version {}", version),
          "put a copy of it back in its place");
    }
    execute(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", schema.application_id,
                        version + 1));
    if (!std::holds_alternative<std::monostate>(single("PRAGMA foreign_key_check"))) {
      refuse_file(*path_, "this records file holds parts that belong to no entry",
                  "put a copy of it back in its place");
    }
    transaction.commit();
  }
  execute("PRAGMA foreign_keys = ON");
}

void Database::check_tables(const Schema& schema) {
  sqlite3* handle = nullptr;
  const int code = sqlite3_open(":memory:", &handle);
  Database model{handle, *path_};
  check(code, handle, *path_);
  for (const std::string& step : schema.migrations) model.execute(step);
  const std::string held = columns_of(*this);
  std::istringstream wanted{columns_of(model)};
  for (std::string column; std::getline(wanted, column);) {
    if (("\n" + held + "\n").find("\n" + column + "\n") != std::string::npos) continue;
    refuse_file(*path_, fmt::format("this records file is damaged: it lacks {}", column),
                "put a copy of it back in its place");
  }
}

std::int64_t Database::pragma(const std::string& name) {
  return std::get<std::int64_t>(single("PRAGMA " + name));
}

void Database::execute(const std::string& sql) {
  check(sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr), handle_, *path_);
}

Statement Database::prepare(std::string_view sql) {
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v2(handle_, sql.data(), static_cast<int>(sql.size()), &statement, nullptr), handle_,
        *path_);
  return Statement{statement, *path_};
}

SqlValue Database::single(std::string_view sql) {
  Statement statement = prepare(sql);
  return statement.step() ? statement.value(0) : SqlValue{};
}

std::int64_t Database::last_id() const { return sqlite3_last_insert_rowid(handle_); }

Transaction::Transaction(Database& database, bool writing) : database_{database} {
  database_.execute(writing ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  // SQLite has already undone the work itself after some failures; a second undoing would only be an error.
  if (open_ && sqlite3_get_autocommit(database_.handle_) == 0) {
    sqlite3_exec(database_.handle_, "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() {
  database_.execute("COMMIT");
  open_ = false;
}

}  // namespace soilclock::records
