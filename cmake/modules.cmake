# One static library per module, each with an include root of its own (src/M/include), so that an
# include across a forbidden direction does not build. DEPS are the modules this one may include;
# they are PUBLIC because their types appear in its headers.
#
#   lapwright_module(setout DEPS practice job geom base)
function(lapwright_module name)
  cmake_parse_arguments(ARG "" "" "DEPS;PRIVATE_DEPS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  add_library(lapwright_${name} STATIC ${sources})
  # A module may be headers alone for a while; without this, CMake cannot tell its language.
  set_target_properties(lapwright_${name} PROPERTIES LINKER_LANGUAGE CXX)
  target_include_directories(lapwright_${name}
    PUBLIC ${CMAKE_CURRENT_SOURCE_DIR}/${name}/include
    PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/${name})
  target_link_libraries(lapwright_${name} PRIVATE lapwright_flags)
  target_compile_options(lapwright_${name} PRIVATE -fno-exceptions)
  target_compile_definitions(lapwright_${name} PRIVATE FMT_EXCEPTIONS=0 JSON_NOEXCEPTION=1)
  foreach(dep IN LISTS ARG_DEPS)
    target_link_libraries(lapwright_${name} PUBLIC lapwright_${dep})
  endforeach()
  foreach(dep IN LISTS ARG_PRIVATE_DEPS)
    target_link_libraries(lapwright_${name} PRIVATE lapwright_${dep})
  endforeach()
endfunction()

# A GoogleTest program that is one ctest entry named NAME, labelled `unit`: those run under the sanitizers as
# well. All .cpp files of tests/NAME/ by default.
#
#   lapwright_test(geom MODULES geom base [LIBS geos_c] [SOURCES ...])
function(lapwright_test name)
  cmake_parse_arguments(ARG "" "" "MODULES;LIBS;SOURCES" ${ARGN})
  if(NOT ARG_SOURCES)
    file(GLOB ARG_SOURCES CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  endif()
  add_executable(test_${name} ${ARG_SOURCES})
  target_include_directories(test_${name} PRIVATE ${CMAKE_SOURCE_DIR}/tests/support)
  target_link_libraries(test_${name} PRIVATE lapwright_flags GTest::gtest GTest::gtest_main ${ARG_LIBS})
  foreach(module IN LISTS ARG_MODULES)
    target_link_libraries(test_${name} PRIVATE lapwright_${module})
  endforeach()
  add_test(NAME ${name} COMMAND test_${name} WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
  set_tests_properties(${name} PROPERTIES LABELS unit)
endfunction()
