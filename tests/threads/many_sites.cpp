// SPDX-License-Identifier: MIT
// Questions asked by several threads at once get the bytes they get one after another: many_sites SITES_FILE
// RECORDS_FILE The program itself has one thread; programs around its library, the obedience benchmark among
// them, have more.
#include <algorithm>
#include <cstdio>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include "app/command_line.hpp"

namespace {

using namespace soilclock;

struct Said {
  int code = -1;
  std::string out;
  std::string err;
  friend bool operator==(const Said&, const Said&) = default;
};

Said said_to(const std::vector<std::string>& words) {
  const Instant now = Instant{make_day(2026, 10, 15)} + std::chrono::hours{12};
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  app::Streams streams{
      in,    out,  err, date::floor<Days>(now), [now] { return now; }, [](std::chrono::milliseconds) {},
      false, false};
  Said said;
  said.code = app::run_command_line(words, streams);
  said.out = out.str();
  said.err = err.str();
  return said;
}

std::vector<std::vector<std::string>> questions(const std::string& sites, const std::string& records) {
  std::vector<std::vector<std::string>> all{{"models"}, {"log", "list", "--records", records}};
  for (const char* site : {"copper-heron", "millrace-nine", "saltmarsh-bell"}) {
    for (const char* command : {"advise", "season", "soil"}) {
      all.push_back({command, "--sites", sites, "--only", site, "--on", "2026-10-15", "--format", "json"});
      if (command == std::string{"advise"}) all.back().insert(all.back().end(), {"--records", records});
    }
  }
  return all;
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  const auto asked = questions(words[1], words[2]);
  std::vector<Said> together(asked.size());
  // First of all, so that whatever is made at its first use is made by all of them.
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < asked.size(); ++i)
    threads.emplace_back([&, i] { together[i] = said_to(asked[i]); });
  for (std::thread& thread : threads) thread.join();
  int wrong = 0;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const Said alone = said_to(asked[i]);
    if (alone == together[i] && alone.code == 0) continue;
    ++wrong;
    std::printf("%s %s: code %d alone and %d together\n%s%s", asked[i][0].c_str(), asked[i].back().c_str(),
                alone.code, together[i].code, alone.err.c_str(), together[i].err.c_str());
  }
  std::printf("%zu questions, %d answered otherwise\n", asked.size(), wrong);
  return wrong == 0 ? 0 : 1;
}
