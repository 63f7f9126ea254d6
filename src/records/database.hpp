// SPDX-License-Identifier: MIT
// A thin door to SQLite: database, statement, transaction. Its .cpp is the only file that names the library.
// Inside this floor a failure is thrown as StorageProblem; guarded() turns it into a Result at the floor's
// edge.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "core/problem.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace soilclock::records {

struct StorageProblem {
  Problem problem;
};

/// A value of a database column; std::monostate is NULL.
using SqlValue = std::variant<std::monostate, std::int64_t, double, std::string>;

/// How the tables of a kind of file came about: migration n leads from version n-1 to version n, and the
/// versions are never changed once released, only followed by new ones.
struct Schema {
  std::int32_t application_id = 0;      ///< marks a file as ours
  std::vector<std::string> migrations;  ///< SQL text each
};

/// What is asked of a file: written, and made where it is not there; written, where it is there; or only
/// read, where it is there, which works on a full or write-protected disk, too.
enum class Access { create, existing, reading };

class Statement {
 public:
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement(Statement&& other) noexcept
      : handle_{std::exchange(other.handle_, nullptr)}, path_{other.path_} {}
  Statement& operator=(Statement&&) = delete;
  ~Statement();

  /// Sets the parameters from the first on.
  Statement& bind(const std::vector<SqlValue>& values);
  /// Goes to the next row; false at the end. Throws StorageProblem.
  bool step();
  /// Runs to the end and makes the statement ready for other parameters.
  void run();
  /// Column of the present row, counted from 0.
  SqlValue value(int column) const;
  std::int64_t integer(int column) const;
  std::string text(int column) const;
  bool is_null(int column) const;

 private:
  friend class Database;
  Statement(sqlite3_stmt* handle, const std::string& path) : handle_{handle}, path_{&path} {}
  sqlite3_stmt* handle_;
  const std::string* path_;
};

/// One open file: WAL journal, every commit on the disk before it returns, foreign keys enforced, waits of up
/// to five seconds for another process. Not for several threads at once.
class Database {
 public:
  /// Opens a file and brings its tables up to date, each migration in a transaction of its own. With
  /// Access::reading a file that cannot be written is read into memory and brought up to date there; writing
  /// is then refused. Problems: environment - not to be opened, written or waited for; data - no SQLite file,
  /// one of another program, one of a newer version, one that is damaged or lacks tables or columns; request
  /// - not there with Access::existing.
  static Result<Database> open(const std::string& path, const Schema& schema, Access access);
  Database(Database&&) noexcept;
  Database& operator=(Database&&) noexcept;
  ~Database();

  /// Runs SQL without parameters and without results. Throws StorageProblem.
  void execute(const std::string& sql);
  Statement prepare(std::string_view sql);
  /// First column of the first row of a query. Throws StorageProblem.
  SqlValue single(std::string_view sql);
  std::int64_t last_id() const;
  const std::string& path() const { return *path_; }

 private:
  friend class Transaction;
  Database(sqlite3* handle, std::string path);
  static Result<Database> open_file(const std::string& path, const Schema& schema, Access access);
  static Result<Database> open_copy(const std::string& path, const Schema& schema);
  void read_from(const std::string& path);
  void configure();
  void recognize(const Schema& schema);
  void keep_journal();
  void migrate(const Schema& schema);
  void check_tables(const Schema& schema);
  std::int64_t pragma(const std::string& name);
  sqlite3* handle_ = nullptr;
  std::unique_ptr<const std::string> path_;  // keeps its address for statements when the database moves
};

/// All or nothing: what is not committed when it goes out of scope is undone.
class Transaction {
 public:
  /// `writing` takes the write lock at once, so that two processes queue up instead of failing half way.
  Transaction(Database& database, bool writing);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  /// Returns when the changes are on the disk. Throws StorageProblem, then nothing is kept.
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

/// Calls `work` and turns a StorageProblem into a failed result.
template <class Work>
auto guarded(Work&& work) -> Result<std::decay_t<decltype(work())>> {
  try {
    if constexpr (std::is_void_v<decltype(work())>) {
      work();
      return {};
    } else {
      return work();
    }
  } catch (const StorageProblem& found) {
    return fail(found.problem);
  }
}

}  // namespace soilclock::records
