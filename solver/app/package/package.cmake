# What `cmake --install` and `cpack -G DEB` carry: the program (component program) and the layers below it as
# libraries (component libraries, found by find_package(barwright)).
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(package ${CMAKE_CURRENT_LIST_DIR})
set(made ${PROJECT_BINARY_DIR}/package)

# Manual and completion come from the same declarations as --help.
find_program(GZIP gzip REQUIRED)
add_custom_command(OUTPUT ${made}/barwright.1.gz
  COMMAND ${CMAKE_COMMAND} -E make_directory ${made}
  COMMAND barwright manual > ${made}/barwright.1
  COMMAND ${GZIP} -9nf ${made}/barwright.1
  DEPENDS barwright VERBATIM)
set(texts ${made}/barwright.1.gz)
foreach(shell bash zsh fish)
  add_custom_command(OUTPUT ${made}/completion.${shell}
    COMMAND barwright completion ${shell} > ${made}/completion.${shell}
    DEPENDS barwright ${made}/barwright.1.gz VERBATIM)
  list(APPEND texts ${made}/completion.${shell})
endforeach()
add_custom_target(barwright_texts ALL DEPENDS ${texts})
execute_process(COMMAND ${GZIP} -9nc ${package}/changelog OUTPUT_FILE ${made}-changelog.gz)

set(CMAKE_INSTALL_DEFAULT_COMPONENT_NAME program)
install(TARGETS barwright RUNTIME)
install(FILES ${made}/barwright.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/completion.bash RENAME barwright
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${made}/completion.fish RENAME barwright.fish
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
# Debian's zsh looks in another folder below /usr than below /usr/local.
install(CODE "set(zsh site-functions)
  if(CMAKE_INSTALL_PREFIX MATCHES \"/usr$\")
    set(zsh vendor-completions)
  endif()
  file(INSTALL \"${made}/completion.zsh\" RENAME _barwright
    DESTINATION \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}/zsh/\${zsh}\")")
install(FILES README.md ${package}/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/barwright)
install(FILES ${made}-changelog.gz RENAME changelog.gz DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/barwright)
install(DIRECTORY examples DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/barwright PATTERN "*.sh" EXCLUDE)

set(CMAKE_INSTALL_DEFAULT_COMPONENT_NAME libraries)
set(libraries flags core text oils targets optimise explain recipe batch books tune formulate jobs solver)
foreach(library ${libraries})
  add_library(barwright::${library} ALIAS barwright_${library})
  set_target_properties(barwright_${library} PROPERTIES EXPORT_NAME ${library})
  list(APPEND exported barwright_${library})
endforeach()
set(config ${CMAKE_INSTALL_LIBDIR}/cmake/barwright)
install(TARGETS ${exported} EXPORT barwright)
install(EXPORT barwright NAMESPACE barwright:: FILE barwrightTargets.cmake DESTINATION ${config})
write_basic_package_version_file(${made}/barwrightConfigVersion.cmake COMPATIBILITY ExactVersion)
install(FILES ${package}/barwrightConfig.cmake ${made}/barwrightConfigVersion.cmake DESTINATION ${config})
install(DIRECTORY core oils targets solver DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/barwright
  FILES_MATCHING PATTERN "*.hpp" PATTERN "app" EXCLUDE PATTERN "data" EXCLUDE PATTERN "additives" EXCLUDE)
install(FILES ${package}/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/libbarwright-dev)
install(FILES ${made}-changelog.gz RENAME changelog.gz
  DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/libbarwright-dev)

set(CPACK_PACKAGE_NAME barwright)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "barwright developers <barwright@barwright.invalid>")
set(CPACK_PACKAGE_VENDOR "barwright developers")
set(CPACK_COMPONENTS_ALL program libraries)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME barwright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_LIBRARIES_PACKAGE_NAME libbarwright-dev)
set(CPACK_DEBIAN_LIBRARIES_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARIES_PACKAGE_DEPENDS
  "libyaml-cpp-dev, libfmt-dev, libnlopt-dev, libnlopt-cxx-dev, libeigen3-dev")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
"from the bar of soap you want to the blend, the lye and the sheet
 A maker of cold-process soap writes down the bar she wants; barwright finds
 the blend of the oils on her shelf that makes it, proves that none does it
 better or says which wishes collide, and weighs out oils, lye and water.
 It keeps the books of lots and batches, sheets for the bench, labels, prices.")
set(CPACK_COMPONENT_LIBRARIES_DESCRIPTION
"barwright's layers as C++ libraries
 Headers and static libraries: the lye engine, the library of oils, the model
 of a bar's properties, and the search for blends, which needs none of the rest.")
include(CPack)
