/* SPDX-License-Identifier: MIT */
/* What the tests of the base room share. */
#ifndef IFIG_BASE_TEST_H
#define IFIG_BASE_TEST_H

#include <stdlib.h>

#include "../run_case.h"
#include "base.h"

#endif
