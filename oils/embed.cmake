# embed_data(TARGET NAMESPACE DIR): compiles every YAML and CSV file of DIR into TARGET, so that one binary
# works from any folder; the YAML parsed (oils/embed.cpp). Gives NAMESPACE::embedded_files(), sorted by name
# (see oils/embedded.hpp).
function(embed_data target namespace dir)
  get_filename_component(leaf ${dir} NAME)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${target}_${leaf}_embedded.cpp)
  file(GLOB files CONFIGURE_DEPENDS ${dir}/*.yaml ${dir}/*.csv)
  add_custom_command(
    OUTPUT ${out}
    COMMAND barwright_embed ${out} ${namespace} ${files}
    DEPENDS ${files} barwright_embed
    COMMENT "Embedding ${dir}")
  target_sources(${target} PRIVATE ${out})
  set_source_files_properties(${out} PROPERTIES SKIP_PRECOMPILE_HEADERS ON)
endfunction()
