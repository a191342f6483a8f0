# embed_data(TARGET NAMESPACE DIR): compiles every YAML and CSV file of DIR into TARGET, so that one binary
# works from any folder. Gives NAMESPACE::embedded_files(), sorted by name (see oils/embedded.hpp).
function(embed_data target namespace dir)
  get_filename_component(leaf ${dir} NAME)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${target}_${leaf}_embedded.cpp)
  file(GLOB files CONFIGURE_DEPENDS ${dir}/*.yaml ${dir}/*.csv)
  add_custom_command(
    OUTPUT ${out}
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DNAMESPACE=${namespace} -DDIR=${dir}
            -P ${PROJECT_SOURCE_DIR}/oils/embed_script.cmake
    DEPENDS ${files} ${PROJECT_SOURCE_DIR}/oils/embed_script.cmake
    COMMENT "Embedding ${dir}")
  target_sources(${target} PRIVATE ${out})
endfunction()
