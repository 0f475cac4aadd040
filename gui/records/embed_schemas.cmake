# Writes OUT, a source file that holds every schema of FOLDER as text.
file(GLOB files ${FOLDER}/*.schema.json)
list(SORT files)
set(text "// Made from docs/schemas by embed_schemas.cmake.\n#include \"gui/records/schemas.hpp\"\n\n"
  "namespace zeroline::records {\n\nconst std::vector<ShippedSchema>& shipped_schemas()\n{\n"
  "    static const std::vector<ShippedSchema> schemas{\n")
foreach(file IN LISTS files)
  get_filename_component(name ${file} NAME)
  string(REPLACE ".schema.json" "" name ${name})
  file(READ ${file} schema)
  string(APPEND text "        {\"${name}\", R\"schema(${schema})schema\"},\n")
endforeach()
string(APPEND text "    };\n    return schemas;\n}\n\n} // namespace zeroline::records\n")
file(WRITE ${OUT} "${text}")
