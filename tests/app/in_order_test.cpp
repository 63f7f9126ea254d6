// SPDX-License-Identifier: MIT
#include "app/in_order.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <chrono>
#include <future>
#include <stdexcept>
#include <thread>
#include <vector>

using namespace soilclock;
using app::Finish;
using app::Work;
using app::work_in_order;

TEST_CASE("things are finished in the order in which they came, however long each of them takes") {
  for (const int jobs : {1, 2, 3, 8}) {
    CAPTURE(jobs);
    std::vector<int> finished;
    int next = 0;
    std::atomic<int> open = 0;
    std::atomic<int> most_open = 0;
    std::promise<void> second_has_begun;
    auto beside = second_has_begun.get_future();
    bool side_by_side = false;
    work_in_order(jobs, [&]() -> Work {
      if (next == 200) return {};
      ++open;
      most_open = std::max(most_open.load(), open.load());
      return [&, number = next++]() -> Finish {
        std::this_thread::sleep_for(std::chrono::microseconds{number % 7 * 100});
        if (number == 1) second_has_begun.set_value();
        if (number == 0 && jobs > 1)
          side_by_side = beside.wait_for(std::chrono::minutes{1}) == std::future_status::ready;
        return [&, number] {
          finished.push_back(number);
          --open;
          return true;
        };
      };
    });
    std::vector<int> expected(200);
    for (int i = 0; i < 200; ++i) expected[static_cast<std::size_t>(i)] = i;
    CHECK(finished == expected);
    CHECK(most_open <= 2 * jobs);
    CHECK(side_by_side == (jobs > 1));
  }
}

TEST_CASE("a thing is finished while the next one is waited for") {
  std::promise<void> first_is_out;
  auto seen = first_is_out.get_future();
  int next = 0;
  bool waited = false;
  work_in_order(2, [&]() -> Work {
    if (next++ == 0) {
      return [&]() -> Finish {
        return [&] {
          first_is_out.set_value();
          return true;
        };
      };
    }
    // A program at the other end of a pipe asks for no second answer before it has the first.
    waited = seen.wait_for(std::chrono::minutes{1}) == std::future_status::ready;
    return {};
  });
  CHECK(waited);
}

TEST_CASE("what goes wrong comes in its turn: all before it is finished and nothing after it") {
  enum class Where { next, work, finish, enough };
  for (const Where where : {Where::next, Where::work, Where::finish, Where::enough}) {
    for (const int jobs : {1, 2, 5}) {
      CAPTURE(static_cast<int>(where), jobs);
      std::vector<int> finished;
      int next = 0;
      const auto break_at = [&](Where here, int number) {
        if (here == where && number == 20) throw std::runtime_error{"broken"};
      };
      const auto run = [&] {
        work_in_order(jobs, [&]() -> Work {
          if (next == 1000) return {};
          break_at(Where::next, next);
          return [&, number = next++]() -> Finish {
            break_at(Where::work, number);
            return [&, number] {
              break_at(Where::finish, number);
              finished.push_back(number);
              return where != Where::enough || number < 19;
            };
          };
        });
      };
      if (where == Where::enough)
        CHECK_NOTHROW(run());
      else
        CHECK_THROWS_WITH(run(), "broken");
      REQUIRE(finished.size() == 20);
      CHECK(finished.back() == 19);
      CHECK(next <= 20 + 2 * jobs);
    }
  }
}
