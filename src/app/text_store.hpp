// SPDX-License-Identifier: MIT
// Text laid aside on disk until the whole of it can be written.
#pragma once

#include <cstdio>
#include <memory>
#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::app {

/// A quarter of a megabyte is held in memory; what goes beyond lies in a file without a name in the folder
/// for temporary files ($TMPDIR, else /tmp), gone when the program ends however it ends.
class TextStore {
 public:
  /// Puts text behind what is there. An environment problem when the disk does not take it.
  Checked add(std::string_view text);

  /// From the first byte again. An environment problem as in `add`: the disk may refuse only now.
  Checked rewind();

  /// The next piece, for reading once; empty at the end. An environment problem when the disk does not give
  /// back all that it took.
  Result<std::string> next();

 private:
  struct Closer {
    void operator()(std::FILE* file) const { std::fclose(file); }
  };
  std::string held_;  ///< all of it, as long as there is no file
  std::unique_ptr<std::FILE, Closer> file_;
  std::size_t left_ = 0;  ///< bytes of the file not yet read back
};

}  // namespace soilclock::app
