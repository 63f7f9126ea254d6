// SPDX-License-Identifier: MIT
// Notes that stand in the site file.
#include <catch2/catch.hpp>

#include "app/course_desk.hpp"

using namespace soilclock;
using namespace soilclock::tests;

TEST_CASE("notes in the site file say the same as notes in the records file, and both together no more") {
  CourseDesk desk;
  const std::string on = "2025-10-20";
  const std::string plain = desk.advise(on, "json").out;
  Json site = course(desk);
  site["log"] = Json::array(
      {{{"kind", "application"}, {"date", "2025-09-08"}, {"active", {"prodiamine"}}, {"purpose", "pre"}},
       {{"kind", "count"}, {"date", "2025-10-14"}, {"target", "POAAN"}, {"count", {4, 0, 2, 9}}}});
  desk.file("s.json", site.dump());
  const std::string in_file = desk.advise(on, "json").out;
  CHECK(in_file != plain);
  desk.note("application", "2025-09-08", {"--active", "prodiamine", "--purpose", "pre"});
  desk.note("count", "2025-10-14",
            {"--target", "POAAN", "--count", "4", "--count", "0", "--count", "2", "--count", "9"});
  CHECK(desk.advise(on, "json").out == in_file);
  site.erase("log");
  desk.file("s.json", site.dump());
  CHECK(desk.advise(on, "json").out == in_file);
}
