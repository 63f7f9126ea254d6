// SPDX-License-Identifier: MIT
// The last door before a terminal: no byte of a file, a service or a record may act on it.
#pragma once

#include <streambuf>
#include <string>

namespace soilclock::app {

/// Passes text on line by line. Control characters other than line ends and tabs, and characters that turn
/// the direction of writing, come out as "\u001B" and the like: seen, harmless, and still the same text
/// inside JSON. Broken UTF-8 comes out as '?'.
class ShownOutput : public std::streambuf {
 public:
  /// `behind` must outlive this.
  explicit ShownOutput(std::streambuf& behind) : behind_{behind} {}

 protected:
  int_type overflow(int_type byte) override;
  std::streamsize xsputn(const char* bytes, std::streamsize count) override;
  int sync() override;

 private:
  /// Passes on all whole lines, or everything but a character that has only begun.
  bool pass_on(bool lines_only);
  std::streambuf& behind_;
  std::string waiting_;
};

}  // namespace soilclock::app
