# What every target of the project shares: warnings, sanitizers, the include root, and the shape of a test.
find_package(Threads REQUIRED)
find_package(PkgConfig REQUIRED)
pkg_check_modules(SODIUM REQUIRED IMPORTED_TARGET GLOBAL libsodium)
# 1.74's -dev packages conflict with it; 1.74 lacks JSON and more.
find_package(Boost 1.81 REQUIRED)
find_package(OpenSSL 3 REQUIRED)
find_package(CLI11 REQUIRED)

# Qt 6.4's moc stumbles over what C++20 brought to the standard headers; it needs none of it, so it takes them as read.
set(CMAKE_AUTOMOC_COMPILER_PREDEFINES OFF)
set(CMAKE_AUTOMOC_MOC_OPTIONS -D__cplusplus=201703L -D_GLIBCXX_CONCEPTS=1 -D_GLIBCXX_COMPARE=1 -D_GLIBCXX_CHRONO=1
  -D_GLIBCXX_SPAN=1 -D_GLIBCXX_RANGES=1 -D_GLIBCXX_BIT=1)

add_library(vh_flags INTERFACE)
target_include_directories(vh_flags INTERFACE ${CMAKE_SOURCE_DIR})
target_compile_options(vh_flags INTERFACE -Wall -Wextra -Wpedantic -Werror -Wshadow -Wnon-virtual-dtor
                                          -Woverloaded-virtual -Wnull-dereference -Wimplicit-fallthrough)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 warns about its own standard library at -O2 (GCC bugs 105562, 105651 and kin).
  target_compile_options(vh_flags INTERFACE -Wno-null-dereference -Wno-restrict -Wno-maybe-uninitialized
                                            -Wno-stringop-overflow -Wno-stringop-overread -Wno-array-bounds -Wno-tsan)
endif()
if(VOICEHALL_SANITIZE)
  # Undefined behaviour ends the program: a test that only printed it would pass.
  target_compile_options(vh_flags INTERFACE -fsanitize=${VOICEHALL_SANITIZE} -fno-sanitize-recover=all
                                            -fno-omit-frame-pointer)
  target_link_options(vh_flags INTERFACE -fsanitize=${VOICEHALL_SANITIZE})
endif()
if(VOICEHALL_FUZZ)
  # The libraries count their branches too; without it the fuzzer would be blind to everything but its own file.
  target_compile_options(vh_flags INTERFACE -fsanitize=fuzzer-no-link)
  add_custom_target(fuzzers)
endif()
find_program(VOICEHALL_MOLD mold)
if(VOICEHALL_MOLD AND NOT VOICEHALL_FUZZ)
  add_link_options(-fuse-ld=mold)
endif()

# Qt's headers, read once for the app and all tests: a second of three that a source of the app takes to compile, and
# three of four for a test. Only QtCore's: QtTest's differ from target to target by their definitions, and QtWidgets'
# are no faster.
function(vh_qt_prelude name)
  if(NOT TARGET vh_prelude)
    file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/prelude.cpp CONTENT "int main() {}\n")
    add_executable(vh_prelude ${CMAKE_BINARY_DIR}/prelude.cpp)
    target_link_libraries(vh_prelude PRIVATE vh_flags Qt6::Core)
    target_precompile_headers(vh_prelude PRIVATE <QtCore/QtCore>)
  endif()
  target_precompile_headers(${name} REUSE_FROM vh_prelude)
endfunction()

# vh_library(NAME sources... [DEPENDS targets...] [PRIVATE targets...] [OWN_HEADERS]): a static library of the project.
# OWN_HEADERS: one of the app's that another library's definitions keep from the prelude.
function(vh_library name)
  cmake_parse_arguments(arg "OWN_HEADERS" "" "DEPENDS;PRIVATE" ${ARGN})
  add_library(${name} STATIC ${arg_UNPARSED_ARGUMENTS})
  target_link_libraries(${name} PUBLIC vh_flags ${arg_DEPENDS} PRIVATE ${arg_PRIVATE})
  if(CMAKE_CURRENT_SOURCE_DIR MATCHES "^${CMAKE_SOURCE_DIR}/app" AND NOT arg_OWN_HEADERS)
    vh_qt_prelude(${name})
  endif()
endfunction()

# Runs moc on each source of a test, which includes the outcome itself ("test_x.moc"). Not AUTOMOC: for two hundred small
# targets that costs a program run, a look at every header and a compiled empty file each, a minute and a half in all.
# What a source includes need not be read: the classes of tests stand in them whole.
function(vh_test_moc name)
  list(FILTER ARGN INCLUDE REGEX "\\.cpp$")
  foreach(source ${ARGN})
    get_filename_component(base ${source} NAME_WE)
    get_filename_component(path ${source} ABSOLUTE)
    set(made ${CMAKE_CURRENT_BINARY_DIR}/${name}_moc/${base}.moc)
    add_custom_command(OUTPUT ${made} COMMAND Qt6::moc --no-notes -o ${made} ${path} DEPENDS ${path} VERBATIM)
    target_sources(${name} PRIVATE ${made})
  endforeach()
  target_include_directories(${name} PRIVATE ${CMAKE_CURRENT_BINARY_DIR}/${name}_moc)
endfunction()

# vh_test(NAME source.cpp [more...] [DEPENDS targets...] [LABELS ...] [TIMEOUT s]): one QtTest executable, one CTest entry.
function(vh_test name)
  cmake_parse_arguments(arg "" "TIMEOUT" "DEPENDS;LABELS" ${ARGN})
  if(NOT arg_TIMEOUT)
    set(arg_TIMEOUT 60)
  endif()
  add_executable(${name} ${arg_UNPARSED_ARGUMENTS})
  vh_test_moc(${name} ${arg_UNPARSED_ARGUMENTS})
  target_link_libraries(${name} PRIVATE vh_flags Qt6::Test ${arg_DEPENDS})
  vh_qt_prelude(${name})
  target_compile_definitions(${name} PRIVATE VH_SOURCE_DIR="${CMAKE_SOURCE_DIR}" VH_BINARY_DIR="${CMAKE_BINARY_DIR}")
  add_test(NAME ${name} COMMAND ${name})
  set_tests_properties(${name} PROPERTIES TIMEOUT ${arg_TIMEOUT}
    ENVIRONMENT "QT_QPA_PLATFORM=offscreen;XDG_RUNTIME_DIR=${CMAKE_BINARY_DIR}/runtime;LC_ALL=C.UTF-8;TSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/tsan.supp")
  if(arg_LABELS)
    set_tests_properties(${name} PROPERTIES LABELS "${arg_LABELS}")
  endif()
endfunction()

# vh_fuzz(NAME source.cpp [DEPENDS targets...]): a libFuzzer target; seeds and kept crashes in tests/fuzz/corpus/NAME.
function(vh_fuzz name)
  cmake_parse_arguments(arg "" "" "DEPENDS" ${ARGN})
  if(VOICEHALL_FUZZ)
    add_executable(${name} ${arg_UNPARSED_ARGUMENTS})
    target_link_libraries(${name} PRIVATE vh_flags ${arg_DEPENDS})
    target_link_options(${name} PRIVATE -fsanitize=fuzzer)
    set_target_properties(${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/fuzzers)
    add_dependencies(fuzzers ${name})
  endif()
endfunction()
