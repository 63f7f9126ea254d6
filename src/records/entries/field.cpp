// SPDX-License-Identifier: MIT
#include "records/entries/field.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/csv.hpp"
#include "core/text.hpp"
#include "records/entries/codec.hpp"

namespace soilclock::records {

namespace {

// "Not noted" of each type of member.
template <class Value>
bool is_noted(const std::optional<Value>& value) {
  return value.has_value();
}
template <class Value>
bool is_noted(const std::vector<Value>& values) {
  return !values.empty();
}
bool is_noted(const std::string& text) { return !text.empty(); }

template <class Value>
const Value& plain(const Value& value) {
  return value;
}
template <class Value>
const Value& plain(const std::optional<Value>& value) {
  return *value;
}

struct Naming {
  std::string name;
  std::string column;
  std::string meaning;
  bool required = false;
};

template <class Kind, class Member, class Value>
Field field(Naming naming, Member Kind::*member, Codec<Value> codec) {
  Field result;
  result.name = naming.name;
  result.column = naming.column;
  result.meaning = naming.meaning;
  result.expected = codec.expected;
  result.required = naming.required;
  result.is_list = codec.is_list;
  result.quantity = codec.quantity;
  result.read = [member, show = codec.show](const Record& record) -> Cell {
    const Member& value = std::get<Kind>(record).*member;
    return is_noted(value) ? show(plain(value)) : Cell{};
  };
  result.write = [member, parse = codec.parse, name = naming.name, quantity = codec.quantity](
                     Record& record, std::string_view text, std::string_view unit) -> Checked {
    Member& stored = std::get<Kind>(record).*member;
    if (text.empty()) {
      stored = Member{};
      units_of(record).erase(name);
      return {};
    }
    auto value = parse(text, unit);
    if (!value) {
      Problem problem = value.error();
      problem.what = fmt::format("field '{}': {}", name, problem.what);
      return fail(problem);
    }
    stored = std::move(*value);
    units_of(record).erase(name);
    if (const std::string other = quantity ? other_unit(text, *quantity, unit) : ""; !other.empty())
      units_of(record)[name] = other;
    return {};
  };
  return result;
}

// The ranges below only catch slips of the pen (a Fahrenheit value noted as Celsius, a depth in millimeters
// noted as centimeters); they are wider than anything a working probe or vane shows. Invented.
Codec<Temperature> temperature_codec() {
  return measure_codec<Temperature>(Quantity::temperature, -40.0, 60.0, &Temperature::from_celsius,
                                    &Temperature::celsius);
}
Codec<Rain> water_codec() {
  return measure_codec<Rain>(Quantity::water, 0.0, 1000.0, &Rain::from_mm, &Rain::mm);
}
Codec<Depth> depth_codec() {
  return measure_codec<Depth>(Quantity::depth, 0.5, 100.0, &Depth::from_cm, &Depth::cm);
}
Codec<Fraction> share_codec() {
  return measure_codec<Fraction>(Quantity::percent, 0.0, 100.0, &Fraction::from_percent, &Fraction::percent);
}

Codec<Purpose> purpose_codec() {
  return choice_codec<Purpose>({{"pre", Purpose::pre},
                                {"pre+post", Purpose::pre_and_post},
                                {"post", Purpose::post},
                                {"dormant", Purpose::dormant}});
}
Codec<Counted> counted_codec() {
  return choice_codec<Counted>({{"new", Counted::fresh}, {"standing", Counted::standing}});
}
Codec<TurfSeen> turf_codec() {
  return choice_codec<TurfSeen>({{"green", TurfSeen::green},
                                 {"slowing", TurfSeen::slowing},
                                 {"semi-dormant", TurfSeen::semi_dormant},
                                 {"dormant", TurfSeen::dormant},
                                 {"breaking", TurfSeen::breaking},
                                 {"greening", TurfSeen::greening}});
}

template <class Kind>
Field site_field() {
  return field<Kind>({"site", "site", "id of the site", true}, &Kind::site, line_codec());
}
template <class Kind>
Field date_field() {
  return field<Kind>({"date", "date", "day it was done or seen", true}, &Kind::date, day_codec());
}
template <class Kind>
Field line(Naming naming, std::string Kind::*member) {
  return field<Kind>(std::move(naming), member, line_codec());
}
template <class Kind>
Field notes_field() {
  return field<Kind>({"notes", "notes", "anything else"}, &Kind::notes, note_codec());
}

std::vector<Field> application_fields() {
  using A = Application;
  return {
      site_field<A>(),
      date_field<A>(),
      field<A>({"start", "start", "time it began"}, &A::start, clock_codec()),
      field<A>({"end", "end", "time it ended"}, &A::end, clock_codec()),
      line<A>(
          {"area", "area",
           "greens, tees, holes, in your words; the name of an area in the site file: for that area only"},
          &A::area),
      line<A>({"turf", "turf", "grass treated, in your words"}, &A::turf),
      field<A>({"target", "target", "weed aimed at"}, &A::target, target_codec()),
      line<A>({"stage", "stage", "stage of the weed, in your words"}, &A::stage),
      field<A>({"active", "active", "common names of the active ingredients"}, &A::actives, names_codec()),
      // Numbers in use end at 34 (HRAC list of 2024, memory); room is left so that a new one can be noted.
      field<A>({"group", "group", "HRAC/WSSA site-of-action groups"}, &A::groups, wholes_codec(0, 99)),
      field<A>({"purpose", "purpose", "what it was meant as"}, &A::purpose, purpose_codec()),
      field<A>({"split_part", "split_part", "first or second part of a split treatment"}, &A::split_part,
               whole_codec(1, 2)),
      field<A>({"watering_in", "watering_in_mm", "water given to move it into the soil"}, &A::watering_in,
               water_codec()),
      field<A>({"watering_date", "watering_date", "day it was watered in"}, &A::watering_date, day_codec()),
      line<A>({"applicator", "applicator", "who did it"}, &A::applicator),
      line<A>({"license", "license", "license number"}, &A::license),
      line<A>({"registration", "registration", "registration number from the label, kept as written"},
              &A::registration),
      line<A>({"amount", "amount", "amount used, kept as written"}, &A::amount),
      line<A>({"volume", "volume", "spray volume, kept as written"}, &A::volume),
      line<A>({"nozzle", "nozzle", "nozzle"}, &A::nozzle),
      field<A>({"wind", "wind_m_per_s", "wind speed"}, &A::wind_m_per_s,
               measure_codec(Quantity::speed, 0.0, 60.0)),
      field<A>({"wind_from", "wind_from_degrees", "where the wind blew from"}, &A::wind_from_degrees,
               measure_codec(Quantity::direction, 0.0, 360.0)),
      field<A>({"air_temperature", "air_temperature_c", "air temperature"}, &A::air_temperature,
               temperature_codec()),
      field<A>({"humidity", "humidity_percent", "relative humidity"}, &A::humidity_percent,
               measure_codec(Quantity::percent, 0.0, 100.0)),
      field<A>({"soil_temperature", "soil_temperature_c", "soil temperature"}, &A::soil_temperature,
               temperature_codec()),
      field<A>({"rain_after", "rain_after_mm", "rain that followed"}, &A::rain_after, water_codec()),
      line<A>({"re_entry", "re_entry", "when people could go back in, in your words"}, &A::re_entry),
      line<A>({"photo", "photo", "where a picture lies"}, &A::photo),
      notes_field<A>(),
  };
}

std::vector<Field> count_fields() {
  using C = ScoutingCount;
  return {
      site_field<C>(),
      date_field<C>(),
      field<C>({"target", "target", "weed counted", true}, &C::target, target_codec()),
      field<C>({"plots", "plots", "number of plots looked at"}, &C::plots, whole_codec(1, 10000)),
      field<C>({"plot_area", "plot_area_m2", "area of one plot"}, &C::plot_area_m2,
               measure_codec(Quantity::area, 0.0001, 10000.0)),
      field<C>({"count", "count", "plants in each plot"}, &C::counts, wholes_codec(0, 1000000)),
      field<C>({"share", "share_percent", "share of the ground covered, judged by eye"}, &C::visual_share,
               share_codec()),
      field<C>({"counted", "counted", "plants new since the last count, or all that stand"}, &C::counted,
               counted_codec()),
      line<C>({"stage", "stage", "stage of the plants, in your words"}, &C::stage),
      line<C>({"area", "area", "where, in your words"}, &C::area),
      notes_field<C>(),
  };
}

std::vector<Field> reading_fields() {
  using R = ProbeReading;
  return {
      site_field<R>(),
      date_field<R>(),
      field<R>({"time", "time", "time of the reading"}, &R::time, clock_codec()),
      field<R>({"depth", "depth_cm", "depth of the probe", true}, &R::depth, depth_codec()),
      field<R>({"temperature", "temperature_c", "soil temperature", true}, &R::temperature,
               temperature_codec()),
      line<R>({"area", "area", "where, in your words"}, &R::area),
      notes_field<R>(),
  };
}

std::vector<Field> check_fields() {
  using K = EyeCheck;
  return {
      site_field<K>(),
      date_field<K>(),
      field<K>({"state", "state", "state of the turf as seen", true}, &K::state, turf_codec()),
      line<K>({"seen_by", "seen_by", "who looked"}, &K::seen_by),
      line<K>({"area", "area", "where, in your words"}, &K::area),
      notes_field<K>(),
  };
}

std::vector<Field> first_seen_fields() {
  using F = FirstSeen;
  return {
      site_field<F>(),
      date_field<F>(),
      field<F>({"target", "target", "weed seen", true}, &F::target, target_codec()),
      line<F>({"seen_by", "seen_by", "who looked"}, &F::seen_by),
      line<F>({"area", "area", "where, in your words"}, &F::area),
      notes_field<F>(),
  };
}

std::vector<Field> strip_fields() {
  using S = StripCheck;
  const auto counts = [](const char* name, const char* meaning, std::vector<int> S::*member) {
    return field<S>({name, name, meaning}, member, wholes_codec(0, 1000000));
  };
  const auto cover = [](const std::string& name, const char* meaning, std::optional<Fraction> S::*member) {
    return field<S>({name, name + "_percent", meaning}, member, share_codec());
  };
  return {
      site_field<S>(),
      date_field<S>(),
      field<S>({"target", "target", "weed looked for", true}, &S::target, target_codec()),
      counts("treated", "plants in each treated plot", &S::treated),
      counts("untreated", "plants in each plot of the untreated strip", &S::untreated),
      counts("treated_before", "plants in the treated plots before the treatment", &S::treated_before),
      counts("untreated_before", "plants in the plots of the strip at that time", &S::untreated_before),
      cover("treated_share", "share of the treated ground covered, judged by eye", &S::treated_share),
      cover("untreated_share", "share of the strip covered", &S::untreated_share),
      cover("treated_share_before", "share of the treated ground covered before", &S::treated_share_before),
      cover("untreated_share_before", "share of the strip covered at that time", &S::untreated_share_before),
      line<S>({"area", "area", "where, in your words"}, &S::area),
      notes_field<S>(),
  };
}

}  // namespace

const std::vector<Field>& fields_of(RecordKind kind) {
  static const std::vector<Field> lists[] = {application_fields(), count_fields(),      reading_fields(),
                                             check_fields(),       first_seen_fields(), strip_fields()};
  return lists[static_cast<std::size_t>(kind)];
}

const Field* find_field(RecordKind kind, std::string_view name) {
  std::string wanted{name};
  std::replace(wanted.begin(), wanted.end(), '-', '_');
  for (const Field& field : fields_of(kind)) {
    if (field.name == wanted) return &field;
  }
  return nullptr;
}

std::string cell_text(const Cell& cell) {
  struct Text {
    std::string operator()(std::monostate) const { return {}; }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(double value) const { return fmt::format("{}", value); }
    std::string operator()(std::int64_t value) const { return fmt::format("{}", value); }
    std::string operator()(const std::vector<std::string>& items) const {
      return fmt::format("{}", fmt::join(items, "; "));
    }
    std::string operator()(const std::vector<int>& items) const {
      return fmt::format("{}", fmt::join(items, "; "));
    }
  };
  return std::visit(Text{}, cell);
}

std::string_view own_unit(const Field& field) {
  return field.quantity ? stored_unit(*field.quantity) : std::string_view{};
}

std::vector<std::string> split_list(std::string_view text, bool digits_too) {
  const auto is_digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  std::vector<std::string> items;
  std::size_t from = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const bool within_name = !digits_too && i > 0 && is_digit(i - 1) && is_digit(i + 1);
    const bool splits = i == text.size() || text[i] == ';' || (text[i] == ',' && !within_name);
    if (!splits) continue;
    items.emplace_back(trimmed(text.substr(from, i - from)));
    from = i + 1;
  }
  return items;
}

std::string key_of(const Record& record) {
  std::vector<std::string> cells{std::string{name(kind_of(record))}};
  for (const Field& field : fields_of(kind_of(record))) cells.push_back(cell_text(field.read(record)));
  return csv_row(cells);
}

}  // namespace soilclock::records
