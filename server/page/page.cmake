# The page inside the program: the page's tools when they are missing, web/dist, and the sources that carry it.
find_program(NODE node REQUIRED)
find_program(NPM npm REQUIRED)

file(GLOB_RECURSE page_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/*)
list(FILTER page_sources EXCLUDE REGEX "/web/dist/|/web/src/api/types\\.ts$")
set(page_dir ${CMAKE_BINARY_DIR}/page)

add_custom_command(
  OUTPUT ${page_dir}/page_assets.S ${page_dir}/page_assets.inc
  COMMAND sh -c "test node_modules/.package-lock.json -nt package-lock.json || \
                 { '${NPM}' ci --no-audit --no-fund --loglevel=error && touch node_modules/.package-lock.json; }"
  COMMAND ${NPM} run --silent build
  COMMAND ${NODE} ${CMAKE_SOURCE_DIR}/server/page/pack.mjs ${CMAKE_SOURCE_DIR}/web/dist ${page_dir}
  DEPENDS ${page_sources} ${CMAKE_SOURCE_DIR}/server/page/pack.mjs ${CMAKE_SOURCE_DIR}/api/openapi.yaml
          ${CMAKE_SOURCE_DIR}/package.json ${CMAKE_SOURCE_DIR}/package-lock.json
  WORKING_DIRECTORY ${CMAKE_SOURCE_DIR}
  COMMENT "Building the page"
  VERBATIM)

add_custom_target(brakewright_page DEPENDS ${page_dir}/page_assets.S ${page_dir}/page_assets.inc)
add_dependencies(brakewright_server brakewright_page)
target_sources(brakewright_server PRIVATE ${page_dir}/page_assets.S)
target_include_directories(brakewright_server PRIVATE ${page_dir})
set_source_files_properties(${CMAKE_SOURCE_DIR}/server/page/assets.cpp TARGET_DIRECTORY brakewright_server PROPERTIES
  COMPILE_DEFINITIONS BRAKEWRIGHT_PAGE_INSIDE OBJECT_DEPENDS ${page_dir}/page_assets.inc)
