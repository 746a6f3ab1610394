# Writes the texts of TEMPLATES as C++ constants to OUTPUT: x.mustache becomes x_template, as
# templates.h declares them.
set(cpp "#include \"reports/templates.h\"\n\nnamespace loafmark::reports {\n")
foreach(file ${TEMPLATES})
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} text)
  string(APPEND cpp "\nconst std::string_view ${name}_template = R\"template(${text})template\";\n")
endforeach()
string(APPEND cpp "\n}  // namespace loafmark::reports\n")
file(WRITE ${OUTPUT} "${cpp}")
