// SPDX-License-Identifier: MIT
// Bytes of a file to UTF-8 text: byte order marks, UTF-16 and one-byte encodings.
#pragma once

#include <string>
#include <string_view>

namespace soilclock::weather {

enum class Encoding { utf8, utf16_little_endian, utf16_big_endian, one_byte };

/// Text in UTF-8 without a byte order mark. Refers to the bytes it was made from when nothing had to change.
class DecodedText {
 public:
  DecodedText(std::string_view unchanged, Encoding encoding) : unchanged_{unchanged}, encoding_{encoding} {}
  DecodedText(std::string rewritten, Encoding encoding)
      : rewritten_{std::move(rewritten)}, is_rewritten_{true}, encoding_{encoding} {}
  std::string_view text() const { return is_rewritten_ ? std::string_view{rewritten_} : unchanged_; }
  Encoding encoding() const { return encoding_; }

 private:
  std::string_view unchanged_;
  std::string rewritten_;
  bool is_rewritten_ = false;
  Encoding encoding_;
};

/// UTF-8 and UTF-16 with or without mark; what is neither is taken as Windows-1252 (a superset of printable
/// Latin-1). Broken UTF-16 units become '?'. The bytes must outlive the result.
DecodedText decode_text(std::string_view bytes);

}  // namespace soilclock::weather
