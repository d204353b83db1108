/* The stack protector's two symbols: Debian's libc++ for WASI was built with it, its C library without. */
#include <stdint.h>

uintptr_t __stack_chk_guard = 0x595e9fbdU;

void __stack_chk_fail(void);
void __stack_chk_fail(void) {
  __builtin_trap();
}
