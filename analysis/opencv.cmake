# The few OpenCV modules that the analysis needs, without Debian's metapackage libopencv-dev: it alone
# ships OpenCVConfig.cmake, and drags in some two hundred packages that nothing here uses.
find_path(OPENCV_INCLUDE_DIR opencv2/core/version.hpp PATH_SUFFIXES opencv4 REQUIRED)
file(STRINGS ${OPENCV_INCLUDE_DIR}/opencv2/core/version.hpp version_lines
     REGEX "#define CV_VERSION_M(AJOR|INOR) ")
string(REGEX REPLACE ".*MAJOR +([0-9]+).*MINOR +([0-9]+).*" "\\1.\\2" OPENCV_VERSION "${version_lines}")

# opencv_modules(name ...): an imported target opencv::name for each.
function(opencv_modules)
  foreach(module ${ARGN})
    find_library(OPENCV_${module}_LIBRARY opencv_${module} REQUIRED)
    add_library(opencv::${module} INTERFACE IMPORTED GLOBAL)
    target_include_directories(opencv::${module} SYSTEM INTERFACE ${OPENCV_INCLUDE_DIR})
    target_link_libraries(opencv::${module} INTERFACE ${OPENCV_${module}_LIBRARY})
  endforeach()
endfunction()
