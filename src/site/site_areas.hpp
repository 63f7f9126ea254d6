// SPDX-License-Identifier: MIT
// Courses and their areas: which sites are meant by an id, what the areas of a course share, and which notes
// count for which area.
#pragma once

#include <string>
#include <vector>

#include "core/remark.hpp"
#include "site/site_file.hpp"

namespace soilclock {

/// The sites with these ids in the order of the ids, each once; the id of a course means all its areas. All
/// sites where no id is named. Problem (request): an id no site has, with the nearest one.
Result<std::vector<Site>> chosen_sites(std::vector<Site> sites, const std::vector<std::string>& ids);

/// The id of the course a site is, or is an area of.
const std::string& course_id(const Site& site);

/// The course a site belongs to, as a site: what is stored of its weather stands under its id.
Site course_of(Site site);

/// Each course once, in the order of the sites.
std::vector<Site> courses_of(const std::vector<Site>& sites);

/// The notes that count for a site, by date, and what is to be said about the others.
struct CountedNotes {
  std::vector<records::Record> entries;
  std::vector<Remark> remarks;
};

/// Of the notes of a course those that count for a site. All of them, where it is a whole course. A note that
/// names areas of the course ("tee", "tee, green") counts for those; any other for all areas, with a remark
/// (note-of-no-area) when it names one the course has not. A soil reading that names no area is left out
/// where the area has a soil offset or a probe of its own, with a remark (reading-of-no-area): it was taken
/// elsewhere.
CountedNotes counted_notes(const Site& site, const std::vector<records::Record>& entries);

}  // namespace soilclock
