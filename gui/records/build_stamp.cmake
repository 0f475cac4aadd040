# Writes zeroline_build_stamp.hpp: which commit this build is made from. Run at every build; touches the file only when
# the commit changes, so that nothing is compiled for nothing. COMMIT: told from outside, for sources that are in no git
# checkout of their own (an unpacked archive, which may lie inside somebody else's).
if(COMMIT)
  set(commit "${COMMIT}")
else()
  execute_process(COMMAND git -C ${SOURCE_DIR} rev-parse --show-toplevel OUTPUT_VARIABLE top
                  OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
  file(REAL_PATH ${SOURCE_DIR} sources)
  if(failed OR NOT top STREQUAL sources)
    set(commit "not-from-git")
  else()
    execute_process(COMMAND git -C ${SOURCE_DIR} rev-parse --short=12 HEAD
                    OUTPUT_VARIABLE commit OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
    execute_process(COMMAND git -C ${SOURCE_DIR} status --porcelain --untracked-files=no
                    OUTPUT_VARIABLE changes ERROR_QUIET)
    if(changes)
      string(APPEND commit "+")
    endif()
  endif()
endif()
set(text "#define ZEROLINE_VERSION \"${VERSION}\"\n#define ZEROLINE_COMPILER \"${COMPILER}\"\n#define ZEROLINE_COMMIT \"${commit}\"\n")
if(EXISTS ${OUT})
  file(READ ${OUT} old)
endif()
if(NOT "${old}" STREQUAL "${text}")
  file(WRITE ${OUT} "${text}")
endif()
