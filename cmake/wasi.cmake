# The engine for WebAssembly: Debian's clang-19 and libc++ for the wasm32-wasi target. Library `native`
# headers must not be found by accident, so the search starts from nothing (-nostdlibinc) and the few
# header-only libraries that we use are linked in one by one (cmake/wasm_build.cmake).
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_C_COMPILER clang-19)
set(CMAKE_CXX_COMPILER clang++-19)
# wasm32-wasi and not wasm32-wasip1: Debian keeps its headers under the first name.
set(CMAKE_C_COMPILER_TARGET wasm32-wasi)
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)
# clang-19 brings no llvm-ar, and GNU ar's archives link; they need no index, so ranlib has nothing to do.
set(CMAKE_AR /usr/bin/ar)
set(CMAKE_RANLIB /bin/true)
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)
set(CMAKE_CXX_FLAGS_INIT "-nostdlibinc -isystem /usr/include/wasm32-wasi/c++/v1 -isystem /usr/include/wasm32-wasi")
set(CMAKE_C_FLAGS_INIT "-nostdlibinc -isystem /usr/include/wasm32-wasi")
# The default stack of 64 KiB overflows silently into the globals. First in memory, an overflow traps.
set(CMAKE_EXE_LINKER_FLAGS_INIT "-mexec-model=reactor -Wl,-z,stack-size=1048576 -Wl,--stack-first -Wl,--strip-all")
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
