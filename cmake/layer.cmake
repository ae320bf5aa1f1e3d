# A layer is one folder of the tree and one static library: brakewright_<folder>, made of every source below it.
# What it needs from outside stands in its own CMakeLists.txt; what it may include of ours is named by the caller.

add_library(brakewright_rules INTERFACE)
target_compile_options(brakewright_rules INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
  # g++ 12 sees overlaps in std::string's operator+ that are not there (its bug 105651).
  target_compile_options(brakewright_rules INTERFACE -Wno-restrict)
  if(CMAKE_UNITY_BUILD)
    # It takes a source that is compiled together with others for a header.
    target_compile_options(brakewright_rules INTERFACE -Wno-subobject-linkage)
  endif()
endif()
target_include_directories(brakewright_rules INTERFACE ${CMAKE_SOURCE_DIR})
if(BRAKEWRIGHT_SANITIZE)
  target_compile_options(brakewright_rules INTERFACE
    -fsanitize=${BRAKEWRIGHT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(brakewright_rules INTERFACE -fsanitize=${BRAKEWRIGHT_SANITIZE})
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    # With the sanitizers' own branches in it, g++ takes the standard library's <regex> for uninitialised.
    target_compile_options(brakewright_rules INTERFACE -Wno-maybe-uninitialized)
  endif()
endif()

# Configured with CMAKE_UNITY_BUILD, the sources of a folder are compiled together, so many at a time: their headers and
# the templates that they share are then read and made once. So names of a folder's unnamed namespaces are told apart.
set(sources_at_a_time 8)
function(unite_by_folder target)
  get_target_property(sources ${target} SOURCES)
  list(SORT sources)
  foreach(source IN LISTS sources)
    cmake_path(GET source PARENT_PATH folder)
    string(MAKE_C_IDENTIFIER "${folder}" folder)
    if(NOT DEFINED seen_in_${folder})
      set(seen_in_${folder} 0)
    endif()
    math(EXPR part "${seen_in_${folder}} / ${sources_at_a_time}")
    math(EXPR seen_in_${folder} "${seen_in_${folder}} + 1")
    set_source_files_properties(${source} TARGET_DIRECTORY ${target} PROPERTIES UNITY_GROUP "${folder}_${part}")
  endforeach()
  set_target_properties(${target} PROPERTIES UNITY_BUILD_MODE GROUP)
endfunction()

# Those that the targets of tests/fuzz read through, which the fuzzer has to see into.
set(fuzzed_layers core calc shop store)

function(add_layer name)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/${name}/*.cpp)
  if(NOT sources)
    add_library(brakewright_${name} INTERFACE)
    return()
  endif()
  add_library(brakewright_${name} STATIC ${sources})
  unite_by_folder(brakewright_${name})
  target_link_libraries(brakewright_${name} PUBLIC brakewright_rules)
  if(NOT name STREQUAL core)
    # Only core computes for long; the others take half as long to compile at -O1 as at -O3.
    target_compile_options(brakewright_${name} PRIVATE $<$<CONFIG:Release>:-O1>)
  endif()
  if(BRAKEWRIGHT_FUZZ AND name IN_LIST fuzzed_layers)
    target_compile_options(brakewright_${name} PRIVATE -fsanitize=fuzzer-no-link)
  endif()
  foreach(inner IN LISTS ARGN)
    target_link_libraries(brakewright_${name} PUBLIC brakewright_${inner})
  endforeach()
  if(EXISTS ${CMAKE_SOURCE_DIR}/${name}/CMakeLists.txt)
    add_subdirectory(${CMAKE_SOURCE_DIR}/${name})
  endif()
endfunction()
