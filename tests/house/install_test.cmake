# Installs into an empty folder and runs what stands there; called by ctest with BUILD, PLACE and VERSION set.
file(REMOVE_RECURSE ${PLACE})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --prefix ${PLACE} RESULT_VARIABLE status OUTPUT_QUIET)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "cmake --install ended with ${status}")
endif()

execute_process(COMMAND ${PLACE}/bin/zeroline --version RESULT_VARIABLE status OUTPUT_VARIABLE output)
if(NOT status EQUAL 0 OR NOT output MATCHES "zeroline ${VERSION}")
  message(FATAL_ERROR "the installed program says: ${output} (status ${status}), not: zeroline ${VERSION}")
endif()

if(NOT EXISTS ${PLACE}/share/zeroline/schemas/record.schema.json)
  message(FATAL_ERROR "the schemas of our files are not installed")
endif()

if(WINDOW)
  file(STRINGS ${PLACE}/share/applications/zeroline.desktop entry REGEX "^(Exec|Icon)=")
  if(NOT entry STREQUAL "Exec=zeroline;Icon=zeroline")
    message(FATAL_ERROR "the desktop file starts something else: ${entry}")
  endif()
  file(SIZE ${PLACE}/share/icons/hicolor/scalable/apps/zeroline.svg icon)
endif()
file(REMOVE_RECURSE ${PLACE})
