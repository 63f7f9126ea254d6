// SPDX-License-Identifier: MIT
// Invented records that are valid and use every field.
#pragma once

#include "records/store.hpp"

namespace sample {

using namespace soilclock;

inline records::Application application() {
  records::Application a;
  a.site = "copper-heron";
  a.date = make_day(2026, 10, 14);
  a.start = records::ClockTime{6 * 60 + 45};
  a.end = records::ClockTime{9 * 60 + 5};
  a.area = "fairways 1-9";
  a.turf = "hybrid bermudagrass";
  a.target = "POAAN";
  a.stage = "2 leaves";
  a.actives = {"prodiamine", "2,4-D"};
  a.groups = {3, 4};
  a.purpose = records::Purpose::pre_and_post;
  a.split_part = 1;
  a.watering_in = Rain::from_mm(6.0);
  a.watering_date = make_day(2026, 10, 15);
  a.applicator = "first crew";
  a.license = "00417";
  a.registration = "000-0123";
  a.amount = "3 jugs";
  a.volume = "one tank";
  a.nozzle = "flat fan";
  a.wind_m_per_s = 2.5;
  a.wind_from_degrees = 315.0;
  a.air_temperature = Temperature::from_celsius(16.5);
  a.humidity_percent = 55.0;
  a.soil_temperature = Temperature::from_celsius(18.25);
  a.rain_after = Rain::from_mm(0.0);
  a.re_entry = "when dry";
  a.photo = "october/1.jpg";
  a.notes = "untreated strip on 4\nlook again in three weeks";
  return a;
}

inline records::ScoutingCount count() {
  records::ScoutingCount c;
  c.site = "copper-heron";
  c.date = make_day(2026, 10, 20);
  c.target = "POAAN";
  c.plots = 3;
  c.plot_area_m2 = 0.1;
  c.counts = {12, 0, 7};
  c.counted = records::Counted::fresh;
  c.stage = "1-2 leaves";
  c.area = "fairway 4";
  c.notes = "after rain";
  return c;
}

inline records::ProbeReading reading() {
  records::ProbeReading r;
  r.site = "millrace-nine";
  r.date = make_day(2026, 10, 12);
  r.time = records::ClockTime{9 * 60};
  r.depth = Depth::from_cm(7.0);
  r.temperature = Temperature::from_celsius(17.1);
  r.area = "tee 2";
  r.notes = "sunny";
  return r;
}

inline records::EyeCheck check() {
  records::EyeCheck k;
  k.site = "saltmarsh-bell";
  k.date = make_day(2027, 1, 20);
  k.state = records::TurfSeen::semi_dormant;
  k.seen_by = "assistant";
  k.area = "fairway 7";
  k.notes = "green under the canopy";
  return k;
}

inline records::FirstSeen first_seen() {
  records::FirstSeen f;
  f.site = "copper-heron";
  f.date = make_day(2026, 9, 20);
  f.target = "POAAN";
  f.seen_by = "assistant";
  f.area = "green 3";
  f.notes = "in the collar";
  return f;
}

inline records::StripCheck strip() {
  records::StripCheck s;
  s.site = "copper-heron";
  s.date = make_day(2026, 11, 20);
  s.target = "POAAN";
  s.treated = {2, 1, 0};
  s.untreated = {12, 8, 10};
  s.treated_before = {9, 9, 6};
  s.untreated_before = {8, 9, 9};
  s.area = "fairway 4";
  s.notes = "strip beside the forward tee";
  return s;
}

inline records::Stamp stamp(int minute = 0) {
  return {Instant{make_day(2026, 10, 20)} + std::chrono::minutes{minute}, "office"};
}

}  // namespace sample
