// SPDX-License-Identifier: MIT
#include "app/kept_readings.hpp"

#include <algorithm>

namespace soilclock::app {

namespace {

/// About what a reading takes: the text it is compared by, single hours, and a few series of days.
std::size_t room_of(std::string_view bytes, const weather::ParsedFile& file) {
  constexpr std::size_t for_a_day = 40;
  const auto days = static_cast<std::size_t>(std::max(0, file.daily.air_min.days().size()));
  return bytes.size() + file.hours.size() * sizeof(weather::HourlyObservation) + days * for_a_day;
}

}  // namespace

weather::ParsedFile KeptReadings::read(std::string_view bytes, const std::string& file,
                                       const weather::ReadingOptions& options, const std::string& course) {
  {
    const std::lock_guard lock{mutex_};
    if (const weather::ParsedFile* same = known(bytes, file, options, course)) return *same;
    ++times_read_;
  }
  // Others go on meanwhile; two that read the same file at once both read it.
  ReadText reading = read_file_text(bytes, file, options);
  weather::ParsedFile result = reading.file;
  const std::lock_guard lock{mutex_};
  keep(bytes, file, std::move(reading), course);
  return result;
}

const weather::ParsedFile* KeptReadings::known(std::string_view bytes, const std::string& file,
                                               const weather::ReadingOptions& options,
                                               const std::string& course) {
  const auto found = kept_.find(file);
  if (found == kept_.end() || found->second.bytes != bytes) return nullptr;
  found->second.asked = ++questions_;
  found->second.course = course;
  return readings_.known(file, options);
}

void KeptReadings::keep(std::string_view bytes, const std::string& file, ReadText reading,
                        const std::string& course) {
  drop(file);
  const std::size_t room = room_of(bytes, reading.file);
  if (course.empty() && room > most_bytes_) return;
  readings_.keep(file, std::move(reading));
  kept_.insert({file, {std::string{bytes}, course, room, ++questions_}});
  room_taken_ += room;
  make_room(course);
}

void KeptReadings::drop(const std::string& file) {
  const auto found = kept_.find(file);
  if (found == kept_.end()) return;
  room_taken_ -= found->second.room;
  kept_.erase(found);
  readings_.forget(file);
}

void KeptReadings::make_room(const std::string& course) {
  const auto earlier = [&](const auto& one, const auto& other) {
    const auto stays = [&](const Kept& kept) { return !course.empty() && kept.course == course; };
    return std::pair{stays(one.second), one.second.asked} <
           std::pair{stays(other.second), other.second.asked};
  };
  while (room_taken_ > most_bytes_) {
    const auto next = std::min_element(kept_.begin(), kept_.end(), earlier);
    if (!course.empty() && next->second.course == course) return;
    drop(std::string{next->first});
  }
}

}  // namespace soilclock::app
