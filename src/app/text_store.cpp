// SPDX-License-Identifier: MIT
#include "app/text_store.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <utility>

namespace soilclock::app {

namespace {

std::string temporary_folder() {
  const char* const named = std::getenv("TMPDIR");
  return named != nullptr && *named != '\0' ? named : "/tmp";
}

Failure<Problem> not_stored() {
  return fail(Problem{Family::environment,
                      "the answers cannot be laid aside until their ranks are known",
                      {temporary_folder(), {}, {}, {}},
                      std::strerror(errno),
                      {},
                      "make room there, or name another folder in TMPDIR"});
}

Failure<Problem> not_given_back(std::string found) {
  return fail(Problem{Family::environment,
                      "the answers laid aside cannot be read back; the document is not complete",
                      {temporary_folder(), {}, {}, {}},
                      std::move(found),
                      {},
                      "ask again; if it happens again, check that disk or name another folder in TMPDIR"});
}

/// Judgment: little beside what one answer takes while it is worked out, and room for a few. A text that
/// grows takes its room twice while it is copied.
constexpr std::size_t most_held = std::size_t{1} << 18U;

bool written(std::string_view text, std::FILE* file) {
  return std::fwrite(text.data(), 1, text.size(), file) == text.size();
}

/// A new file that no folder lists.
std::FILE* unnamed_file() {
  std::string path = temporary_folder() + "/soilclock-XXXXXX";
  const int handle = ::mkostemp(path.data(), O_CLOEXEC);
  if (handle < 0) return nullptr;
  ::unlink(path.c_str());
  return ::fdopen(handle, "w+b");
}

}  // namespace

Checked TextStore::add(std::string_view text) {
  if (!file_ && held_.size() + text.size() <= most_held) {
    held_ += text;
    return {};
  }
  if (!file_) {
    file_.reset(unnamed_file());
    left_ = held_.size();
    if (!file_ || !written(std::exchange(held_, {}), file_.get())) return not_stored();
  }
  left_ += text.size();
  if (!written(text, file_.get())) return not_stored();
  return {};
}

Checked TextStore::rewind() {
  if (!file_) return {};
  if (std::fflush(file_.get()) != 0) return not_stored();
  std::rewind(file_.get());
  return {};
}

Result<std::string> TextStore::next() {
  if (!file_) return std::exchange(held_, {});
  std::string piece(std::min(left_, std::size_t{1} << 16U), '\0');
  const std::size_t read = std::fread(piece.data(), 1, piece.size(), file_.get());
  if (read < piece.size()) {
    return not_given_back(std::ferror(file_.get()) != 0
                              ? std::strerror(errno)
                              : fmt::format("{} bytes fewer than were laid aside", left_ - read));
  }
  left_ -= read;
  return piece;
}

}  // namespace soilclock::app
