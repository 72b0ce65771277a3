#include "config.h"

#include "store/store-error.h"

G_DEFINE_QUARK (odd-store-error-quark, odd_store_error)
