/* SPDX-License-Identifier: MIT */
/* One wrong call, as generate.py writes them. */
#ifndef IFIG_MISUSE_H
#define IFIG_MISUSE_H

#include <stddef.h>

#include "interfig/interfig.h"

typedef struct Misuse {
    const char *function, *what;
    int (*call)(IfigError *error); /* the status; -1: the function has none */
    unsigned expected;             /* bit 1 << IfigStatus for each status that may come */
} Misuse;

#define ANY_FAILURE (~(1u << IFIG_OK))
#define ANYTHING    (~0u)

extern const Misuse misuses[];
extern const size_t misuse_count;

#endif
