// SPDX-License-Identifier: MIT
#include "weather/columns/heading_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/text.hpp"
#include "core/units.hpp"
#include "weather/columns/heading_tokens.hpp"

namespace soilclock::weather {

namespace {

bool is_one_of(std::string_view word, std::string_view list) {
  while (!list.empty()) {
    const auto end = std::min(list.find(' '), list.size());
    if (list.substr(0, end) == word) return true;
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return false;
}

bool word_has(std::string_view word, Hint hint) {
  const auto hints = hints_of(word);
  return hints && has(*hints, hint);
}

/// Centimeters in the unit of length a word names.
std::optional<double> length_cm(std::string_view word) {
  constexpr double cm_in_m = 100.0;
  const auto hints = hints_of(word);
  if (!hints) return std::nullopt;
  if (has(*hints, Hint::inch)) return units::cm_in_inch;
  if (has(*hints, Hint::centimeter)) return 1.0;
  if (has(*hints, Hint::meter)) return cm_in_m;
  if (has(*hints, Hint::foot)) return units::m_in_foot * cm_in_m;
  if (has(*hints, Hint::millimeter) && word != "kg") return 0.1;
  return std::nullopt;
}

bool is_hours(std::string_view word) {
  return is_one_of(word, "h hr hrs hour hours std stunde stunden heure heures hora horas ora ore");
}

/// Minutes in the unit of time a word names; "min" is left to the minimum.
std::optional<int> time_minutes(std::string_view word) {
  if (is_hours(word)) return 60;
  if (is_one_of(word, "mins minute minutes minuten minutos minuti")) return 1;
  if (is_one_of(word, "d day days tag tage tagen jour jours dia dias giorno giorni")) return 24 * 60;
  if (is_one_of(word, "wk week weeks woche wochen semaine semaines semana semanas")) return 7 * 24 * 60;
  return std::nullopt;
}

/// Words that a number behind them belongs to.
bool counts_sensors(std::string_view word) {
  return is_one_of(word, "sensor sensors probe probes ch channel no nr number id station unit port");
}

int parts_of_one(double number) {
  for (const int scale : {10, 100, 1000}) {
    if (std::abs(number - 1.0 / scale) < 1e-9) return scale;
  }
  return 0;
}

class WordReader {
 public:
  explicit WordReader(std::string_view heading) : tokens_{heading_tokens(heading)} {}

  HeadingReading read() {
    for (at_ = 0; at_ < tokens_.size(); ++at_) {
      if (const auto number = parse_number(token().text))
        take_number(*number);
      else
        take_word();
    }
    drop_pending();
    for (const int bracket : unit_brackets_) {
      const bool strange =
          std::find(unknown_brackets_.begin(), unknown_brackets_.end(), bracket) != unknown_brackets_.end();
      result_.unknown_beside_unit = result_.unknown_beside_unit || strange;
    }
    return std::move(result_);
  }

 private:
  struct Pending {
    double value;
    std::size_t at;
  };

  const HeadingToken& token() const { return tokens_[at_]; }
  std::string_view word(std::ptrdiff_t from_here) const {
    const auto i = static_cast<std::ptrdiff_t>(at_) + from_here;
    return i >= 0 && i < static_cast<std::ptrdiff_t>(tokens_.size())
               ? std::string_view{tokens_[static_cast<std::size_t>(i)].text}
               : std::string_view{};
  }

  void set_scale(int scale) { result_.scale = scale; }

  void take_number(double number) {
    const char before = token().before;
    const std::string_view earlier = word(-1);
    const bool divides = before == '/' || before == '*' || earlier == "x";
    if (divides && (number == 10.0 || number == 100.0 || number == 1000.0)) {
      // "1/10 mm", "C/10", "C x 10"
      if (!pending_.empty() && pending_.back().value == 1.0 && pending_.back().at + 1 == at_)
        pending_.pop_back();
      set_scale(static_cast<int>(number));
      return;
    }
    if (is_one_of(word(1), "th ths") && (number == 10.0 || number == 100.0 || number == 1000.0)) {
      set_scale(static_cast<int>(number));
      ++at_;
      return;
    }
    // "0.1 m" is a depth.
    if (const int scale = parts_of_one(number); scale != 0 && !word_has(word(1), Hint::meter)) {
      set_scale(scale);
      return;
    }
    const bool exponent = before == attached || before == '-';
    if (exponent && number == 2.0 && is_area_base(earlier)) {
      result_.per_area = true;
      return;
    }
    if (exponent && number == 1.0 && (is_hours(earlier) || earlier == "s")) {
      result_.rate = true;
      return;
    }
    const bool range = !pending_.empty() && before == '-' && pending_.back().at + 1 == at_;
    if (!range && !joined_) drop_pending();
    joined_ = false;
    pending_.push_back({number, at_});
  }

  /// A meter that is not that of a height: "kg m-2", "l/m2".
  bool is_area_base(std::string_view earlier) const {
    if (!word_has(earlier, Hint::meter)) return false;
    return word(-2) == "kg" || is_liter(word(-2)) || word(-2) == "per";
  }

  static bool is_liter(std::string_view word) {
    return is_one_of(word, "l liter liters litre litres litros litri");
  }

  /// Numbers that no unit follows are those of sensors, or say something that is not known here.
  void drop_pending() {
    for (const Pending& number : pending_) {
      const HeadingToken& token = tokens_[number.at];
      const std::string_view earlier = number.at > 0 ? std::string_view{tokens_[number.at - 1].text} : "";
      if (!token.in_brackets() &&
          (token.before == attached || token.before == '#' || counts_sensors(earlier)))
        result_.sensor_number = true;
      else
        add_unknown(token);
    }
    pending_.clear();
    joined_ = false;
  }

  void add_unknown(const HeadingToken& token) {
    result_.unknown.push_back(token.text);
    result_.unknown_last = &token == &tokens_.back();
    if (!token.in_brackets()) return;
    unknown_brackets_.push_back(token.bracket);
    if (!result_.unknown_in_brackets.empty()) result_.unknown_in_brackets += ' ';
    result_.unknown_in_brackets += token.text;
  }

  bool take_measure() {
    const std::string& text = token().text;
    if (const auto size = length_cm(text); size && !is_speed()) {
      for (const Pending& number : pending_) result_.lengths_cm.push_back(number.value * *size);
      result_.bracketed_length = result_.bracketed_length || token().in_brackets();
      pending_.clear();
      return true;
    }
    if (const auto size = time_minutes(text)) {
      const double minutes = pending_.back().value * *size;
      pending_.pop_back();
      drop_pending();
      constexpr int day = 24 * 60;
      if (minutes > 0.0 && minutes <= day)
        result_.window_minutes = static_cast<int>(minutes);
      else
        note_qualifier(word(-1), text);
      return true;
    }
    return false;
  }

  void note_qualifier(std::string_view a, std::string_view b) {
    if (!result_.qualifier.empty()) return;
    result_.qualifier = a;
    if (!b.empty()) result_.qualifier += ' ';
    result_.qualifier += b;
  }

  bool is_speed() const { return word(1) == "s" && token().text == "m"; }

  void take_word() {
    const std::string& text = token().text;
    if (!pending_.empty()) {
      if (is_one_of(text, "to bis a hasta ate") && parse_number(word(1))) {
        joined_ = true;
        return;
      }
      if (take_measure()) return;
      drop_pending();
    }
    if (text == "start" && word(1) == "of" && word(2) == "day") {
      result_.start_of_day = true;
      at_ += 2;
      return;
    }
    if (is_per() && take_divisor()) return;
    if (is_liter(text)) result_.liters = true;
    const auto hints = hints_of(text);
    if (!hints) {
      if (text != "x" && !(text == "s" && word_has(word(-1), Hint::meter))) add_unknown(token());
      return;
    }
    add(*hints);
  }

  static bool names_unit(const Hints& hints) {
    return has(hints, Hint::millimeter) || has(hints, Hint::inch) || has(hints, Hint::centimeter) ||
           has(hints, Hint::meter) || has(hints, Hint::foot) || has(hints, Hint::celsius) ||
           has(hints, Hint::fahrenheit) || has(hints, Hint::kelvin);
  }

  /// "per", or a stroke behind a unit; that of "date/time" parts words.
  bool is_per() const {
    if (word(-1) == "per") return true;
    const auto unit = hints_of(word(-1));
    return token().before == '/' && unit && names_unit(*unit);
  }

  /// What an amount is divided by: an hour makes a rate, a day changes nothing, a month is something else.
  bool take_divisor() {
    const std::string& text = token().text;
    if (is_one_of(text, "s sec min") || (time_minutes(text) && *time_minutes(text) <= 60)) {
      result_.rate = true;
      return true;
    }
    if (const auto size = time_minutes(text)) {
      if (*size > 24 * 60) note_qualifier("per", text);
      return true;
    }
    if (word_has(text, Hint::month) || word_has(text, Hint::year)) {
      note_qualifier("per", text);
      return true;
    }
    return false;
  }

  /// "in" is a word like "at" when a unit or a number follows it: "Temperatur in C".
  bool in_is_preposition() const {
    if (token().text != "in" || token().in_brackets() || token().before != ' ' || at_ + 1 >= tokens_.size())
      return false;
    const HeadingToken& next = tokens_[at_ + 1];
    return next.before == ' ' && !next.in_brackets();
  }

  void add(const Hints& hints) {
    const std::string& text = token().text;
    if (in_is_preposition()) return;
    if (token().in_brackets() && names_unit(hints)) unit_brackets_.push_back(token().bracket);
    if (text == "hourly") result_.window_minutes = 60;
    if (is_one_of(text,
                  "daily taglich tagliche taglicher diaria diario diarias giornaliera giornaliero "
                  "giornaliere quotidienne quotidien journaliere journalier dailyrain"))
      result_.of_day = true;
    if (has(hints, Hint::tenths)) set_scale(10);
    if (has(hints, Hint::hundredths)) set_scale(100);
    if (has(hints, Hint::thousandths)) set_scale(1000);
    const bool moment = has(hints, Hint::clock) || has(hints, Hint::date) || has(hints, Hint::hour) ||
                        has(hints, Hint::day) || has(hints, Hint::month) || has(hints, Hint::year);
    if (moment && at_ + 2 < tokens_.size() && is_one_of(word(1), "of de du des del der della do"))
      result_.point_in_time = true;
    if (has(hints, Hint::qualified)) note_qualifier(text, {});
    const bool other =
        has(hints, Hint::not_air) || has(hints, Hint::not_amount) || has(hints, Hint::not_value);
    if (other && result_.other_thing.empty()) result_.other_thing = text;
    if (has(hints, Hint::other_date) && result_.other_date.empty()) result_.other_date = text;
    if (has(hints, Hint::other_date) && hints.count() == 1) result_.other_moments.push_back(text);
    const bool says_nothing = has(hints, Hint::harmless);
    Hints added = hints;
    // "2 m above ground" says nothing of the soil.
    if (above_) added.reset(static_cast<std::size_t>(Hint::soil));
    above_ = above_ || has(hints, Hint::above);
    result_.hints |= added;
    result_.words += says_nothing ? 0 : 1;
  }

  std::vector<HeadingToken> tokens_;
  std::size_t at_ = 0;
  std::vector<Pending> pending_;
  std::vector<int> unit_brackets_;
  std::vector<int> unknown_brackets_;
  bool joined_ = false;  // a word of a range stands behind the last number
  bool above_ = false;
  HeadingReading result_;
};

}  // namespace

HeadingReading read_heading_words(std::string_view heading) { return WordReader{heading}.read(); }

}  // namespace soilclock::weather
