// SPDX-License-Identifier: MIT
// Shares out jobs that know nothing of each other over a few threads.
#pragma once

#include <fmt/format.h>

#include <atomic>
#include <cstdio>
#include <thread>
#include <vector>

namespace soilclock::studies {

/// Results in the order of the jobs, whoever did them. Progress goes to standard error.
template <class Job, class Work>
auto worked_off(const std::vector<Job>& jobs, unsigned threads, const Work& work) {
  std::vector<decltype(work(jobs.front()))> results(jobs.size());
  std::atomic<std::size_t> next{0};
  std::atomic<std::size_t> done{0};
  const auto loop = [&] {
    for (std::size_t job = next++; job < jobs.size(); job = next++) {
      results[job] = work(jobs[job]);
      fmt::print(stderr, "\r{} of {} jobs done", ++done, jobs.size());
    }
  };
  std::vector<std::thread> crew;
  for (unsigned i = 0; i < threads; ++i) crew.emplace_back(loop);
  for (std::thread& thread : crew) thread.join();
  fmt::print(stderr, "\n");
  return results;
}

/// The parts that every job gives, one behind the other.
template <class Job, class Work>
auto gathered(const std::vector<Job>& jobs, unsigned threads, const Work& work) {
  decltype(work(jobs.front())) all;
  for (auto& part : worked_off(jobs, threads, work)) all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace soilclock::studies
