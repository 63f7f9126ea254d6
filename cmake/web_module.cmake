# SPDX-License-Identifier: MIT
# The module: what soilclock.h declares, without file system, threads or code made at run time. build-web/soilclock.js
# loads soilclock.wasm from beside it, or takes its bytes.
file(STRINGS ${CMAKE_CURRENT_SOURCE_DIR}/web/soilclock.h declared REGEX "^[a-z_]+[ *].* ?\\*?soilclock_[a-z_]+\\(")
set(exported _malloc _free)
foreach(line IN LISTS declared)
  string(REGEX REPLACE "^.*(soilclock_[a-z_]+)\\(.*$" "_\\1" name "${line}")
  list(APPEND exported ${name})
endforeach()
list(JOIN exported "," exported)
file(WRITE ${CMAKE_BINARY_DIR}/module.cpp "")
add_executable(soilclock_module ${CMAKE_BINARY_DIR}/module.cpp)
target_link_libraries(soilclock_module PRIVATE soilclock_web)
set_target_properties(soilclock_module PROPERTIES OUTPUT_NAME soilclock RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR})
# A gigabyte is the most the module takes of a device; what would need more is refused.
target_link_options(soilclock_module PRIVATE -O2 -fwasm-exceptions --no-entry -sMODULARIZE=1 -sEXPORT_NAME=soilclockModule
  -sALLOW_MEMORY_GROWTH=1 -sINITIAL_MEMORY=33554432 -sMAXIMUM_MEMORY=1073741824 -sFILESYSTEM=0 -sDYNAMIC_EXECUTION=0
  -sENVIRONMENT=web,worker,node -sEXPORTED_FUNCTIONS=${exported})
