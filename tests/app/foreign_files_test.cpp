// SPDX-License-Identifier: MIT
// A file that is none of those asked for is refused without a word of what stands in it: it may be a file of
// passwords, named by mistake or by somebody who may not read it.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "support/command_run.hpp"

using namespace soilclock::tests;

namespace {

/// Texts of files that lie about on machines; all of them hold the words of `secrets`.
const std::vector<std::string> foreign_texts{
    // accounts
    "root:x:0:0:hunter2:/root:/bin/zsecret\nmail:x:8:8:hunter2:/var/mail:/bin/zsecret\n",
    // settings, with and without sections
    "[zsecret]\nkey_id = hunter2\nkey = 0123456789\n", "ZSECRET=hunter2\nexport OTHER=\"hunter2 zsecret\"\n",
    // a key
    "-----BEGIN ZSECRET-----\nhunter2AAAA/bbbb+cccc==\n-----END ZSECRET-----\n",
    // a log
    "2026-10-15T05:28:31+00:00 zsecret sshd[123]: Accepted password hunter2 for root from 10.0.0.1 port 22\n",
    // tables of other things
    "user,password\nzsecret,hunter2\n", "user;password;since\nzsecret;hunter2;2024-01-01\n",
    "zsecret\thunter2\n", "\"zsecret\" and \"hunter2\", unclosed\n\"\n",
    "zsecret hunter2 with \"quotes\" within, and, commas\n",
    // JSON that is none, and JSON of one value
    "{zsecret: hunter2}", "[hunter2, zsecret]", "\"hunter2 zsecret\"", "{\"\n hunter2 zsecret",
    "zsecret hunter2", "<!doctype html><html><body>hunter2 zsecret</body></html>\n"};

/// The calls that open a file of the user's, with its name put in.
std::vector<std::vector<std::string>> doors(const std::string& text_file, const std::string& json_file,
                                            const std::string& folder, const std::string& weather,
                                            const std::string& sites) {
  const std::vector<std::string> place{"--latitude", "35.6", "--longitude", "-83.1", "--on", "2026-10-15"};
  return {{"inspect", text_file},
          joined({"advise", "--weather", text_file}, place),
          joined({"advise", "--weather", text_file, "--columns", "date,tmin,tmax"}, place),
          joined({"advise", "--weather", weather, "--forecast", text_file}, place),
          joined({"advise", "--weather", weather, "--probe", text_file}, place),
          joined({"soil", "--weather", text_file}, place),
          {"advise", "--sites", text_file},
          {"advise", "--sites", json_file},
          joined({"advise", "--weather", weather, "--practice", json_file}, place),
          joined({"advise", "--weather", weather, "--models", folder}, place),
          {"fetch", "--sites", sites, "--service-settings", json_file},
          {"fetch", "--sites", sites, "--saved", text_file},
          {"log", "list", "--records", text_file},
          {"log", "import", text_file},
          {"log", "import", text_file, "--kind", "count"}};
}

}  // namespace

TEST_CASE("a file that is something else is refused without showing what stands in it") {
  const Desk desk;
  std::filesystem::create_directories(desk.path("own/models/targets"));
  const std::string weather =
      desk.file("weather.csv", made_up_weather(soilclock::make_day(2023, 1, 1), 1383));
  const std::string sites =
      desk.file("courses.json",
                R"({"id":"heron","latitude":35.6,"longitude":-83.1,"weather":[{"service":"open-meteo"}]})");
  for (const std::string& text : foreign_texts) {
    const std::string text_file = desk.file("foreign.csv", text);
    const std::string json_file = desk.file("foreign.json", text);
    desk.file("own/models/targets/OTHER.json", text);
    for (const auto& words : doors(text_file, json_file, desk.path("own"), weather, sites)) {
      const Run run = desk.run(words);
      std::string call;
      for (const std::string& word : words) call += word + " ";
      INFO(call << "\n" << text << "\n" << run.err << run.out);
      CHECK(run.code != 0);
      CHECK(run.code != 70);
      std::string said = run.err + run.out;
      for (char& c : said) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      CHECK_FALSE(holds(said, "hunter2"));
      CHECK_FALSE(holds(said, "zsecret"));
    }
  }
}

TEST_CASE("a weather file with a mistake still shows it") {
  const Desk desk;
  const std::string heading = desk.file("a.csv", "date,tmin_c,tmax_c\n");
  CHECK(holds(desk.run({"inspect", heading}).err + desk.run({"inspect", heading}).out, "date,tmin_c,tmax_c"));
  const std::string bare = desk.file("b.csv", "2026-01-01,1.0,9.0\n2026-01-02,2.0,8.0\n");
  CHECK(holds(desk.run({"inspect", bare}).err + desk.run({"inspect", bare}).out, "2026-01-01,1.0,9.0"));
}
