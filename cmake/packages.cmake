# SPDX-License-Identifier: MIT
# What `cmake --install` puts where, and the two Debian packages that CPack makes of it: the program, and the library for
# programs in C. Included by src/CMakeLists.txt after all targets.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(forms ${CMAKE_SOURCE_DIR}/cmake/package)
set(packed ${CMAKE_CURRENT_BINARY_DIR}/packed)
set(program_docs ${CMAKE_INSTALL_DATADIR}/doc/soilclock)
set(library_docs ${CMAKE_INSTALL_DATADIR}/doc/libsoilclock-dev)

# All floors below the C interface in one archive, so that a user links one file. It is static: the interface hides a
# library in C++ whose inner names change with every version.
floors_of(soilclock_web floors)
list(TRANSFORM floors REPLACE "(.+)" "$<TARGET_OBJECTS:\\1>" OUTPUT_VARIABLE objects)
add_library(soilclock_library STATIC ${objects})
set_target_properties(soilclock_library PROPERTIES OUTPUT_NAME soilclock EXPORT_NAME soilclock LINKER_LANGUAGE CXX)
target_link_libraries(soilclock_library INTERFACE fmt::fmt)

# Manual pages and completion say what the program's own help says.
find_program(GZIP gzip REQUIRED)
add_executable(soilclock_write_manual app/write_manual.cpp)
target_link_libraries(soilclock_write_manual PRIVATE soilclock_app soilclock_warnings)
target_compile_definitions(soilclock_write_manual PRIVATE SOILCLOCK_VERSION="${PROJECT_VERSION}")
add_custom_command(
  OUTPUT ${packed}/manual.stamp
  COMMAND ${CMAKE_COMMAND} -E rm -rf ${packed}/manual
  COMMAND soilclock_write_manual ${packed}/manual
  COMMAND ${GZIP} -9nr --suffix .gz ${packed}/manual
  COMMAND ${GZIP} -d ${packed}/manual/soilclock.bash.gz
  COMMAND ${CMAKE_COMMAND} -E touch ${packed}/manual.stamp
  DEPENDS soilclock_write_manual
  VERBATIM)

# Compressed as Debian wants them; without a time in the head, so that the same source gives the same package.
function(packed_file source target)
  add_custom_command(
    OUTPUT ${packed}/${target}
    COMMAND ${CMAKE_COMMAND} -E copy ${source} ${packed}/${target}.plain
    COMMAND ${GZIP} -9nf --suffix .gz ${packed}/${target}.plain
    COMMAND ${CMAKE_COMMAND} -E rename ${packed}/${target}.plain.gz ${packed}/${target}
    DEPENDS ${source}
    VERBATIM)
endfunction()
packed_file(${forms}/changelog changelog.Debian.gz)

# What the program is linked with, and what only its headers gave; where there are Debian packages to be named.
find_program(DPKG_QUERY dpkg-query)
set(bill "")
if(DPKG_QUERY)
  set(bill ${packed}/soilclock.spdx)
  add_custom_command(
    OUTPUT ${bill}
    COMMAND ${forms}/write_sbom.sh $<TARGET_FILE:soilclock> ${PROJECT_VERSION} ${bill}
    DEPENDS soilclock ${forms}/write_sbom.sh
    VERBATIM)
endif()
add_custom_target(soilclock_packed ALL DEPENDS ${packed}/manual.stamp ${packed}/changelog.Debian.gz ${bill})

set(config ${CMAKE_INSTALL_LIBDIR}/cmake/soilclock)
configure_package_config_file(${forms}/soilclockConfig.cmake.in ${packed}/soilclockConfig.cmake
  INSTALL_DESTINATION ${config})
write_basic_package_version_file(${packed}/soilclockConfigVersion.cmake COMPATIBILITY SameMinorVersion)
file(RELATIVE_PATH from_pkgconfig_to_prefix /prefix/${CMAKE_INSTALL_LIBDIR}/pkgconfig /prefix)
configure_file(${forms}/soilclock.pc.in ${packed}/soilclock.pc @ONLY)

# Folders are for everyone to enter, whatever umask the builder has.
set(CMAKE_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ
    WORLD_EXECUTE)
set(readable FILE_PERMISSIONS OWNER_READ OWNER_WRITE GROUP_READ WORLD_READ)

install(TARGETS soilclock COMPONENT program)
install(DIRECTORY ${packed}/manual/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program ${readable}
  FILES_MATCHING PATTERN "*.1.gz")
install(FILES ${packed}/manual/soilclock.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
  COMPONENT program RENAME soilclock)
install(FILES ${CMAKE_SOURCE_DIR}/README.md ${forms}/copyright ${packed}/changelog.Debian.gz ${bill}
  DESTINATION ${program_docs} COMPONENT program)
install(FILES ${CMAKE_SOURCE_DIR}/config/demo_sites.json DESTINATION ${program_docs}/examples/config COMPONENT program)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/weather_samples DESTINATION ${program_docs}/examples COMPONENT program ${readable})

install(TARGETS soilclock_library EXPORT soilclockTargets ARCHIVE COMPONENT development
  INCLUDES DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(FILES web/soilclock.h DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development)
install(EXPORT soilclockTargets NAMESPACE soilclock:: DESTINATION ${config} COMPONENT development)
install(FILES ${packed}/soilclockConfig.cmake ${packed}/soilclockConfigVersion.cmake DESTINATION ${config}
  COMPONENT development)
install(FILES ${packed}/soilclock.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)
install(FILES ${forms}/copyright ${packed}/changelog.Debian.gz DESTINATION ${library_docs} COMPONENT development)
install(FILES ${CMAKE_SOURCE_DIR}/tests/web/example.c DESTINATION ${library_docs}/examples COMPONENT development)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PACKAGE_CONTACT "soilclock contributors <soilclock@example.org>")
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
# The revision stands in the change log only. One that ends in "~bookworm1" sorts before any that Debian itself may make.
file(STRINGS ${forms}/changelog newest LIMIT_COUNT 1)
if(NOT newest MATCHES "^soilclock \\(${PROJECT_VERSION}-([^)]+)\\) ")
  message(FATAL_ERROR "cmake/package/changelog does not begin with version ${PROJECT_VERSION}")
endif()
set(CPACK_DEBIAN_PACKAGE_RELEASE ${CMAKE_MATCH_1})
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME soilclock)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "libcurl4 (>= 7.85)") # opened by name, which shlibdeps cannot see
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS ca-certificates)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "which week to treat turf for annual grasses
From a site's daily weather it works out soil temperature, how much of the
season's annual bluegrass, crabgrass, goosegrass or foxtail is up, how old it
is and what is still to come, and from those one decision: what to do this
week, until when that stays good, what comes next and what waiting costs.

Answers come as text, JSON, CSV and as pages for screen and paper.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libsoilclock-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS libfmt-dev)
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "timing of turf treatment for programs in C
The answers of the program soilclock behind a small C interface: weather
files and a site file go in as texts, advice comes out as JSON. Nothing is
read, fetched or stored. This package holds the static library, its header
and what CMake and pkg-config need to find it.")
include(CPack)
