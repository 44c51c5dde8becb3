/* SPDX-License-Identifier: MIT */
/* How every C test of the libraries ends its main: one case of facts, run and counted. */
#ifndef IFIG_RUN_CASE_H
#define IFIG_RUN_CASE_H

#include <check.h>
#include <stdlib.h>

static inline int run_case(TCase *facts, const char *name)
{
    Suite *suite = suite_create(name);
    tcase_set_timeout(facts, 600); /* Meson has its own; a sanitizer is slow, not hung */
    suite_add_tcase(suite, facts);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
