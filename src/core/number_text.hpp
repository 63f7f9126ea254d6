// SPDX-License-Identifier: MIT
// Numbers as text: the one place that rounds for a reader.
#pragma once

#include <string>

namespace soilclock {

/// The value with so many decimals (0 to 15), "12.5" or "-3". What rounds to nothing has no sign: "0.0",
/// never
/// "-0.0". A value that is not finite gives "nan" or "inf".
std::string number_text(double value, int decimals);

/// The same with a sign in front of every value but nothing: "+12.5", "-3", "0.0".
std::string signed_number_text(double value, int decimals);

/// A count in a sentence: "one" to "ten", then "11". Not below 0; none is "no".
std::string count_words(int count);

}  // namespace soilclock
