# What `cmake --install` puts where, and what CPack makes of it: a .deb and an archive, both for any Debian from 12 on
# when they are built with SHIMWRIGHT_PORTABLE (tools/package).
include(GNUInstallDirs)
set(pages ${CMAKE_CURRENT_BINARY_DIR}/pages)
set(doc ${CMAKE_INSTALL_DOCDIR})

# the manual page and the completions are what the program itself says of its verbs
set(made ${pages}/shimwright.1.gz ${pages}/shimwright.bash ${pages}/_shimwright ${pages}/shimwright.fish
         ${pages}/changelog.gz ${pages}/manual.pdf)
add_custom_command(OUTPUT ${made} DEPENDS shimwright ${CMAKE_CURRENT_SOURCE_DIR}/packaging/changelog
  COMMAND ${CMAKE_COMMAND} -E make_directory ${pages}
  COMMAND sh -c "./shimwright manual | gzip -9n > pages/shimwright.1.gz"
  COMMAND sh -c "./shimwright manual --pdf pages/manual.pdf 2>pages/manual.log"
  COMMAND sh -c "./shimwright completion bash > pages/shimwright.bash"
  COMMAND sh -c "./shimwright completion zsh > pages/_shimwright"
  COMMAND sh -c "./shimwright completion fish > pages/shimwright.fish"
  COMMAND sh -c "gzip -9nc ${CMAKE_CURRENT_SOURCE_DIR}/packaging/changelog > pages/changelog.gz"
  WORKING_DIRECTORY ${CMAKE_CURRENT_BINARY_DIR} VERBATIM)
add_custom_target(pages ALL DEPENDS ${made})

install(TARGETS shimwright RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(FILES ${pages}/shimwright.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${pages}/shimwright.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME shimwright)
install(FILES ${pages}/_shimwright DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${pages}/shimwright.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES packaging/shimwright.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES web/public/favicon.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps RENAME shimwright.svg)
install(FILES packaging/copyright README.md DESTINATION ${doc})
install(FILES ${pages}/changelog.gz ${pages}/manual.pdf DESTINATION ${doc})
# the licences of what is inside, as the machine that builds has them; packaging/copyright lists it
foreach(package IN ITEMS libeigen3-dev libcli11-dev nlohmann-json3-dev libsqlitecpp-dev libexpected-dev libfmt-dev
                         libsqlite3-dev libcmark-gfm-dev)
  if(EXISTS /usr/share/doc/${package}/copyright)
    install(FILES /usr/share/doc/${package}/copyright DESTINATION ${doc}/third-party RENAME ${package})
  endif()
endforeach()
install(FILES packaging/BSL-1.0.txt DESTINATION ${doc}/third-party RENAME boost)
install(FILES third_party/fonts/LICENSE.md DESTINATION ${doc}/third-party RENAME fonts)
if(SHIMWRIGHT_WEB)
  install(FILES web/node_modules/svelte/LICENSE.md DESTINATION ${doc}/third-party RENAME svelte)
endif()
install(DIRECTORY docs/ DESTINATION ${doc}/docs)
install(DIRECTORY examples DESTINATION ${doc})

set(CPACK_PACKAGE_NAME shimwright)
set(CPACK_PACKAGE_VENDOR Shimwright)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "valve stacks, springs and oil of forks and shocks")
set(CPACK_PACKAGE_DESCRIPTION "Computes a motorcycle's fork or shock from its job file: shim stacks,
damping force, springs, oil, what fits on the post, torque and fill. Finds
mistakes before metal is touched, prints the sheets for the workshop and the
customer, and shows it all on a live page for this machine. Needs no network.")
set(CPACK_PACKAGE_CONTACT "The Shimwright workshop <workshop@shimwright.example>")
set(CPACK_RESOURCE_FILE_LICENSE ${CMAKE_CURRENT_SOURCE_DIR}/LICENSE)
set(CPACK_VERBATIM_VARIABLES ON)
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGE_FILE_NAME shimwright-${PROJECT_VERSION}-linux-${CMAKE_SYSTEM_PROCESSOR})
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_GENERATOR DEB TGZ)
include(CPack)
