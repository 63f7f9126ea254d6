// SPDX-License-Identifier: MIT
#include "weather/columns/heading_tokens.hpp"

#include <array>
#include <utility>

namespace soilclock::weather {

namespace {

/// The letter an accented one is compared as; empty for signs that part words. Second byte of two-byte UTF-8
/// with lead byte C3.
std::string_view without_accent(unsigned char second) {
  struct Fold {
    std::string_view bytes;
    std::string_view letter;
  };
  static constexpr std::array folds{
      Fold{"\xA0\xA1\xA2\xA3\xA4\xA5\x80\x81\x82\x83\x84\x85", "a"},
      Fold{"\xA8\xA9\xAA\xAB\x88\x89\x8A\x8B", "e"},
      Fold{"\xAC\xAD\xAE\xAF\x8C\x8D\x8E\x8F", "i"},
      Fold{"\xB2\xB3\xB4\xB5\xB6\x92\x93\x94\x95\x96", "o"},
      Fold{"\xB9\xBA\xBB\xBC\x99\x9A\x9B\x9C", "u"},
      Fold{"\xA7\x87", "c"},
      Fold{"\x9F", "ss"},
      Fold{"\xB1\x91", "n"},
  };
  for (const Fold& fold : folds) {
    if (fold.bytes.find(static_cast<char>(second)) != std::string_view::npos) return fold.letter;
  }
  return {};
}

enum class Kind { none, lower, upper, digit };

class Tokens {
 public:
  std::vector<HeadingToken> cut(std::string_view heading) {
    for (rest_ = heading; !rest_.empty();) {
      const auto byte = static_cast<unsigned char>(rest_.front());
      if (byte < 0x80)
        take_plain(rest_.front());
      else
        take_special(byte);
    }
    close();
    return std::move(tokens_);
  }

 private:
  void close() {
    if (!token_.text.empty()) {
      tokens_.push_back(std::exchange(token_, {}));
      before_ = ' ';
    }
    previous_ = Kind::none;
  }

  void add(std::string_view letters, Kind kind) {
    const bool digit = kind == Kind::digit;
    const bool was_digit = previous_ == Kind::digit;
    const bool parted =
        previous_ != Kind::none && (digit != was_digit || (kind == Kind::upper && previous_ == Kind::lower));
    if (parted) {
      close();
      before_ = attached;
    }
    if (token_.text.empty()) {
      token_.before = before_;
      token_.bracket = bracket();
    }
    token_.text += letters;
    previous_ = kind;
  }

  void part(char sign) {
    close();
    // A blank beside another sign says nothing more.
    if (sign != ' ' || before_ == ' ') before_ = sign;
  }

  void word(std::string_view text) {
    close();
    tokens_.push_back({std::string{text}, before_, bracket()});
    before_ = ' ';
  }

  int bracket() const { return depth_ > 0 ? brackets_ : 0; }

  bool next_is_digit() const { return rest_.size() > 1 && rest_[1] >= '0' && rest_[1] <= '9'; }

  /// An inch sign stands behind a number, or alone: behind a blank or a bracket and ahead of no word.
  bool is_inch_sign() const {
    if (previous_ == Kind::digit) return true;
    const bool alone_after = rest_.size() == 1 || rest_[1] == ')' || rest_[1] == ']' || rest_[1] == ' ';
    return previous_ == Kind::none && !tokens_.empty() && alone_after;
  }

  void take_plain(char c) {
    if (c >= '0' && c <= '9') {
      add({&c, 1}, Kind::digit);
    } else if (c >= 'a' && c <= 'z') {
      add({&c, 1}, Kind::lower);
    } else if (c >= 'A' && c <= 'Z') {
      const char low = static_cast<char>(c - 'A' + 'a');
      add({&low, 1}, Kind::upper);
    } else if (c == '.' && next_is_digit() && (previous_ == Kind::digit || previous_ == Kind::none)) {
      add(token_.text.empty() ? "0." : ".", Kind::digit);
    } else if (c == '%') {
      word("%");
    } else if (c == '"' && is_inch_sign()) {
      word("in");
    } else {
      if (c == ')' || c == ']' || c == '}') depth_ = depth_ > 0 ? depth_ - 1 : 0;
      part(c);
      if (c == '(' || c == '[' || c == '{') {
        if (depth_++ == 0) ++brackets_;
        before_ = ' ';
      }
    }
    rest_.remove_prefix(1);
  }

  void take_special(unsigned char lead) {
    const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    const std::string_view sign = rest_.substr(0, length);
    rest_.remove_prefix(sign.size());
    if (lead == 0xC3 && sign.size() == 2) {
      const auto second = static_cast<unsigned char>(sign[1]);
      const std::string_view letter = without_accent(second);
      if (!letter.empty())
        add(letter, second < 0x9F ? Kind::upper : Kind::lower);
      else
        part(second == 0x97 ? '*' : ' ');  // a multiplication sign
    } else if (sign == "\xC2\xB5" || sign == "\xCE\xBC") {
      add("u", Kind::lower);  // micro: a micrometer is no meter
    } else if (sign == "\xE2\x80\xB3" || sign == "\xE2\x80\x9D" || sign == "\xE2\x80\x9C") {
      word("in");  // two primes, and the curly quotes a word processor makes of them
    } else {
      // Dashes part a range; degree signs, superscripts and all else just part words.
      part(sign.starts_with("\xE2\x80\x90") || sign.starts_with("\xE2\x80\x93") ||
                   sign.starts_with("\xE2\x80\x94") || sign.starts_with("\xE2\x88\x92")
               ? '-'
               : ' ');
    }
  }

  std::string_view rest_;
  std::vector<HeadingToken> tokens_;
  HeadingToken token_;
  char before_ = ' ';
  int depth_ = 0;
  int brackets_ = 0;
  Kind previous_ = Kind::none;
};

}  // namespace

std::vector<HeadingToken> heading_tokens(std::string_view heading) { return Tokens{}.cut(heading); }

}  // namespace soilclock::weather
