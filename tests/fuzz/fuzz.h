/* What a fuzz target is: libFuzzer's entrance, which driver.c calls too. */
#pragma once

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);
