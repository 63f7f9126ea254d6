// SPDX-License-Identifier: MIT
// For loops over many numbers: compiled for wide registers as well, where the compiler can choose when the
// program starts. Products and sums stay apart, so the values are the same to the last digit.
#pragma once

#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define SOILCLOCK_BY_PROCESSOR \
  [[gnu::flatten, gnu::target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")]]
#else
#define SOILCLOCK_BY_PROCESSOR
#endif
