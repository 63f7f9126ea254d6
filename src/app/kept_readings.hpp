// SPDX-License-Identifier: MIT
// Weather files of a run as they were read: sites that name the same file share one reading of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <string_view>

#include "site/read_files.hpp"

namespace soilclock::app {

/// Judgment: a twentieth of what one answer takes while it is worked out, and room for some four files of
/// twelve years of days.
inline constexpr std::size_t most_kept_bytes = std::size_t{1} << 20U;

/// May be asked by several threads at once.
class KeptReadings {
 public:
  explicit KeptReadings(std::size_t most_bytes = most_kept_bytes) : most_bytes_{most_bytes} {}

  /// As weather::read_weather_text; what was read of the same bytes under the same name is taken from here,
  /// where it would come out the same. Readings are kept while there is room, those asked for last the
  /// longest; the areas of a course share theirs whatever their size, as long as it is the course asked for
  /// last. `course`: the id of the course of an area; empty for a whole course.
  weather::ParsedFile read(std::string_view bytes, const std::string& file,
                           const weather::ReadingOptions& options, const std::string& course);

  /// Files read so far, and not taken from here.
  std::size_t times_read() const { return times_read_; }

 private:
  struct Kept {
    std::string bytes;
    std::string course;
    std::size_t room = 0;
    std::uint64_t asked = 0;  ///< when last, in questions
  };

  const weather::ParsedFile* known(std::string_view bytes, const std::string& file,
                                   const weather::ReadingOptions& options, const std::string& course);
  void keep(std::string_view bytes, const std::string& file, ReadText reading, const std::string& course);
  void drop(const std::string& file);
  void make_room(const std::string& course);

  std::size_t most_bytes_;
  std::mutex mutex_;
  std::map<std::string, Kept> kept_;  ///< by name, each with a reading in `readings_`
  ReadFiles readings_;
  std::size_t room_taken_ = 0;
  std::uint64_t questions_ = 0;
  std::size_t times_read_ = 0;
};

}  // namespace soilclock::app
