# A layer is one folder of the tree and one static library: brakewright_<folder>, made of every source below it.
# What it needs from outside stands in its own CMakeLists.txt; what it may include of ours is named by the caller.

add_library(brakewright_rules INTERFACE)
target_compile_options(brakewright_rules INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
  # g++ 12 sees overlaps in std::string's operator+ that are not there (its bug 105651).
  target_compile_options(brakewright_rules INTERFACE -Wno-restrict)
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

function(add_layer name)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/${name}/*.cpp)
  if(NOT sources)
    add_library(brakewright_${name} INTERFACE)
    return()
  endif()
  add_library(brakewright_${name} STATIC ${sources})
  target_link_libraries(brakewright_${name} PUBLIC brakewright_rules)
  if(NOT name STREQUAL core)
    # Only core computes for long; the others take half as long to compile at -O1 as at -O3.
    target_compile_options(brakewright_${name} PRIVATE $<$<CONFIG:Release>:-O1>)
  endif()
  foreach(inner IN LISTS ARGN)
    target_link_libraries(brakewright_${name} PUBLIC brakewright_${inner})
  endforeach()
  if(EXISTS ${CMAKE_SOURCE_DIR}/${name}/CMakeLists.txt)
    add_subdirectory(${CMAKE_SOURCE_DIR}/${name})
  endif()
endfunction()
