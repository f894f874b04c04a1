# `cpack --config BUILD/CPackConfig.cmake -G DEB` makes a Debian package of all that is installed. What the programs and
# plugins need is found in their files by dpkg-shlibdeps; what serves beside them is named here.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME ohmwright)
set(CPACK_PACKAGE_VERSION "${PROJECT_VERSION}")
set(CPACK_PACKAGE_CONTACT "the ohmwright project <ohmwright@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_VERBATIM_VARIABLES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS  # others must not be able to write where plugins are
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS_PRIVATE_DIRS "${CMAKE_BINARY_DIR}/${CMAKE_INSTALL_LIBDIR}")
set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS OFF)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "gnuplot-nox, graphviz")  # pictures in reports, drawings of circuits
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "g++ (>= 12) | clang (>= 14), cmake (>= 3.25), libboost-dev (>= 1.74)")  # for kinds in C++
include(CPack)
