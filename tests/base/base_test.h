/* SPDX-License-Identifier: MIT */
/* What the tests of the base room share. */
#ifndef IFIG_BASE_TEST_H
#define IFIG_BASE_TEST_H

#include <check.h>
#include <stdlib.h>

#include "base.h"

static inline int run_case(TCase *facts, const char *name)
{
    Suite *suite = suite_create(name);
    suite_add_tcase(suite, facts);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
