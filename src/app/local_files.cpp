// SPDX-License-Identifier: MIT
#include "app/local_files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "core/limits.hpp"
#include "core/number_text.hpp"

namespace soilclock::app {

namespace {

/// A file that is open for reading; closed at the end.
class OpenFile {
 public:
  explicit OpenFile(const std::string& path)
      : handle_{::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC)} {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() {
    if (handle_ >= 0) ::close(handle_);
  }
  int handle() const { return handle_; }

 private:
  int handle_;
};

Failure<Problem> unreadable(const std::string& path, Family family, std::string what, std::string found,
                            std::string remedy) {
  return fail(Problem{family, std::move(what), {path, {}, {}, {}}, std::move(found), {}, std::move(remedy)});
}

Failure<Problem> not_opened(const std::string& path, int error) {
  if (error == ENOENT || error == ENOTDIR)
    return unreadable(path, Family::request, "there is no such file", "", "check the name and the folder");
  return unreadable(path, Family::environment, "the file cannot be read", std::strerror(error),
                    "check its permissions");
}

Failure<Problem> too_large(const std::string& name) {
  return unreadable(name, Family::request,
                    fmt::format("the file is larger than {} MB, the most that is read at once",
                                largest_file_bytes / 1'000'000),
                    "", "split it by years, or leave out columns that are not weather");
}

/// Whether bytes, or the end, came before the silence got too long.
bool something_came(int handle, std::chrono::milliseconds silence) {
  pollfd waiting{handle, POLLIN, 0};
  int ready = 0;
  do {
    ready = ::poll(&waiting, 1, static_cast<int>(silence.count()));
  } while (ready < 0 && errno == EINTR);
  return ready > 0;
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::chrono::milliseconds silence) {
  const OpenFile file{path};
  if (file.handle() < 0) return not_opened(path, errno);
  struct stat about {};
  if (::fstat(file.handle(), &about) != 0) return not_opened(path, errno);
  if (S_ISDIR(about.st_mode))
    return unreadable(path, Family::request, "this is a folder, not a file", "", "");
  if (about.st_size > static_cast<off_t>(largest_file_bytes)) return too_large(path);
  const bool may_wait = !S_ISREG(about.st_mode);
  std::string text;
  // A text that grows is copied over and over, which costs more than reading the file.
  text.reserve(static_cast<std::size_t>(about.st_size));
  std::array<char, 1 << 16> part;
  for (;;) {
    if (may_wait && !something_came(file.handle(), silence))
      return unreadable(path, Family::environment, "nothing comes through this pipe", "",
                        "start the program that writes into it, or name a file");
    const ssize_t taken = ::read(file.handle(), part.data(), part.size());
    if (taken == 0) return text;
    if (taken < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (taken < 0)
      return unreadable(path, Family::environment, "the file cannot be read to its end", std::strerror(errno),
                        "check the disk");
    text.append(part.data(), static_cast<std::size_t>(taken));
    if (text.size() > largest_file_bytes) return too_large(path);
  }
}

Result<std::string> read_stream(std::istream& in, const std::string& name) {
  std::string text;
  std::array<char, 1 << 16> part;
  while (in) {
    in.read(part.data(), static_cast<std::streamsize>(part.size()));
    text.append(part.data(), static_cast<std::size_t>(in.gcount()));
    if (text.size() > largest_file_bytes) return too_large(name);
  }
  return text;
}

Checked write_whole(const std::filesystem::path& path, std::string_view text) {
  std::error_code error;
  const bool straight =
      std::filesystem::exists(path, error) && !std::filesystem::is_regular_file(path, error);
  const std::filesystem::path unfinished = straight ? path : std::filesystem::path{path.string() + ".part"};
  std::ofstream out{unfinished, std::ios::binary};
  out << text;
  out.close();
  error.clear();
  if (out && !straight) std::filesystem::rename(unfinished, path, error);
  if (out && !error) return {};
  if (!straight) std::filesystem::remove(unfinished, error);
  return fail(Problem{Family::environment,
                      "the file cannot be written",
                      {path.string(), {}, {}, {}},
                      {},
                      {},
                      "check the folder, its permissions and the room on the disk"});
}

}  // namespace soilclock::app
