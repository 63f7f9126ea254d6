// SPDX-License-Identifier: MIT
// Questions asked by several threads at once get the bytes they get one after another, and so do sites that
// the program itself answers at the same time: many_sites SITES_FILE RECORDS_FILE LINES_FILE
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>
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

struct Question {
  std::vector<std::string> words;
  std::string input = {};
  bool jobs = false;  ///< asked together with --jobs, too
};

Said said_to(const Question& question, bool together) {
  std::vector<std::string> words = question.words;
  if (together && question.jobs) words.insert(words.end(), {"--jobs", "3"});
  const Instant now = Instant{make_day(2026, 10, 15)} + std::chrono::hours{12};
  std::istringstream in{question.input};
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

std::vector<Question> questions(const std::string& sites, const std::string& records,
                                const std::string& lines) {
  std::vector<Question> all{{{"models"}}, {{"log", "list", "--records", records}}};
  for (const char* site : {"copper-heron", "millrace-nine", "saltmarsh-bell"}) {
    for (const char* command : {"advise", "season", "soil"}) {
      all.push_back({{command, "--sites", sites, "--only", site, "--on", "2026-10-15", "--format", "json"}});
      if (command == std::string{"advise"})
        all.back().words.insert(all.back().words.end(), {"--records", records});
    }
  }
  std::ifstream file{lines};
  const std::string input{std::istreambuf_iterator<char>{file}, {}};
  for (const std::string& from : {sites, std::string{"-"}}) {
    all.push_back(
        {{"advise", "--sites", from, "--on", "2026-10-15", "--format", "json", "--records", records},
         input,
         true});
  }
  return all;
}

}  // namespace

int main(int count, char** words) {
  if (count != 4) return 2;
  const auto asked = questions(words[1], words[2], words[3]);
  std::vector<Said> together(asked.size());
  // First of all, so that whatever is made at its first use is made by all of them.
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < asked.size(); ++i)
    threads.emplace_back([&, i] { together[i] = said_to(asked[i], true); });
  for (std::thread& thread : threads) thread.join();
  int wrong = 0;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const Said alone = said_to(asked[i], false);
    if (alone == together[i] && alone.code == 0) continue;
    ++wrong;
    std::printf("%s %s: code %d alone and %d together\n%s%s", asked[i].words[0].c_str(),
                asked[i].words.back().c_str(), alone.code, together[i].code, alone.err.c_str(),
                together[i].err.c_str());
  }
  std::printf("%zu questions, %d answered otherwise\n", asked.size(), wrong);
  return wrong == 0 ? 0 : 1;
}
