# Writes OUT, a source file that holds every file FOLDER/*ENDING as text: the function FUNCTION of HEADER returns them.
file(GLOB files ${FOLDER}/*${ENDING})
list(SORT files)
string(CONCAT text "// Made by embed_texts.cmake.\n#include \"${HEADER}\"\n\n"
  "// A file may be longer than the 65,536 characters that every compiler must take; these take more.\n"
  "#pragma GCC diagnostic push\n#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n\n"
  "namespace zeroline::records {\n\n"
  "const std::vector<${TYPE}>& ${FUNCTION}()\n{\n    static const std::vector<${TYPE}> texts{\n")
foreach(file IN LISTS files)
  get_filename_component(name ${file} NAME)
  string(REPLACE "${ENDING}" "" name ${name})
  file(READ ${file} content)
  string(APPEND text "        {\"${name}\", R\"text(${content})text\"},\n")
endforeach()
string(APPEND text "    };\n    return texts;\n}\n\n} // namespace zeroline::records\n\n#pragma GCC diagnostic pop\n")
file(WRITE ${OUT} "${text}")
