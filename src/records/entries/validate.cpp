// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "records/entries/field.hpp"

namespace soilclock::records {

namespace {

Failure<Problem> refuse(std::string_view field, std::string what, std::string found, std::string expected,
                        std::string remedy) {
  return fail({Family::request,
               fmt::format("field '{}': {}", field, what),
               {},
               std::move(found),
               std::move(expected),
               std::move(remedy)});
}

/// Each field on its own. Writing the shown value into a blank record applies the one rule there is for it; a
/// value that comes back changed (blanks at the ends, a name that would split in two) could not be exported
/// and read again.
Checked validate_fields(const Record& record) {
  const RecordKind kind = kind_of(record);
  for (const Field& field : fields_of(kind)) {
    const Cell cell = field.read(record);
    const std::string text = cell_text(cell);
    if (field.required && text.empty()) {
      return refuse(field.name, "this is needed and is missing", {}, field.expected, {});
    }
    Record again = empty_record(kind);
    if (const Checked written = field.write(again, text, own_unit(field)); !written) return written;
    if (field.read(again) != cell) {
      return refuse(field.name, "this value cannot be kept as it is", text, field.expected,
                    "take off blanks at its ends and separators within it");
    }
  }
  return {};
}

Checked agrees(const Application& a) {
  if (a.actives.empty() && a.groups.empty()) {
    return refuse("active", "an application needs at least one active or group", {},
                  "the common name of an active ingredient, or a group number in field 'group'", {});
  }
  if (a.start && a.end && *a.end < *a.start) {
    return refuse("end", "the end lies before the start", {}, "a later time of the same day",
                  "note what was done after midnight as an application of its own");
  }
  if (a.watering_date && !a.watering_in) {
    return refuse("watering_in", "a watering date is noted but no amount", {}, "a depth of water such as 6mm",
                  {});
  }
  if (a.watering_date && *a.watering_date < *a.date) {
    return refuse("watering_date", "the watering-in lies before the application", iso(*a.watering_date),
                  "a date from " + iso(*a.date) + " on", {});
  }
  return {};
}

Checked agrees(const ScoutingCount& c) {
  if (c.counts.empty() == !c.visual_share) {
    return refuse("count",
                  c.visual_share ? "counts and a share judged by eye cannot stand in one entry"
                                 : "neither counts nor a share judged by eye is noted",
                  {}, "either field 'count' or field 'share'", {});
  }
  if (!c.counts.empty() && c.plots && static_cast<std::size_t>(*c.plots) != c.counts.size()) {
    return refuse("count", "there are not as many counts as plots",
                  fmt::format("{} counts for {} plots", c.counts.size(), *c.plots), "one count for each plot",
                  "a plot without any plant counts as 0");
  }
  return {};
}

Checked agrees(const ProbeReading&) { return {}; }
Checked agrees(const EyeCheck&) { return {}; }
Checked agrees(const FirstSeen&) { return {}; }

/// Whether both sides of a strip check are there, and both or neither from before.
Checked both_sides(const std::string& treated_field, bool treated, bool untreated) {
  if (treated == untreated) return {};
  return refuse(treated ? "un" + treated_field : treated_field, "this side of the strip check is missing", {},
                "treated turf and the untreated strip, both", {});
}

Checked agrees(const StripCheck& s) {
  if (s.treated.empty() && s.untreated.empty() && !s.treated_share && !s.untreated_share)
    return refuse("treated", "neither counts nor cover are noted", {},
                  "fields 'treated' and 'untreated', or 'treated_share' and 'untreated_share'", {});
  if ((!s.treated.empty() || !s.untreated.empty()) && (s.treated_share || s.untreated_share))
    return refuse("treated", "counts and cover cannot stand in one entry", {}, "one or the other", {});
  for (const Checked& sides :
       {both_sides("treated", !s.treated.empty(), !s.untreated.empty()),
        both_sides("treated_share", s.treated_share.has_value(), s.untreated_share.has_value()),
        both_sides("treated_before", !s.treated_before.empty(), !s.untreated_before.empty()),
        both_sides("treated_share_before", s.treated_share_before.has_value(),
                   s.untreated_share_before.has_value())}) {
    if (!sides) return sides;
  }
  return {};
}

}  // namespace

Checked validate(const Record& record) {
  if (const Checked fields = validate_fields(record); !fields) return fields;
  return std::visit([](const auto& r) { return agrees(r); }, record);
}

}  // namespace soilclock::records
