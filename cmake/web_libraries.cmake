# SPDX-License-Identifier: MIT
# The libraries the pure floors use, for a build with emscripten: the headers that Debian installs, without its compiled
# parts. Only these headers are put on the path; the rest of /usr/include belongs to another system.
set(web_headers ${CMAKE_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${web_headers})
foreach(library date fmt nlohmann tl)
  if(NOT EXISTS /usr/include/${library})
    message(FATAL_ERROR "the headers /usr/include/${library} are not installed")
  endif()
  file(CREATE_LINK /usr/include/${library} ${web_headers}/${library} SYMBOLIC)
endforeach()
add_library(web_fmt STATIC ${CMAKE_SOURCE_DIR}/cmake/fmt_functions.cpp)
target_include_directories(web_fmt SYSTEM PUBLIC ${web_headers})
add_library(fmt::fmt ALIAS web_fmt)
foreach(name date::date tl::expected nlohmann_json::nlohmann_json)
  add_library(${name} INTERFACE IMPORTED)
  target_include_directories(${name} SYSTEM INTERFACE ${web_headers})
endforeach()
target_compile_definitions(date::date INTERFACE HAS_STRING_VIEW=1 ONLY_C_LOCALE=1)
# Exceptions as WebAssembly has them; every object must agree on it.
add_compile_options(-fwasm-exceptions)
