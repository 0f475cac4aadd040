# Writes zeroline.1 from what the program itself says: PROGRAM, OUT, VERSION.
function(help_of result)
  execute_process(COMMAND ${PROGRAM} ${ARGN} --help OUTPUT_VARIABLE text RESULT_VARIABLE status)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "zeroline ${ARGN} --help ended with ${status}")
  endif()
  string(REPLACE "${PROGRAM}" "zeroline" text "${text}")
  # In a manual page a backslash begins a command, and so do a dot and an apostrophe at the beginning of a line.
  string(REPLACE "\\" "\\e" text "${text}")
  string(REPLACE "-" "\\-" text "${text}")
  string(REGEX REPLACE "(^|\n)([.'])" "\\1\\\\&\\2" text "${text}")
  set(${result} "${text}" PARENT_SCOPE)
endfunction()

help_of(whole)
string(REGEX MATCH "Subcommands:\n(.*)\n\nExit status: ([^\n]*)" found "${whole}")
set(list "${CMAKE_MATCH_1}")
set(statuses "${CMAKE_MATCH_2}")
string(REGEX MATCHALL "(^|\n)  [a-z\\-]+ " commands "${list}")
if(NOT commands)
  message(FATAL_ERROR "the help of the program lists no commands")
endif()

string(TIMESTAMP date "%Y-%m-%d" UTC) # of SOURCE_DATE_EPOCH where that is set
set(page ".TH ZEROLINE 1 \"${date}\" \"zeroline ${VERSION}\" \"User Commands\"
.SH NAME
zeroline \\- shows whether a mechanical insufflation\\-exsufflation unit delivers what was prescribed
.SH SYNOPSIS
.B zeroline
.RI [ options ]
.RI [ command
.RI [ \"options of the command\" ]]
.SH DESCRIPTION
The unit's hose is shut with an airtight plug, a serial pressure transducer sits beside it on a tee. The program guides
the run, measures every cycle, judges it against the prescription with its uncertainty, and leaves a sealed record.
Without a command it opens the window. It measures pressures and times at a closed hose end, and nothing else; take the
interface off the person before a run.
.SH OPTIONS AND COMMANDS
.nf
${whole}
.fi
")
foreach(command IN LISTS commands)
  string(REGEX REPLACE "[\n ]" "" command "${command}")
  string(REPLACE "\\-" "-" plain "${command}")
  help_of(text ${plain})
  string(APPEND page ".SS zeroline ${command}\n.nf\n${text}\n.fi\n")
endforeach()
string(APPEND page ".SH EXIT STATUS
${statuses}
.SH SEE ALSO
The guide and the descriptions of files and methods are in /usr/share/doc/zeroline.
")
file(WRITE ${OUT} "${page}")
