# embed_file(TARGET SYMBOL FILE): puts the bytes of FILE into TARGET as
#   extern "C" const unsigned char SYMBOL[], SYMBOL_end[];
function(embed_file target symbol file)
  set(assembly ${CMAKE_CURRENT_BINARY_DIR}/${symbol}.S)
  file(CONFIGURE OUTPUT ${assembly} @ONLY CONTENT [[
    .section .rodata
    .global @symbol@
    .global @symbol@_end
@symbol@:
    .incbin "@file@"
@symbol@_end:
    .byte 0
    .section .note.GNU-stack,"",%progbits
]])
  set_source_files_properties(${assembly} TARGET_DIRECTORY ${target} PROPERTIES OBJECT_DEPENDS ${file})
  target_sources(${target} PRIVATE ${assembly})
endfunction()
