# Proves that include_directions.cmake lets good sources pass and catches each kind of breach, on a
# small made-up project. Run as: cmake -DSCRIPT=<it> -DFOLDER=<scratch> -P this
cmake_minimum_required(VERSION 3.25)

file(REMOVE_RECURSE ${FOLDER})
file(WRITE ${FOLDER}/DEVELOPERS.md "
| room | where | may use | libraries |
|---|---|---|---|
| `values` | `analysis/include/` | | |
| `analysis` | `analysis/src/` | `values` | `Pictures` |
| `records` | `src/journal/records.h` | `values` | |
| `journal` | `src/journal/` | `records` `values` | `Database` |
| `reports` | `src/reports/` | `records` | |
| `main` | `src/main.cpp` | `journal` | `console` |

| library | headers | package |
|---|---|---|
| `Pictures` | `pictures/` | libpictures-dev |
| `Database` | `database.h` | |
| `console` | `iostream` | |
")
file(WRITE ${FOLDER}/run "packages=(libpictures-dev)\n")
file(WRITE ${FOLDER}/analysis/include/analysis/units.h "#include <vector>\n")
file(WRITE ${FOLDER}/analysis/src/measure.cpp "#include \"analysis/units.h\"\n#include <pictures/core.h>\n")
file(WRITE ${FOLDER}/src/journal/records.h "#include \"analysis/units.h\"\n")
file(WRITE ${FOLDER}/src/journal/journal.h "#include \"journal/records.h\"\n#include <database.h>\n")
file(WRITE ${FOLDER}/src/reports/report.cpp "#include \"journal/records.h\"\n")
file(WRITE ${FOLDER}/src/main.cpp "#include <iostream>\n#include \"journal/journal.h\"\n")

function(run_check result output)
  execute_process(COMMAND ${CMAKE_COMMAND} -DROOT=${FOLDER} -P ${SCRIPT}
    RESULT_VARIABLE code OUTPUT_VARIABLE text ERROR_VARIABLE text)
  set(${result} ${code} PARENT_SCOPE)
  set(${output} "${text}" PARENT_SCOPE)
endfunction()

run_check(code text)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "good sources were refused:\n${text}")
endif()

# expect_breach(FILE ADDED MESSAGE): with the text added to the file, the check fails, saying so.
function(expect_breach file added expected)
  file(READ ${FOLDER}/${file} before)
  file(APPEND ${FOLDER}/${file} "${added}")
  run_check(code text)
  file(WRITE ${FOLDER}/${file} "${before}")
  string(FIND "${text}" "${expected}" at)
  if(code EQUAL 0 OR at LESS 0 OR NOT text MATCHES "1 breaches")
    message(FATAL_ERROR "expected exit 1 and '${expected}', got exit ${code} and:\n${text}")
  endif()
endfunction()

expect_breach(src/reports/report.cpp "#include \"journal/journal.h\"\n"
  "src/reports/report.cpp: reports may not use journal, but includes \"journal/journal.h\"")
expect_breach(analysis/include/analysis/units.h "#include <pictures/core.h>\n"
  "units.h: values may not use Pictures, but includes <pictures/core.h>")
expect_breach(src/journal/journal.h "#  include <iostream>\n"
  "journal.h: journal may not use console, but includes <iostream>")
expect_breach(src/reports/report.cpp "#include <unheard/of.h>\n"
  "<unheard/of.h> belongs to no library")
expect_breach(src/reports/report.cpp "#include \"gone.h\"\n" "\"gone.h\" is no file of this project")
file(WRITE ${FOLDER}/src/stray.h "")
run_check(code text)
file(REMOVE ${FOLDER}/src/stray.h)
if(code EQUAL 0 OR NOT text MATCHES "src/stray.h: lies in no room")
  message(FATAL_ERROR "a file in no room passed:\n${text}")
endif()
expect_breach(run "more=(libmore-dev)\n" "libmore-dev stands in only one of")
string(REPEAT "\n" 99 lines)
expect_breach(src/main.cpp "${lines}" "src/main.cpp: 101 lines; 100 are allowed")
string(REPEAT "\n" 400 lines)
expect_breach(src/reports/report.cpp "${lines}" "report.cpp: 401 lines; 400 are allowed")
