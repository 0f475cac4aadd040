# Writes zeroline_build_stamp.hpp: which commit this build is made from. Run at every build; touches the file only when
# the commit changes, so that nothing is compiled for nothing.
execute_process(COMMAND git -C ${SOURCE_DIR} rev-parse --short=12 HEAD
                OUTPUT_VARIABLE commit OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
if(failed)
  set(commit "no-commit")
else()
  execute_process(COMMAND git -C ${SOURCE_DIR} status --porcelain --untracked-files=no
                  OUTPUT_VARIABLE changes ERROR_QUIET)
  if(changes)
    string(APPEND commit "+")
  endif()
endif()
set(text "#define ZEROLINE_VERSION \"${VERSION}\"\n#define ZEROLINE_COMPILER \"${COMPILER}\"\n#define ZEROLINE_COMMIT \"${commit}\"\n")
if(EXISTS ${OUT})
  file(READ ${OUT} old)
endif()
if(NOT "${old}" STREQUAL "${text}")
  file(WRITE ${OUT} "${text}")
endif()
