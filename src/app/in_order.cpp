// SPDX-License-Identifier: MIT
#include "app/in_order.hpp"

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <map>
#include <mutex>
#include <optional>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace soilclock::app {

namespace {

/// An exception as the end of a thing.
Finish thrown(std::exception_ptr failure) {
  return [failure]() -> bool { std::rethrow_exception(failure); };
}

class Line {
 public:
  Line(std::size_t most_open, const NextWork& next) : most_open_{most_open}, next_{next} {}

  /// Takes things until there are no more; several threads may do so.
  void work() {
    while (auto taken = take()) {
      Finish finish = taken->work();
      taken->work = nullptr;  // with all that was read for it
      hand_in(taken->number, std::move(finish));
    }
  }

  void throw_failure() const {
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  struct Taken {
    std::size_t number;
    Work work;
  };

  std::optional<Taken> take() {
    const std::lock_guard reading{taking_};
    {
      std::unique_lock lock{finishing_};
      room_.wait(lock, [&] { return over_ || taken_ - finished_ < most_open_; });
      if (over_) return std::nullopt;
    }
    if (at_end_) return std::nullopt;
    Work work;
    try {
      work = next_();
      at_end_ = !work;
    } catch (...) {
      at_end_ = true;
      work = [failure = std::current_exception()] { return thrown(failure); };
    }
    if (!work) return std::nullopt;
    return Taken{taken_++, guarded(std::move(work))};
  }

  static Work guarded(Work work) {
    return [work = std::move(work)]() -> Finish {
      try {
        return work();
      } catch (...) {
        return thrown(std::current_exception());
      }
    };
  }

  void hand_in(std::size_t number, Finish finish) {
    const std::lock_guard lock{finishing_};
    waiting_.emplace(number, std::move(finish));
    while (!over_ && !waiting_.empty() && waiting_.begin()->first == finished_) {
      const Finish first = std::move(waiting_.extract(waiting_.begin()).mapped());
      try {
        over_ = !first();
      } catch (...) {
        failure_ = std::current_exception();
        over_ = true;
      }
      ++finished_;
    }
    room_.notify_all();
  }

  std::size_t most_open_;
  const NextWork& next_;
  std::mutex taking_;  // guards the next two
  std::size_t taken_ = 0;
  bool at_end_ = false;
  std::mutex finishing_;  // guards what follows; locked behind the other one
  std::condition_variable room_;
  std::map<std::size_t, Finish> waiting_;  // worked on, by number, until all before them are
  std::size_t finished_ = 0;
  bool over_ = false;
  std::exception_ptr failure_;
};

}  // namespace

void work_in_order(int jobs, const NextWork& next) {
  Line line{2 * static_cast<std::size_t>(jobs), next};
  std::vector<std::thread> helpers;
  try {
    for (int i = 1; i < jobs; ++i) helpers.emplace_back([&] { line.work(); });
  } catch (const std::system_error&) {
    // Fewer do the same.
  }
  line.work();
  for (std::thread& helper : helpers) helper.join();
  line.throw_failure();
}

}  // namespace soilclock::app
