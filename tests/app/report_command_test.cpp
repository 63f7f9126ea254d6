// SPDX-License-Identifier: MIT
// Pages written to a folder: whole, by safe names, the same for the same input.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <set>

#include "app/page_files.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::set<std::string> files_in(const std::string& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator{folder}) names.insert(entry.path().filename());
  return names;
}

std::string page_at(const Desk& desk, const std::string& name) {
  std::ifstream in{desk.path(name), std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

std::vector<std::string> names_of(const std::vector<std::string>& ids) {
  std::vector<Site> sites;
  for (const std::string& id : ids) {
    Site site;
    site.id = id;
    sites.push_back(site);
  }
  return app::page_names(sites);
}

std::string good_record(const Desk& desk) {
  return desk.file("good.csv", made_up_weather(make_day(2025, 6, 1), 501));
}

}  // namespace

TEST_CASE("a page a site and an index, the same bytes each time") {
  const Desk desk;
  const std::string good = good_record(desk);
  const std::string sites =
      desk.file("s.json", "[" + site_line("north", good) + "," + site_line("south", good) + "]");
  const Run run = desk.run({"report", "--sites", sites, "--output", desk.path("a/pages")});
  CHECK(run.code == 0);
  CHECK(run.out == "2 courses: open " + desk.path("a/pages/index.html") + "\n");
  CHECK(files_in(desk.path("a/pages")) == std::set<std::string>{"calendar.ics", "courses.geojson",
                                                                "index.html", "north.html", "north.txt",
                                                                "south.html", "south.txt"});
  CHECK(desk.run({"report", "--sites", sites, "--output", desk.path("b")}).code == 0);
  for (const std::string& file : files_in(desk.path("a/pages"))) {
    INFO(file);
    const std::string page = page_at(desk, "a/pages/" + file);
    CHECK(page == page_at(desk, "b/" + file));
    CHECK(page.ends_with(file.ends_with(".html") ? "</html>\n" : "\n"));
  }
}

TEST_CASE("a site that fails is one line on the error stream, in the index, and has no page") {
  const Desk desk;
  const std::string sites = desk.file("s.json", "[" + site_line("a", good_record(desk)) + "," +
                                                    site_line("b", desk.path("absent.csv")) + "]");
  const Run run = desk.run({"report", "--sites", sites, "--output", desk.path("pages")});
  CHECK(run.code == 1);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, "soilclock: b: "));
  CHECK(files_in(desk.path("pages")) ==
        std::set<std::string>{"a.html", "a.txt", "calendar.ics", "courses.geojson", "index.html"});
  CHECK(holds(page_at(desk, "pages/index.html"), "absent.csv"));
}

TEST_CASE("a folder that cannot be made is said, and no half-written file stays") {
  const Desk desk;
  const std::string sites = desk.file("s.json", "[" + site_line("a", good_record(desk)) + "]");
  CHECK(desk.run({"report", "--sites", sites, "--output", desk.file("taken", "x")}).code == 4);
  CHECK(desk.run({"report", "--sites", sites}).code == 2);
  std::filesystem::create_directories(desk.path("pages/a.html/full"));  // no file can take this name
  const Run run = desk.run({"report", "--sites", sites, "--output", desk.path("pages")});
  CHECK(run.code == 4);
  CHECK(files_in(desk.path("pages")) == std::set<std::string>{"a.html"});
}

TEST_CASE("a page of four open grasses can be mailed: at most 150 kB") {
  const Desk desk;
  const Run run =
      desk.run({"report", "--sites", std::string{SOILCLOCK_SOURCE_DIR} + "/config/demo_sites.json", "--only",
                "copper-heron", "--on", "2026-01-20", "--target", "POAAN", "--target", "DIGIS", "--target",
                "DIGSA", "--target", "ELEIN", "--output", desk.path("pages")});
  CHECK(run.code == 0);
  const std::string page = page_at(desk, "pages/copper-heron.html");
  std::size_t open = 0;
  for (auto at = page.find("section class=\"target\""); at != std::string::npos;
       at = page.find("section class=\"target\"", at + 1))
    ++open;
  CHECK(open == 4);
  CHECK(page.size() <= 150'000);
}

TEST_CASE("page names are safe, differ and leave the index alone") {
  CHECK(names_of({"copper-heron", "index"}) == std::vector<std::string>{"copper-heron", "index-2"});
  const std::vector<std::string> ids{
      "../../etc/passwd", "A b", "a_B", "index", "日本", std::string(300, 'x'), "<script>alert(1)</script>"};
  const std::vector<std::string> names = names_of(ids);
  CHECK(std::set<std::string>(names.begin(), names.end()).size() == ids.size());
  for (const std::string& name : names) {
    INFO(name);
    CHECK(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos);
    CHECK(name.size() <= 50);
  }
}
